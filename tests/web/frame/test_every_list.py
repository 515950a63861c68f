"""Every list of the site is taken away as a file: by a link on its page, with its filter, with the same rows and no
others, whatever the list."""

from __future__ import annotations

import csv
import html
import io
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from flask import Flask, template_rendered
from flask.testing import FlaskClient

from repairlog.records.store import open_store
from repairlog.web.frame import listing
from repairlog.web.frame.pages import every_link
from tests.makers import book as m
from tests.makers import full_book
from tests.makers import stores as s
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.site import site
from tests.web.everyone.read import link, text_of

LISTS = {
    "leaks.page": ("/leaks?street=lane", "Number"),
    "calls.page": ("/calls?from=2026-03-01", "Number"),
    "records.page": ("/records?by=ended&from=2026-01-01", "Number"),
    "due.page": ("/due?area=ES", "Number"),
    "gaps.page": ("/gaps?area=ES", "Number"),
    "lots.page": ("/stores?item=clamp", "Lot number"),
    "shelves.page": ("/stores/shelves", "Name"),
    "people.page": ("/people?area=ES", "Name"),
    "companies.page": ("/companies?text=pipe", "Company"),
    "companies.unknown": ("/companies/not-on-the-books", "Name as written"),
    "out_of_term.page": ("/companies/outside-their-terms", "Leak"),
    "crews.page": ("/crews", "Crew"),
    "instruments.page": ("/instruments?area=ES", "Mark"),
    "areas.page": ("/areas", "Area"),
    "places.page": ("/places?text=lane", "Street"),
    "digs_listed.page": ("/digs?area=ES", "Leaks"),
    "work_listed.page": ("/work?area=ES", "Leak"),
    "every_sign_in.page": ("/sign-ins", "Signs in as"),
    "looked_at.page": ("/looked-at?from=2026-01-01", "Who"),
    "unfinished.page": ("/unfinished", "What it would enter"),
    "moves.page": ("/moved", "What"),
}
"""By endpoint, the list with a filter where it has one, and a column of its file that its page shows, too."""

NO_LISTS = {"today.page", "rulebooks.page", "figures.page", "paper.page", "visitors.page"}
"""What the shell leads to beside lists: parts of several of them, a form, and what the program brings along."""

ROW = re.compile(r"<tr\b(?! class=\"group\")[^>]*>(.*?)</tr>", re.DOTALL)


ZONE = re.compile(r" [EM]ST\b")
"""How a time names its zone, where rows of several zones are on the page."""


@contextmanager
def listening(app: Flask) -> Iterator[list[object]]:
    """What each page that is drawn meanwhile is drawn of."""
    drawn: list[object] = []

    def see(_app: Flask, template: object, context: dict[str, object]) -> None:
        drawn.append(context.get("of"))

    with template_rendered.connected_to(see, app):
        yield drawn


@pytest.fixture(scope="module")
def walks(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, FlaskClient]]:
    """Browsers at the full book: of somebody with every right, and of the crew, who left something unfinished."""
    file = tmp_path_factory.mktemp("lists") / "repairlog.db"
    file.write_bytes(sqlite_template.read_bytes())
    book = full_book.filled(open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS)).book
    inspector = m.person("the inspector")
    days = {"until_on": "2999-12-31", "period_from_on": "2026-01-01", "period_until_on": "2026-12-31"}
    book.say(inspector, m.role_given(inspector["id"], "inspector", **days), s.shelf(book))
    here = site(book)
    looking = here.client(m.Actor(person=m.read_id(inspector["id"]), sure="password"))
    looking.get("/leaks")
    yield {"everyone": here.client(book.everyone), "crew": here.client(book.crew), "officer": here.client(book.officer)}
    book.store.close()


def shown(page: str) -> list[str]:
    """The rows of the list on a page, as text."""
    body = page.partition('<section id="list"')[2].partition("<tbody>")[2].partition("</tbody>")[0]
    return [text_of(row) for row in ROW.findall(body)]


@pytest.mark.parametrize("endpoint", LISTS)
def test_a_list_is_taken_away_by_its_link_with_the_rows_that_it_shows_and_no_others(walks, endpoint):
    address, column = LISTS[endpoint]
    browser = walks["crew" if endpoint == "unfinished.page" else "everyone"]
    page = browser.get(address).text
    taken = link(page, "Take these away as CSV")
    asked = address.partition("?")[2]
    assert taken == f"{address}&as=csv" if asked else f"{address}?as=csv"
    text = browser.get(taken).data.decode("utf-8-sig")
    assert text.count("\r\n") > 1
    cells = [" ".join(row[column].split()) for row in csv.DictReader(io.StringIO(text, newline=""), strict=True)]
    rows = [html.unescape(row).casefold() for row in shown(page)]
    assert len(cells) == len(rows)
    assert [cell for cell, row in zip(cells, rows, strict=True) if cell.casefold() not in row] == []


@pytest.mark.parametrize("endpoint", LISTS)
def test_pages_of_a_list_follow_one_another_without_loss(walks, endpoint, monkeypatch):
    browser = walks["crew" if endpoint == "unfinished.page" else "everyone"]
    at, seen = LISTS[endpoint][0], []
    whole = shown(browser.get(at).text)
    monkeypatch.setattr(listing, "A_PAGE", max(2, len(whole) // 3))
    while at:
        page = browser.get(at).text
        seen, at = [*seen, *shown(page)], link(page, "Further")
    assert [ZONE.sub("", row) for row in seen] == [ZONE.sub("", row) for row in whole]


@pytest.mark.parametrize("endpoint", LISTS)
def test_every_list_is_drawn_by_the_frame_and_says_what_would_stand_in_it(walks, endpoint):
    browser = walks["crew" if endpoint == "unfinished.page" else "everyone"]
    with listening(browser.application) as drawn:
        page = browser.get(LISTS[endpoint][0]).text
    (of,) = (found for found in drawn if isinstance(found, listing.Listing))
    assert all(f'id="wrong-{box.name}"' in page for box in of.of.boxes)
    assert (bool(of.title), bool(of.about or of.empty), text_of(page).count(of.title) > 0) == (True, True, True)


def test_every_list_that_the_shell_leads_to_is_walked() -> None:
    assert {each.endpoint for each in every_link()} - LISTS.keys() == NO_LISTS


def test_no_page_but_the_frame_of_lists_gives_a_file_or_cuts_its_rows_into_pages() -> None:
    web = Path(listing.__file__).parents[1]
    own = {"as_csv.py", "listing.py", "gaps.py"}  # gaps asks whether a file is wanted, which needs no counts
    assert [each.name for each in web.rglob("*.py") if each.name not in own and "as_csv" in each.read_text()] == []
    drawn = [each.name for each in web.rglob("*.html") if 'rel="next"' in each.read_text()]
    assert drawn == ["filters.html"]
