"""A print of a page: black on white, complete, nothing to press, each story on a page of its own where it fits."""

from __future__ import annotations

import io

import pytest

from tests.makers.browser import DESK, Face

COLOURS = """() => [...new Set([...document.querySelectorAll('main, main *, body, html')]
    .filter(it => it.checkVisibility())
    .flatMap(it => [getComputedStyle(it).color, getComputedStyle(it).backgroundColor]))]"""
CUT = """() => [...document.querySelectorAll('main table, main pre, main dl')]
    .filter(it => it.checkVisibility() && it.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .map(it => it.outerHTML.slice(0, 80))"""
SHOWN = """pressed => [...document.querySelectorAll(pressed)].filter(it => it.checkVisibility()).length"""
PRESSED = "nav, button, input, select, .filters, .do, .top, .skip"


def pages_of(window):
    """The text of each page that the browser prints."""
    pypdf = pytest.importorskip("pypdf", reason="pypdf, which reads what was printed, is not installed")
    read = pypdf.PdfReader(io.BytesIO(window.page.pdf(format="Letter")))
    return [" ".join(page.extract_text().split()) for page in read.pages]


def test_each_story_begins_a_page_and_is_there_to_its_last_word(live):
    with live.seen_by("officer", Face(width=1280, height=900, dark=True)) as window:
        window.page.goto("/records/stories?area=ES&street=quarry")
        heads = [" ".join(each.inner_text().split()) for each in window.page.locator(".one-story > .head").all()]
        lasts = window.page.locator(".one-story > .kept").all_inner_texts()
        pages = pages_of(window)
    begins = [next(place for place, text in enumerate(pages) if head[:55] in text[:200]) for head in heads]
    assert len(heads) == len(lasts) > 1
    assert begins == sorted(set(begins))
    assert sum(lasts[0][:60] in text for text in pages) == len(lasts)
    assert "Sign out" not in "".join(pages)


def test_what_is_folded_on_the_screen_stands_on_paper(live):
    with live.seen_by("officer", DESK) as window:
        window.page.goto(live.filled("/leaks/{longest}"))
        window.page.evaluate("() => document.querySelectorAll('details').forEach(it => it.open = false)")
        window.page.evaluate(
            "() => document.querySelector('.story').insertAdjacentHTML('beforeend',"
            " '<details class=fold><summary>more</summary><p>the last word</p></details>')"
        )
        assert "the last word" in " ".join(pages_of(window))


LETTER = {"width": 710, "height": 950}
"""What the margins of `@page` leave of a Letter sheet, in CSS pixels."""

PRINTED = ("/leaks", "/records", "/leaks/{ended}", "/records/stories", "/paper/visit", "/gaps", "/stores", "/people")
PRINTED += ("/people/{crew_leader}", "/instruments/{meter}", "/areas/{area}", "/rulebooks/us-guide", "/figures/flow")
PRINTED += (
    "/due",
    "/places",
    "/places/streets/{street}",
    "/stores/lots/{clamps}",
    "/digs",
    "/leaks/{longest}/first-hour",
)


@pytest.mark.parametrize("address", PRINTED)
def test_a_print_is_black_on_white_whatever_the_device_shows_and_has_nothing_to_press(live, address):
    with live.seen_by("officer", Face(width=1280, height=900, dark=True)) as window:
        window.page.goto(live.filled(address))
        assert window.page.evaluate(SHOWN, PRESSED) > 0
        window.page.emulate_media(media="print")
        window.page.set_viewport_size(LETTER)
        assert window.page.evaluate(CUT) == []
        assert window.page.evaluate(SHOWN, PRESSED) == 0
        greys = [[float(part) for part in each.strip("rgba()").split(",")] for each in window.page.evaluate(COLOURS)]
        assert all(max(each[:3]) == min(each[:3]) for each in greys)


def test_a_blank_form_is_printed_with_its_boxes_and_its_last_line(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/paper/tested")
        pages = pages_of(window)
    assert len(pages) == 1
    for said in ("Soap test", "Cannot say", "with its unit, such as 45 psi or 7 in wc", "Typed into the book by"):
        assert said in pages[0]
