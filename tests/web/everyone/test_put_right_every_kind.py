"""Every kind of entry is put right from a page: the page that tells of it leads whoever may to its form, which opens
with its fields; a correction of it posts, stands beside what was said before, and so does a correction of that
correction."""

from __future__ import annotations

from flask.testing import FlaskClient

from repairlog.access.posts import POSTS
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.records.rebuild import check
from repairlog.records.store import Store
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS, SUBJECT
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.every_kind import every_kind
from tests.makers.form_page import fill_in, form_page
from tests.makers.program import actors
from tests.makers.site import site

DAYS = {"happened": "2026-02-02", "again": "2026-02-01"}
"""What a correction and a correction of that say of the day, none of them a day on which anything was entered."""


def test_every_kind_of_entry_opens_in_its_form_is_corrected_and_its_correction_is_corrected(
    sqlite_store: Store,
) -> None:
    book = m.opened(sqlite_store)
    made = {kind: raw for kind, raw in every_kind(book).items() if kind not in RIGHTING}
    made["operator_opened"] = {"kind": "operator_opened", "id": book.operator, "name": "Saltmarsh Gas"}
    made["operator_opened"] |= {"zone": "America/New_York", "happened": "2025-01-02"}
    for raw in made.values():
        book.say(raw)
    pages, of = site(book), actors(book)
    browsers = {role: pages.client(of[role]) for role in ("officer", "administrator")}
    found = {
        kind: _put_right(book, browsers["officer" if "officer" in POSTS[kind] else "administrator"], kind, raw)
        for kind, raw in made.items()
    }
    assert {kind: said for kind, said in found.items() if said} == {}
    assert {*found, *RIGHTING} == {*KINDS}
    assert check(book.store).differences == ()


def _put_right(book: m.Book, browser: FlaskClient, kind: str, raw: dict[str, object]) -> str:
    """What went wrong on the way; empty where nothing did."""
    at = _address(book, str(raw["id"]))
    told = _told_at(book, str(raw["id"]))
    ways = [at, at.removesuffix("right") + "void"]
    if not all(f'href="{way}"' in browser.get(told).text for way in ways):
        return f"{told} does not lead to where it is put right or made void"
    if (answer := browser.get(ways[1])).status_code != 200:
        return f"the page that makes it void answers {answer.status_code}"
    page = browser.get(at)
    if page.status_code != 200:
        return f"its form answers {page.status_code}"
    boxes = form_page(page).boxes
    if lacking := {name for name in raw if name in _plain(kind)} - {name.removeprefix("entry-") for name in boxes}:
        return f"no box for {sorted(lacking)}"
    typed = {"right__reason": "misread", "entry__happened": DAYS["happened"]}
    if (saved := fill_in(browser, at, **typed)).status_code != 303:
        return f"a correction of it is answered with {saved.status_code}"
    if not all(day in _entry(browser.get(told).text, str(raw["id"])) for day in ("2 Feb 2026", "misread")):
        return f"{told} does not show what was put right"
    first = next(row["id"] for row in rows(book.store, OF_KIND["corrected"]) if row["entry_id"] == read_id(raw["id"]))
    again = at.replace(f"/entries/{raw['id']}/", f"/entries/{first}/")
    typed = {"right__reason": "misread again", "entry__changes__0__to": DAYS["again"]}
    if (saved := fill_in(browser, again, **typed)).status_code != 303:
        return f"a correction of its correction is answered with {saved.status_code}"
    on = next(row["happened_on"] for row in rows(book.store, ENTRY) if row["id"] == read_id(raw["id"]))
    return "" if on.isoformat() == DAYS["again"] else f"it stands on {on}"


def _entry(page: str, id: str) -> str:
    """What a page tells of one entry."""
    return page.partition(f'id="e-{id}"')[2].partition('<li class="entry')[0]


PAGES = {"call": "calls", "person": "people", "crew": "crews", "instrument": "instruments", "area": "areas"}
PAGES |= {
    "company": "companies",
    "lot": "stores/lots",
    "place": "places",
    "shelf": "stores/shelves",
    "operator": "operator",
}


def _told_at(book: m.Book, entry: str) -> str:
    """The address of the page that tells of that entry."""
    at = _address(book, entry)
    if at.startswith("/leaks/"):
        return at.partition("/entries/")[0]
    of = read_id(at.split("/")[2])
    kind = next(row["kind"] for row in rows(book.store, SUBJECT) if row["id"] == of)
    return f"/{PAGES[kind]}/{of}"


def _plain(kind: str) -> set[str]:
    """Fields that its form asks for: what was worked out is not put right by hand."""
    if kind == "figure_kept":
        return {"happened", "remarks"}
    return {field.name for field in KINDS[kind].fields}


def _address(book: m.Book, entry: str) -> str:
    of = next(row["subject_id"] for row in rows(book.store, ENTRY) if row["id"] == read_id(entry))
    subject = next(row for row in rows(book.store, SUBJECT) if row["id"] == of)
    if subject["kind"] == "source":
        return f"/leaks/{subject['within_id']}/entries/{entry}/right"
    if subject["kind"] == "dig":
        served = next(
            row["leak_id"] for row in rows(book.store, OF_ROWS["dig_opened", "leaks"]) if row["entry_id"] == of
        )
        return f"/leaks/{served}/entries/{entry}/right"
    return f"/{'leaks' if subject['kind'] == 'leak' else 'books'}/{of}/entries/{entry}/right"
