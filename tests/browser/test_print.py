"""A print of a page: black on white, complete, nothing to press, each story on a page of its own where it fits."""

from __future__ import annotations

import io

import pytest

from tests.makers.addresses import ADDRESSES, pages
from tests.makers.browser import DESK, Face

COLOURS = """() => [...new Set([...document.querySelectorAll('main, main *, body, html')]
    .filter(it => it.checkVisibility())
    .flatMap(it => [getComputedStyle(it).color, getComputedStyle(it).backgroundColor]))]"""
CUT = """() => [...document.querySelectorAll('main table, main pre, main dl')]
    .filter(it => it.checkVisibility() && it.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .map(it => it.outerHTML.slice(0, 80))"""
SHOWN = """pressed => [...document.querySelectorAll(pressed)].filter(it => it.checkVisibility()).length"""
PRESSED = "nav, button, input, select, .filters, .do:not(.forms .do), .top, .skip"
"""The list of blank forms is printed as a list of their names."""


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

ASK = {"sign_in.page", "mine.page", "sign_ins.page", "person_signs_in.page", "cure_of_file.page"}
ASK |= {"unfinished.away", "unfinished.send_back", "made_one.choose", "made_one.choose_street", "lost.page"}
"""Pages that ask for something; so do all that enter something. The boxes of the last hold what it worked out from."""

PRINTED = {name: page for name, page in pages().items() if not page.enters and name not in ASK}
"""Every other page of the site's map: lists, sheets, what is worked out."""


def on_paper(window, address):
    """What of that page would be pressed, be cut off or be coloured on paper, though the device shows it dark."""
    window.page.goto(address)
    parts = [[float(part) for part in each.strip("rgba()").split(",")] for each in window.page.evaluate(COLOURS)]
    coloured = [each for each in parts if max(each[:3]) != min(each[:3])]
    return window.page.evaluate(SHOWN, PRESSED), window.page.evaluate(CUT), coloured


@pytest.mark.parametrize("role", sorted({page.role for page in PRINTED.values()}))
def test_a_print_is_black_on_white_whatever_the_device_shows_and_has_nothing_to_press(live, role):
    addresses = [ADDRESSES[name][0] for name, page in PRINTED.items() if page.role == role]
    with live.seen_by(role, Face(width=1280, height=900, dark=True)) as window:
        window.page.goto(live.filled(addresses[0]))
        assert window.page.evaluate(SHOWN, PRESSED) > 0
        window.page.emulate_media(media="print")
        window.page.set_viewport_size(LETTER)
        found = {each: on_paper(window, live.filled(each)) for each in addresses}
    assert {each: wrong for each, wrong in found.items() if wrong != (0, [], [])} == {}


def test_a_blank_form_is_printed_with_its_boxes_and_its_last_line_on_one_page(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/paper/tested")
        pages = pages_of(window)
        longest = {}
        for kind in ("pipe_exposed", "source_added", "leak_opened"):
            window.page.goto(f"/paper/{kind}")
            longest[kind] = len(pages_of(window))
    assert longest == dict.fromkeys(longest, 1)
    assert len(pages) == 1
    for said in ("Soap test", "Cannot say", "with its unit, such as 45 psi or 7 in wc", "Typed into the book by"):
        assert said in pages[0]
