"""Every time of day on a list says of which zone it is: once on the page, or with each time where rows of several zones
stand together; in a file each time has its offset, or its row names the zone of what is told as it was typed."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import time_machine
from flask.testing import FlaskClient

from repairlog.records.store import open_store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import full_book
from tests.makers import stores as s
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.site import site
from tests.web.everyone.read import text_of
from tests.web.frame.test_every_list import LISTS

NOW = "2026-03-06T15:20:00Z"
CLOCK = re.compile(r"(?<![\d:+-])(?:[01]\d|2[0-3]):[0-5]\d(?::[0-5]\d)?(?!\d)")
NAMED = re.compile(CLOCK.pattern + r" (?:E|M)[SD]T\b")
OFFSET = re.compile(CLOCK.pattern + r"[+-]\d\d:\d\d")
ON_A_PAGE = {"calls.page", "due.page", "gaps.page", "every_sign_in.page", "looked_at.page", "unfinished.page"}
IN_A_FILE = ON_A_PAGE
"""The lists that show a time of day here; no other does."""


@pytest.fixture(scope="module")
def walks(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, FlaskClient]]:
    """Browsers at the full book, in which two areas of two zones have calls, gaps of order and what is due by an hour:
    of somebody with every right, and of the crew, who left something unfinished."""
    file = tmp_path_factory.mktemp("times") / "repairlog.db"
    file.write_bytes(sqlite_template.read_bytes())
    full = full_book.filled(open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS))
    book, inspector = full.book, m.person("the inspector")
    for area in (book.area, book.other_area):
        leak, call = m.leak(book, area=area), c.call(book, area=area)
        book.say(m.adopted(area), leak, m.grade(leak["id"], grade="1"), call)
        book.say(c.sent(call["id"], happened="2026-03-03 07:40"))
    days = {"until_on": "2999-12-31", "period_from_on": "2026-01-01", "period_until_on": "2026-12-31"}
    book.say(inspector, m.role_given(inspector["id"], "inspector", **days), s.shelf(book))
    here = site(book)
    with time_machine.travel(NOW, tick=False):
        here.client(m.Actor(person=m.read_id(inspector["id"]), sure="password")).get("/leaks")
        yield {"everyone": here.client(book.everyone), "crew": here.client(book.crew)}
    book.store.close()


def asked(walks: dict[str, FlaskClient], endpoint: str, *, file: bool) -> str:
    address = (
        "/records?by=ended&from=2026-01-01" if endpoint == "records.page" else LISTS[endpoint][0].partition("?")[0]
    )
    browser = walks["crew" if endpoint == "unfinished.page" else "everyone"]
    answer = browser.get(address + ("&as=csv" if "?" in address else "?as=csv") if file else address)
    assert answer.status_code == 200
    return answer.get_data().decode("utf-8-sig")


@pytest.mark.parametrize("endpoint", LISTS)
def test_a_time_of_day_on_a_list_names_its_zone(walks, endpoint):
    page = text_of(asked(walks, endpoint, file=False).partition("<h1>")[2])
    times = CLOCK.findall(page)
    assert bool(times) == (endpoint in ON_A_PAGE)
    assert "Times are of America/" in page or len(NAMED.findall(page)) == len(times)


@pytest.mark.parametrize("endpoint", LISTS)
def test_a_time_of_day_in_a_file_has_its_offset(walks, endpoint):
    rows = list(csv.DictReader(io.StringIO(asked(walks, endpoint, file=True), newline=""), strict=True))
    told = [(cell, row) for row in rows for cell in row.values() if CLOCK.search(cell)]
    assert bool(told) == (endpoint in IN_A_FILE)
    bare = [cell for cell, row in told if not OFFSET.search(cell) and not row.get("Time zone")]
    assert bare == []


def test_a_zone_is_said_once_where_all_rows_are_of_one_and_with_each_time_where_they_are_of_several(walks):
    for list, once, each in (
        ("/calls", "Times are of America/New_York.", ["3 Mar 2026, 07:44 EST", "3 Mar 2026, 07:44 MST"]),
        ("/due", "Times are of America/New_York.", ["limit 3 Mar 2026, 09:52 EST", "limit 3 Mar 2026, 09:52 MST"]),
        ("/gaps", "Times are of America/New_York.", ["Times are of America/New_York.", "Times are of America/Denver."]),
    ):
        one, both = (text_of(walks["everyone"].get(at).text) for at in (f"{list}?area=ES", list))
        assert (one.count(once), [said in both for said in each]) == (1, [True, True]), list


def test_a_story_says_of_which_zone_its_times_are_on_its_page_and_where_it_is_printed(walks):
    page = walks["everyone"].get("/leaks?area=HF").text
    sheet = re.search(r'href="(/leaks/[0-9a-f-]{36})"', page)
    assert sheet
    assert "Times are of America/Denver." in walks["everyone"].get(sheet[1]).text
    printed = walks["everyone"].get("/records/stories?area=ES").text
    stories = printed.count('<article class="one-story"')
    assert stories > 1
    assert len(re.findall(r"Times (?:are|of each entry are) of ", printed)) == stories
