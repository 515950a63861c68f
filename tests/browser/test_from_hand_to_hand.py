"""What goes from one person to the next through the pages, each finding it on their own page Today: a call that
becomes a leak, a repair returned and accepted, what is due and who has it."""

from __future__ import annotations

import csv
import re
from datetime import UTC, datetime
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Live
from tests.makers.browser import DESK, PHONE

YEAR = f"{datetime.now(UTC):%y}"


def part_of_today(page: Page, heading: str) -> Locator:
    """That part of the page Today."""
    page.goto("/today")
    return page.locator("main section", has=page.get_by_role("heading", name=heading))


def box(page: Page, name: str) -> Locator:
    """The box of the page's form that bears that name."""
    return page.locator(f'#entering [name="{name}"]:not([type=hidden])').first


def now_in(page: Page, name: str) -> None:
    """This minute, put into that box by its button."""
    page.locator(".field", has=page.locator(f'[name="{name}"]')).get_by_role("button", name="Now").click()
    expect(box(page, name)).not_to_have_value("")


def saved(page: Page, button: str) -> None:
    page.get_by_role("button", name=button, exact=True).click()
    expect(page.get_by_role("status").first).to_contain_text("Saved:")


def to_accept(page: Page) -> Locator:
    """On Today, the way to the repair of 14 Quarry Lane that waits to be accepted."""
    waiting = part_of_today(page, "Waits for you").locator("li", has_text="14 Quarry Lane")
    return waiting.get_by_role("link", name="Look it over")


def test_a_call_becomes_a_leak(shown: Live) -> None:
    with shown.seen_by("dispatcher", DESK) as desk:
        page = desk.page
        part_of_today(page, "Calls in").get_by_role("link", name="Take a call").click()
        box(page, "call-area").select_option(label="Eastmarsh")
        page.get_by_label("Odor of gas").check()
        for name, text in {"house_number": "27", "street": "Lamplighter Close", "town": "Harrowsedge"}.items():
            box(page, f"call-{name}").fill(text)
        box(page, "call-caller_name").fill("R. Quill")
        now_in(page, "call-happened")
        saved(page, "Save the call")
        waiting = part_of_today(page, "Calls in").locator("li", has_text="27 Lamplighter Close")
        waiting.get_by_role("link", name="Send somebody").click()
        box(page, "step-person").select_option(label="M. Aldous")
        now_in(page, "step-happened")
        saved(page, "Save")
        assert desk.troubles == []
    with shown.seen_by("crew", PHONE) as crew:
        page = crew.page
        part_of_today(page, "Who is out").get_by_role("link", name="M. Aldous: sent").first.click()
        expect(page.get_by_role("heading", level=1)).to_have_text("27 Lamplighter Close, Harrowsedge")
        saved(page, "On the way now")
        saved(page, "On site now")
        page.get_by_role("link", name="Our leak: open it").click()
        expect(page.locator("main")).to_contain_text("Not in a gas atmosphere")
        typed = [box(page, f"leak-{name}").input_value() for name in ("house_number", "street", "town")]
        assert typed == ["27", "Lamplighter Close", "Harrowsedge"]  # as the desk took it: nobody types it twice
        now_in(page, "outcome-happened")
        saved(page, "Save the leak and the outcome")
        expect(page.locator(".sheet .entry h2").first).to_contain_text("Reported: call about an odor")
        number = re.search(rf"ES-{YEAR}-\d{{4}}", page.locator("div.facts").inner_text())
        assert number
        assert crew.troubles == []
    with shown.seen_by("dispatcher", DESK) as desk:
        page = desk.page
        expect(part_of_today(page, "Who is out")).not_to_contain_text("27 Lamplighter Close")
        page.goto("/calls?street=lamplighter")
        page.locator("tr", has_text="27 Lamplighter Close").get_by_role("link").first.click()
        facts = page.locator("div.facts")
        expect(facts).to_contain_text("Our leak")
        expect(page.locator(".sheet > .entry")).to_have_count(5)  # received, sent, on the way, on site, how it came out
        facts.get_by_role("link", name=f"Leak {number[0]}").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("27 Lamplighter Close, Harrowsedge")
        assert desk.troubles == []


