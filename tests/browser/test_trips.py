"""A leak's way through the pages, from the report to its end, as people go it: with script and without."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import Page, expect

from tests.makers.browser import DESK, PHONE, looking, sign_in

BEFORE = (datetime.now(UTC) - timedelta(days=2)).date()
"""A day that is over in every zone of the demo."""

DAY = f"{BEFORE.day} {BEFORE:%b %Y}"
"""The same as pages write it."""

LOT = "C-2207"
"""One of the demo's clamps."""

SHEET = re.compile(r"/leaks/[0-9a-f]{8}-[0-9a-f-]{27}")
FITTED = [
    "Method bolt-on clamp",
    "Line pressure found 45 psi gauge 310 kPa",
    "On Source 1",
    f"Materials Lot {LOT}, bolt-on clamp, 3/4 in",
]
STORY = [
    ("07:52", "Reported: call about an odor", []),
    (
        "08:26",
        "First investigation",
        ["Bar hole 1, 6 ft from wall 0 %LEL", "Bar hole 2, over the service 60 %LEL 3 % gas"],
    ),
    ("08:40", "Grade 2", []),
    ("09:05", "Source 1: service, threaded tee", ["Nominal size 3/4 in 19 mm"]),
    ("10:02", "Repair, attempt 1: permanent, not tight", FITTED),
    ("11:40", "Repair, attempt 2: permanent, tight", [*FITTED[:3], "In the crew's word Tight", FITTED[3]]),
    ("11:40", f"Soap test of attempt 2, {DAY}, tight", ["Test pressure 45 psi gauge 310 kPa"]),
    ("13:20", f"Review of attempt 2, {DAY}, accepted", []),
    ("13:25", "Ended: repaired", [f"By Attempt 2, {DAY} tight"]),
]
"""What the Sheet tells in the end: hour, heading, measures."""

scripts = pytest.mark.parametrize("script", [True, False], ids=["with script", "without script"])


def entered(page: Page, boxes: dict[str, str]) -> None:
    """Fill in boxes of the page's form by their names; a moment is an hour of that day."""
    for name, value in boxes.items():
        box = page.locator(f'#entering [name="{name}"]:not([type=hidden])')
        if name.endswith("-happened"):
            box.nth(0).fill(BEFORE.isoformat())
            box.nth(1).fill(value)
        elif box.first.get_attribute("type") == "radio":
            page.locator(f'#entering [name="{name}"][value="{value}"]').check()
        elif box.evaluate("it => it.localName") == "select":
            box.select_option(value)
        else:
            box.fill(value)


def saved(page: Page, button: str) -> None:
    """Save, and come to the Sheet, which says so."""
    page.get_by_role("button", name=button).click()
    page.wait_for_url(SHEET)
    expect(page.get_by_role("status")).to_contain_text("Saved:")


def leak_opened(page: Page, *, house: str) -> str:
    """A leak in Quarry Lane, opened from the list; the address of its Sheet."""
    page.goto("/leaks")
    page.get_by_role("link", name="Open a leak").click()
    where = {"leak-house_number": house, "leak-street": "Quarry Lane", "leak-town": "Harrowsedge"}
    entered(page, {"leak-happened": "07:52", **where, "leak-detected_by": "odor_call"})
    saved(page, "Save the leak")
    found = SHEET.search(page.url)
    assert found
    return found.group()


def visited(page: Page) -> None:
    """Two bar holes, one of them without gas."""
    page.get_by_role("link", name="Log a visit").click()
    entered(page, {"visit-happened": "08:26", "visit-purpose": "first_investigation"})
    for place, (label, value) in enumerate({"6 ft from wall": "0 %LEL", "over the service": "60 %LEL"}.items()):
        if not page.locator(f'[name="visit-places-{place}-label"]').count():
            page.get_by_role("button", name="Add a place").click()
        row = f"visit-places-{place}"
        entered(page, {f"{row}-kind": "bar_hole", f"{row}-label": label, f"visit-readings-{place}-value": value})
    saved(page, "Save the visit")


def graded_and_found(page: Page) -> None:
    """Grade 2, and a threaded tee that leaks."""
    page.get_by_role("link", name="Set the grade", exact=True).click()
    entered(page, {"grade-happened": "08:40", "grade-grade": "2"})
    saved(page, "Save the grade")
    page.get_by_text("More to enter").click()
    page.get_by_role("link", name="Add a source").click()
    tee = {"source-part": "service", "source-component": "threaded tee", "source-size": "3/4 in"}
    entered(page, {"source-happened": "09:05", **tee})
    saved(page, "Save the source")


def repaired(page: Page, hour: str, *, outcome: str, test: dict[str, str]) -> None:
    """An attempt on the source, with a lot, and its test where there is one."""
    page.get_by_role("link", name="Log a repair").click()
    entered(
        page,
        {
            "repair-happened": hour,
            "repair-lasting": "permanent",
            "repair-method": "bolt-on clamp",
            "repair-pressure_found": "45 psi",
            "repair-materials-0-named": LOT,
            "repair-outcome": outcome,
            **test,
        },
    )
    saved(page, "Save the repair")


