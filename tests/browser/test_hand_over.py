"""A hand-over at night on a phone: the first hour by touches, then the watch passes to the next person, who has it."""

from __future__ import annotations

import re

from playwright.sync_api import expect

from tests.browser.test_trips import leak_opened
from tests.makers.browser import DESK, PHONE

MOST_TOUCHES = 12
"""Touches for on site, gas under control, the fire department, people out and the hand-over: an aim of ours."""


def test_a_watch_is_handed_over_at_night_and_the_next_one_has_it(shown):
    touches = 0
    with shown.seen_by("crew", PHONE) as window:
        page = window.page
        sheet = leak_opened(page, house="118")
        page.get_by_role("link", name="First hour").click()
        for moment in ("On site", "People out", "Gas under control"):
            if moment == "People out":
                page.get_by_label("How many").first.fill("7")
                touches += 1
            page.get_by_role("button", name=moment, exact=True).click()
            touches += 1
            expect(page.get_by_role("status")).to_contain_text(f"Saved: {moment}")
        page.get_by_role("button", name="Fire department").click()
        touches += 1
        expect(page.get_by_role("status")).to_contain_text("Saved: Told: fire department")
        page.get_by_role("button", name="Undo: Told: fire department").click()
        expect(page.locator(".so-far .void")).to_contain_text("Entered in error, and undone")
        page.get_by_role("link", name="Hand the watch over").click()
        page.get_by_role("button", name="Now").first.click()
        expect(page.get_by_label("Day", exact=True).first).not_to_have_value("")
        page.get_by_label("Who takes it over").select_option(label="C. Varga")
        page.get_by_label("How many customers are off").fill("2")
        page.get_by_role("button", name="Save the hand-over").click()
        touches += 5
        expect(page.get_by_text("The watch goes to C. Varga").first).to_be_visible()
        page.get_by_role("link", name="Hand the watch over").click()
        assert page.get_by_label("Who hands it over").locator("option:checked").inner_text() == "C. Varga"
        assert window.troubles == []
    assert touches <= MOST_TOUCHES
    with shown.seen_by("supervisor", DESK) as window:
        window.page.goto(sheet)
        titles = window.page.locator(".sheet h2").all_inner_texts()
        noted = [title for title in map(first_words, titles) if title in ("On site", "People out", "Gas under control")]
        assert noted == ["On site", "People out", "Gas under control"]
        assert any(title.startswith("The watch goes to C. Varga") for title in titles)
        assert window.troubles == []


def first_words(title: str) -> str:
    """A heading of the sheet without who did it."""
    return re.split(r"\s{2,}|\n", title)[0].removesuffix("M. Aldous").strip()
