"""Whatever a form is about may be gone from its sender's sight by the time it is sent: a right ended, a record moved or
made one. What was typed is then saved, kept as unfinished or on the page that answers, at every address there is."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest

from repairlog import web
from repairlog.access import Actor
from repairlog.entries.ids import as_id, read_id
from repairlog.records.store import Store
from repairlog.records.tables.beside import UNFINISHED
from tests.house.test_rights import address_of, form, routes
from tests.house.walked import Walk, walked
from tests.makers import book as m
from tests.makers.copies import rows

OUR_OWN = {"sign_in.come_in", "sign_in.out", "entries.post"}
"""Signing in and out, and what programs send: no forms about anything."""

SENT = sorted({endpoint for endpoint, method in routes() if method == "POST"} - OUR_OWN)
AS_IT_STANDS = {
    "put_right.page": {"2026-03-02"},
    "put_right.of_books": {"2026-01-05", "2027-01-05"},
    "ties.link": {"ES-26-0002"},
}
"""What nobody changed, and a number that is kept as the id of the leak that it names."""

TAKE_PASSWORDS = {"mine", "sign_ins", "person_signs_in"}
PASSWORD = "of a gate by the river"
PASSWORD_BOXES = {
    name
    for page in Path(web.__file__).parent.rglob("*.html")
    for name in re.findall(r'name="([^"]*)" type="password"', page.read_text(encoding="utf-8"))
}
"""Of every page there is."""


@pytest.fixture
def walk(sqlite_store: Store) -> Walk:
    return walked(sqlite_store)


def typed_into(walk: Walk, endpoint: str) -> dict[str, str]:
    """The form of that page, filled in."""
    passwords = dict.fromkeys(PASSWORD_BOXES if endpoint.split(".")[0] in TAKE_PASSWORDS else (), PASSWORD)
    return form(walk, endpoint) | passwords | ({"name": "R. Tolland"} if endpoint == "person_signs_in.page" else {})


def lost(walk: Walk, endpoint: str, *, by: str, **instead: str) -> list[str]:
    """Of what is typed into the form, what is nowhere after that person sent it; `instead`: as `address_of` has it."""
    fields, before = typed_into(walk, endpoint), unfinished(walk)
    answer = walk.browsers[by].post(address_of(walk, endpoint, "POST", **instead), data=fields)
    if answer.status_code in (302, 303):
        return []
    there = html.unescape(answer.text) + "".join(unfinished(walk) - before)
    assert PASSWORD not in there, endpoint
    texts = {text for text in fields.values() if text != PASSWORD and is_typed(text)}
    return sorted(text for text in texts - AS_IT_STANDS.get(endpoint, set()) if text not in there)


def is_typed(text: str) -> bool:
    """Whether a person typed or chose it: a page names things, rows and texts by itself."""
    return as_id(text) is None and not re.fullmatch(r"[a-z]\d+|[0-9a-f]{64}", text)


def unfinished(walk: Walk) -> set[str]:
    """What is kept as such by now, each as text."""
    return {json.dumps(row["raw"], ensure_ascii=False) for row in rows(walk.site.book.store, UNFINISHED)}


def test_who_sees_nothing_of_it_loses_nothing_whatever_the_form(walk: Walk) -> None:
    """A supervisor of another area, and somebody whose last role ended while the form was filled in."""
    book = walk.site.book
    gone = m.person("R. Tolland")
    book.say(gone)
    left = Actor(person=read_id(gone["id"]), sure="password")
    walk.browsers["left"] = walk.site.client(left)
    found = {(who, each): lost(walk, each, by=who) for who in ("foreign", "left") for each in SENT}
    assert {at: texts for at, texts in found.items() if texts} == {}


def test_who_may_do_everything_loses_nothing_when_what_the_form_is_about_is_gone(walk: Walk) -> None:
    """Each thing that the address names by itself, as if it had been made one with another or were not in scope."""
    rules = {each.endpoint: each for each in walk.site.app.url_map.iter_rules() if "POST" in (each.methods or ())}
    at = [(each, name) for each in SENT for name, of in rules[each]._converters.items() if "UUID" in type(of).__name__]
    found = {(each, name): lost(walk, each, by="officer", **{name: m.new_id()}) for each, name in at}
    assert {each for each, _name in found} > {"made_one.street", "reviews.page", "put_right.page", "first_hour.tap"}
    assert {at: texts for at, texts in found.items() if texts} == {}
