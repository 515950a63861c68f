"""Five Sheets of a list that nobody here invented say what its rows say. Which rows is settled when the test runs."""

from __future__ import annotations

import csv
import re
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from repairlog import cli
from tests.browser.conftest import Live
from tests.makers.browser import DESK
from tests.makers.command import NEW_BOOK
from tests.makers.filings import REPAIRED, columns_of, folder
from tests.makers.serve import serving

NUMBER, ADDRESS, CROSS, TOWN, REPORTED, CLASS_15, CLASS_16, GRADE, ENDED = range(9)
CODE = re.compile(r"\d[A-Z]?")

ROWS: dict[str, Callable[[list[str]], bool]] = {
    "graded once": lambda row: (
        [place for place in (CLASS_15, CLASS_16, GRADE) if CODE.fullmatch(row[place])] == [GRADE]
    ),
    "graded in both years before": lambda row: all(CODE.fullmatch(row[it]) for it in (CLASS_15, CLASS_16, GRADE)),
    "graded beside the usual ones": lambda row: row[GRADE] == "2A",
    "at a corner": lambda row: bool(row[CROSS]),
    "repaired before it was reported": lambda row: read_day(row[ENDED]) < read_day(row[REPORTED]),
}
"""Which rows are looked at: the first of each kind."""


def read_day(cell: str) -> date:
    """A day of the list, read by other means than ours."""
    month, day, year = map(int, cell.split("/"))
    return date(year + (2000 if year < 50 else 1900), month, day)


def shown_day(day: date) -> str:
    """As pages write it."""
    return f"{day.day} {day:%b %Y}"


@pytest.fixture(scope="module")
def listed(chromium: Browser, sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    """A book into which the whole list was taken, served."""
    filing = folder() / REPAIRED.name
    at = tmp_path_factory.mktemp("listed")
    url = f"sqlite:///{shutil.copy(sqlite_template, at / 'repairlog.db')}"
    (at / "password").write_text("no word of anybody real")
    (at / "columns.toml").write_text(columns_of(REPAIRED))
    assert cli.run(["init", *NEW_BOOK, "--admin-password-file", str(at / "password"), "--database", url]) == 0
    columns = ["--columns", str(at / "columns.toml")]
    assert cli.run(["import", str(filing), "--kind", "repairs", "--area", "ES", *columns, "--database", url]) == 0
    with serving(url) as server:
        everyone = {"name": "R. Tolland", "password": (at / "password").read_text()}
        yield Live(chromium, server.address.rstrip("/"), {"administrator": everyone})


@pytest.mark.parametrize("kind", ROWS)
def test_a_sheet_says_what_its_row_says(listed, kind):
    with (folder() / REPAIRED.name).open(encoding="utf-8-sig", newline="") as file:
        row = next(row for row in list(csv.reader(file))[1:] if ROWS[kind](row))
    with listed.seen_by("administrator", DESK) as window:
        window.page.goto(f"/leaks?number={row[NUMBER]}")
        window.page.locator(".leaks td.where a").click()
        window.page.wait_for_url("**/leaks/*-*")
        same = said(window.page) == expected(row)
        assert same, "the Sheet says something else than its row"  # neither of them is printed
        assert window.troubles == []


def expected(row: list[str]) -> dict[str, object]:
    """What the row says: number, address, days, grades in the order of their days, and what does not hold up."""
    reported, ended = read_day(row[REPORTED]), read_day(row[ENDED])
    days = {CLASS_15: date(2015, 5, 15), CLASS_16: date(2016, 5, 15), GRADE: ended}
    grades = [(day, row[place]) for place, day in days.items() if CODE.fullmatch(row[place])]
    cross = f" at {row[CROSS].removeprefix('@ ')}" if row[CROSS] else ""
    turned = f"The repair stands on {shown_day(ended)}, before the leak was reported on {shown_day(reported)}."
    return {
        "number": row[NUMBER],
        "address": f"{row[ADDRESS]}{cross}, {row[TOWN]}",
        "reported": shown_day(reported),
        "ended": shown_day(ended),
        "grades": [(shown_day(day), f"Grade {code}") for day, code in sorted(grades, key=lambda it: it[0])],
        "gaps": [f"{turned} Correct whichever day is wrong."] if ended < reported else [],
    }


def said(page: Page) -> dict[str, object]:
    """The same, as it stands on the Sheet."""
    entries = [
        (entry.locator("time b").inner_text(), entry.locator("h2").evaluate("it => it.firstChild.textContent.trim()"))
        for entry in page.locator(".sheet > .entry").all()
    ]
    return {
        "number": page.locator(".facts b").first.inner_text(),
        "address": page.get_by_role("heading", level=1).inner_text(),
        "reported": next(day for day, title in entries if title.startswith("Reported")),
        "ended": next(day for day, title in entries if title.startswith("Ended")),
        "grades": [(day, title) for day, title in entries if title.startswith("Grade")],
        "gaps": page.locator(".note.gap .typed").all_inner_texts(),
    }