@scripts
def test_a_leak_goes_from_its_report_to_its_end(shown, script):
    face = replace(PHONE, script=script)
    with looking(shown.browser, face, at=shown.address) as window:
        page, crew = window.page, shown.sign_ins["crew"]
        sign_in(page, name=crew["name"], password=crew["password"])
        sheet = leak_opened(page, house="14" if script else "16")
        visited(page)
        graded_and_found(page)
        repaired(page, "10:02", outcome="not_tight", test={})
        soap = {"test-kind_of_test": "soap", "test-result": "tight", "test-pressure": "45 psi"}
        repaired(page, "11:40", outcome="tight", test=soap)
        assert window.troubles == []
    with shown.seen_by("supervisor", replace(DESK, script=script)) as window:
        window.page.goto(sheet)
        accepted_and_ended(window.page)
        assert told(window.page) == STORY
        assert window.page.locator(".facts").inner_text().splitlines()[1] == f"Repaired, {DAY}"
        assert [it for it in window.page.locator(".gap").all_inner_texts() if it] == []
        assert window.troubles == []


def accepted_and_ended(page: Page) -> None:
    """The last attempt is accepted, and the leak ended by it, as the page proposes."""
    page.get_by_role("link", name="Accept or return it").last.click()
    entered(page, {"review-outcome": "accepted", "review-happened": "13:20"})
    saved(page, "Save the review")
    page.get_by_text("More to enter").click()
    page.get_by_role("link", name="End the leak", exact=True).click()
    entered(page, {"ending-how": "repaired", "ending-happened": "13:25"})
    saved(page, "End the leak")


def told(page: Page) -> list[tuple[str, str, list[str]]]:
    """The Sheet's entries from top to bottom: their hour, their heading without who did it, their measures."""
    return [
        (
            entry.locator("time").inner_text().partition("\n")[2],
            entry.locator("h2").evaluate(
                "it => [...it.childNodes].filter(of => of.localName != 'small')"
                ".map(of => of.textContent.trim()).filter(of => of).join(', ')"
            ),
            [re.sub(r"\s+", " ", it) for it in entry.locator(".measures > div").all_inner_texts()],
        )
        for entry in page.locator(".sheet > .entry").all()
    ]


@scripts
def test_a_wrong_unit_leaves_every_other_field_as_typed_and_stands_under_unfinished(shown, script):
    with shown.seen_by("crew", replace(PHONE, script=script)) as window:
        page = window.page
        window.expects.add(422)
        page.goto("/leaks?status=open")
        page.locator(".leaks td.where a").first.click()
        page.wait_for_url(SHEET)
        page.get_by_role("link", name="Log a repair").click()
        typed = {
            "repair-lasting": "temporary",
            "repair-method": "clamp <b>&amp; wrap",
            "repair-pressure_found": "45 psi",
            "repair-hole_size": "1/16 inn",
            "repair-materials-0-named": "Q-7",
            "repair-materials-0-used": "half a roll",
            "repair-outcome": "not_tested",
        }
        entered(page, {"repair-happened": "10:02", **typed})
        page.get_by_role("button", name="Save the repair").click()
        expect(page.get_by_role("alert")).to_contain_text("1 thing could not be read")
        assert stands_in(page, typed) == typed
        assert page.locator(".field.wrong label").first.inner_text() == "Size of the hole"
        page.get_by_role("link", name="Unfinished (1)").click()
        page.get_by_role("link", name="Open").click()
        assert stands_in(page, typed) == typed
        entered(page, {"repair-hole_size": "1/16 in"})
        saved(page, "Save the repair")
        page.locator(".more > summary").click()
        page.get_by_role("link", name="Unfinished", exact=True).click()
        expect(page.locator("main")).to_contain_text("You left nothing unfinished.")
        assert window.troubles == []


def stands_in(page: Page, boxes: dict[str, str]) -> dict[str, str]:
    """What stands in these boxes now."""
    page.locator("#entering").wait_for()
    held = page.evaluate("() => Object.fromEntries(new FormData(document.getElementById('entering')))")
    return {name: held[name] for name in boxes}


@scripts
def test_a_filter_stands_in_the_address_and_the_way_back_goes_to_the_one_before(shown, script):
    with shown.seen_by("officer", replace(DESK, script=script)) as window:
        page = window.page
        page.goto("/leaks")
        every = page.locator(".leaks td.own").all_inner_texts()
        page.get_by_label("Street or town").fill("mill la")
        page.get_by_role("button", name="Show").click()
        page.wait_for_url(re.compile(r"street=mill(\+|%20)la"))
        expect(page.locator(".leaks td.where").first).to_contain_text("Mill Lane")
        few = page.locator(".leaks td.own").all_inner_texts()
        assert 0 < len(few) < len(every)
        address = page.url
        page.get_by_label("Status").select_option("ended")
        page.get_by_role("button", name="Show").click()
        page.wait_for_url(re.compile("status=ended"))
        page.go_back()
        page.wait_for_url(address)
        expect(page.locator(".leaks td.own")).to_have_text(few)
        assert page.get_by_label("Street or town").input_value() == "mill la"
        page.goto(address)
        expect(page.locator(".leaks td.own")).to_have_text(few)
        assert window.troubles == []


def test_with_script_a_pressure_is_read_back_beside_its_box_and_nothing_is_saved(shown):
    with shown.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto("/leaks?status=open")
        page.locator(".leaks td.where a").first.click()
        page.get_by_role("link", name="Log a repair").click()
        found = page.get_by_label("Line pressure found")
        found.fill("7 inches")
        found.blur()
        expect(page.locator("#repair-pressure_found-said .heard")).to_have_text("7 in wc gauge, 1.744 kPa")
        expect(page.locator(".top .row")).not_to_contain_text("Unfinished")
        assert (found.input_value(), window.troubles) == ("7 inches", [])
