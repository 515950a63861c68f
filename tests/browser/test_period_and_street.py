"""An inspector sees the period and nothing else, and that is listed; an officer takes the record of a street."""

from __future__ import annotations

import csv
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

from playwright.sync_api import Page, expect

from tests.browser.conftest import Live
from tests.makers.browser import DESK, PHONE

AFTER = (datetime.now(UTC) - timedelta(days=8)).date().isoformat()
"""A day after the last one of the period, in every zone of the demo: that was ten days ago."""


def numbers(page: Page) -> set[str]:
    return set(re.findall(r"(?:ES|HF)-\d\d-\d{4}", page.locator("main").inner_text()))


def test_an_inspector_sees_only_the_period(shown: Live) -> None:
    with shown.seen_by("officer", DESK) as officer:
        officer.page.goto(f"/records?from={AFTER}")
        later = numbers(officer.page)
        assert later
        number = min(later)
        address = officer.page.locator("tr", has_text=number).locator("a").first.get_attribute("href")
        assert address
    with shown.seen_by("inspector", PHONE) as inspector:
        inspector.page.goto(f"/records?from={AFTER}")
        assert numbers(inspector.page) == set()
        inspector.page.goto("/records")
        seen = numbers(inspector.page)
        assert seen
        assert not seen & later
        inspector.page.locator("tr", has_text=min(seen)).locator("a").first.click()
        expect(inspector.page.get_by_role("heading", level=1)).to_be_visible()
        assert inspector.page.get_by_role("link", name="Add a note").count() == 0
        answer = inspector.page.goto(address)
        assert answer
        assert answer.status == 404
    with shown.seen_by("officer", DESK) as officer:
        officer.page.goto("/records")
        officer.page.get_by_role("link", name="What inspectors looked at").click()
        first = officer.page.locator("table.list tbody tr").first
        expect(first).to_contain_text("A. Verrill")
        expect(first).to_contain_text(f"Sheet {min(seen)}")


def test_an_officer_takes_the_record_of_a_street(shown: Live, tmp_path: Path) -> None:
    with shown.seen_by("officer", DESK) as officer:
        page = officer.page
        page.goto("/records")
        page.get_by_label("Street or town").fill("quarry")
        page.get_by_role("button", name="Show").click()
        page.wait_for_url(re.compile("street=quarry"))
        found = numbers(page)
        assert found
        with page.expect_download() as taken:
            page.get_by_role("link", name="Take these away as CSV").click()
        file = tmp_path / "records.csv"
        taken.value.save_as(file)
        rows = list(csv.DictReader(file.read_text(encoding="utf-8-sig").splitlines()))
        assert {row["Number"] for row in rows} == found
        assert all("quarry" in row["Street"].lower() for row in rows)
        page.get_by_role("link", name="Their stories, to print").click()
        expect(page.locator(".one-story")).to_have_count(len(found))