def test_a_supervisor_returns_a_repair_and_accepts_the_one_after_it(shown: Live) -> None:
    with shown.seen_by("supervisor", DESK) as window:
        page = window.page
        to_accept(page).click()
        window.expects.add(422)
        page.get_by_label("Returned").check()
        page.get_by_role("button", name="Save the review").click()  # what is wrong with it is not said yet
        expect(page.get_by_role("alert")).to_be_visible()
        expect(page.get_by_label("Returned")).to_be_checked()
        box(page, "review-reason").fill("no pressure on the record; soap it again and say at what")
        now_in(page, "review-happened")
        saved(page, "Save the review")
        sheet = page.url.partition("?")[0]
        expect(to_accept(page)).to_have_count(0)
        assert window.troubles == []
    with shown.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto(sheet)
        expect(page.locator(".sheet")).to_contain_text("soap it again and say at what")
        page.get_by_role("link", name="Log a repair").click()
        now_in(page, "repair-happened")
        page.get_by_label("Permanent").check()
        box(page, "repair-method").fill("bolt-on clamp")
        box(page, "repair-pressure_found").fill("45 psi")
        page.locator('#entering [name="repair-outcome"][value="tight"]').check()
        page.locator('#entering [name="test-kind_of_test"][value="soap"]').check()
        page.locator('#entering [name="test-result"][value="tight"]').check()
        box(page, "test-pressure").fill("45 psi")
        saved(page, "Save the repair")
        assert window.troubles == []
    with shown.seen_by("supervisor", PHONE) as window:
        page = window.page
        to_accept(page).click()
        expect(page.locator("section.told").first).to_contain_text("45 psi gauge")
        page.get_by_label("Accepted").check()
        now_in(page, "review-happened")
        saved(page, "Save the review")
        expect(page.locator(".sheet > .entry h2").last).to_contain_text("accepted")
        expect(to_accept(page)).to_have_count(0)
        assert window.troubles == []


def test_a_manager_sees_what_is_due_and_who_has_it(shown: Live, tmp_path: Path) -> None:
    with shown.seen_by("manager", DESK) as window:
        page = window.page
        part_of_today(page, "Due this week").get_by_role("link", name="All that is due this week").click()
        page.get_by_role("link", name="Show all").click()
        rows = page.locator("table.due tbody tr")
        late = ["late" in (row.get_attribute("class") or "") for row in rows.all()]
        assert late == sorted(late, reverse=True)  # late first
        assert True in late
        expect(rows.first.locator(".by")).to_contain_text(re.compile(r"\d+ days? late"))
        expect(rows.first).to_contain_text("limit ")
        page.get_by_label("Area").select_option(label="Eastmarsh")
        page.get_by_label("Task").select_option(label="Repair")
        page.get_by_label("Who has it").select_option(label="no one")
        page.get_by_role("button", name="Show").click()
        page.wait_for_url(re.compile("area=ES"))
        first = page.locator("table.due tbody tr").first
        expect(first.locator(".clause small")).to_contain_text(re.compile(r"\S"))
        number = first.locator(".where small").inner_text()
        sheet = first.get_by_role("link").get_attribute("href")
        assert sheet
        assert window.troubles == []
    with shown.seen_by("supervisor", DESK) as window:
        page = window.page
        page.goto(sheet)
        page.get_by_text("More to enter").click()
        page.get_by_role("link", name="Give work").click()
        page.locator('#entering [name="entry-work"][value="repair"]').check()
        box(page, "entry-person").select_option(label="M. Aldous")
        now_in(page, "entry-happened")
        saved(page, "Give it")
        assert window.troubles == []
    with shown.seen_by("manager", DESK) as window:
        page = window.page
        page.goto(f"/due?text={number}")
        expect(page.locator("table.due tbody tr").first.locator(".whom")).to_have_text("M. Aldous")
        with page.expect_download() as taken:
            page.get_by_role("link", name="Take these away as CSV").click()
        taken.value.save_as(file := tmp_path / "due.csv")
        told = list(csv.DictReader(file.read_text(encoding="utf-8-sig").splitlines()))
        assert {(row["Number"], row["Who has it"]) for row in told} == {(number, "M. Aldous")}
        assert window.troubles == []
    with shown.seen_by("crew", PHONE) as window:
        expect(part_of_today(window.page, "Given to you")).to_contain_text(number)
