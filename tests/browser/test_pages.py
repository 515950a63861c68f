"""Everybody can use every page: by axe-core, on a phone and at a desk, light and dark, however long its words are.

In short here and in CI each page once, by turns on a phone and at a desk, light and dark; `REPAIRLOG_EVERY_FACE=1`
looks at each in all four ways, by hand.
"""

import os
from zlib import crc32

import pytest

from tests.makers.addresses import ADDRESSES, pages
from tests.makers.axe import violations
from tests.makers.browser import DESK, PHONE

NARROWEST = 320
"""CSS pixels: WCAG 2.2, 1.4.10 Reflow; as much as 1280 at 400 %."""

SIDEWAYS = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
PRESSED = "main :is(a[href], button, input:not([type=hidden]), select, textarea, summary)"
LOW = """pressed => [...document.querySelectorAll(pressed)]
    .filter(it => it.checkVisibility() && !it.closest('p, li'))
    .map(it => [it.outerHTML.slice(0, 120), (it.matches('[type=radio], [type=checkbox]') ? it.closest('label') : it)
        .getBoundingClientRect().height])
    .filter(([, height]) => height < 48)"""


FACES = ((PHONE, "light"), (DESK, "dark"), (PHONE, "dark"), (DESK, "light"))
EVERY_FACE = bool(os.environ.get("REPAIRLOG_EVERY_FACE"))


def all_violations(window, *, turn=None):
    """By what the page is looked at on, the rules that it breaks. `turn`: whose turn it is; None: all of them."""
    found = {}
    for face, scheme in FACES if EVERY_FACE or turn is None else (FACES[turn % len(FACES)],):
        window.page.set_viewport_size({"width": face.width, "height": face.height})
        window.page.emulate_media(color_scheme=scheme)
        if broken := violations(window.page):
            found[f"{window.page.url} at {face.width}, {scheme}"] = broken
    return found


def turns(endpoint):
    """The addresses of a page, each with its turn: always the same, whatever pages there are besides."""
    return enumerate(ADDRESSES[endpoint], start=crc32(endpoint.encode()))


def too_wide(window):
    """By width, by how many pixels the page reaches past it."""
    found = {}
    for width in (NARROWEST, PHONE.width):
        window.page.set_viewport_size({"width": width, "height": PHONE.height})
        if (over := window.page.evaluate(SIDEWAYS)) > 0:
            found[f"{window.page.url} at {width}"] = over
    return found


def too_low(window):
    """What a gloved finger may miss on the page, with its height: links inside a sentence are not counted."""
    window.page.set_viewport_size({"width": PHONE.width, "height": PHONE.height})
    return window.page.evaluate(LOW, PRESSED)


@pytest.mark.parametrize("endpoint", ADDRESSES)
def test_everybody_can_use_the_page(live, endpoint):
    page = pages()[endpoint]
    with live.seen_by(page.role, DESK) as window:
        for turn, address in turns(endpoint):
            window.page.goto(live.filled(address))
            assert all_violations(window, turn=turn) == {}
            assert too_wide(window) == {}
            assert page.room != "crew" or too_low(window) == []
        assert window.troubles == []


@pytest.mark.parametrize("endpoint", [name for name, page in pages().items() if page.enters])
def test_everybody_can_use_what_comes_back_where_nothing_could_be_read(live, endpoint):
    page = pages()[endpoint]
    with live.seen_by(page.role, PHONE) as window:
        window.expects.add(422)
        for turn, address in turns(endpoint):
            window.page.goto(live.filled(address))
            send_what_nobody_can_read(window.page)
            assert all_violations(window, turn=turn + 1) == {}  # in the other colours and the other width
            assert too_wide(window) == {}
            assert page.room != "crew" or too_low(window) == []
        assert window.troubles == []


def send_what_nobody_can_read(page):
    """Fill every box of the page's form with what is neither a measure nor a day, leave out the days, and send it."""
    form = page.locator("#entering")
    for fold in form.locator("summary").all():
        fold.click()
    for box in form.locator("input:is([type=text], :not([type])):visible").all():
        box.fill("7 of something")
    for box in form.locator("input[type=date]:visible").all():
        box.fill("")
    form.locator("button[name=save]").click()
    page.get_by_role("alert").wait_for()


def test_every_page_has_an_address():
    assert set(ADDRESSES) == set(pages())


def test_everybody_can_use_the_page_that_tells_of_an_error(live):
    with live.seen_by("crew", DESK) as window:
        window.expects.add(404)
        window.page.goto("/leaks/none")
        assert window.page.get_by_role("heading", level=1).inner_text() == "There is no such page."
        assert all_violations(window) == {}
        assert too_wide(window) == {}
    assert window.troubles == []


def test_everybody_can_use_the_page_that_compares_two_texts_of_one_entry(live):
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        window.expects.add(409)
        ids = []
        for text in ("dog in the yard", "no dog in the yard"):
            page.goto(live.filled("/leaks/{ended}/note"))
            ids.append(page.locator("[name=note-id]").input_value())
            page.locator("[name=note-id]").evaluate("(it, id) => { it.value = id }", ids[0])  # one form, sent twice
            page.locator("#entering input[type=date]").fill("2026-03-06")
            page.locator("#entering textarea").fill(text)
            page.locator("button[name=save]").click()
            page.locator("main", has_text=text).wait_for()
        both = page.locator(".both td")
        both.first.wait_for()
        assert both.all_inner_texts() == ["dog in the yard", "no dog in the yard"]
        assert all_violations(window) == {}
        assert too_wide(window) == {}
    assert window.troubles == []


def test_everybody_can_use_the_page_that_says_that_something_is_kept(live):
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto(live.filled("/leaks/{ended}/note"))
        page.locator("#entering").evaluate("it => { it.action = '/leaks/019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a/note' }")
        page.locator("#entering input[type=date]").fill("2026-03-06")
        page.locator("#entering textarea").fill("of a leak that comes later")
        page.locator("button[name=save]").click()
        page.get_by_role("heading", name="It names something that is not in the book yet.").wait_for()
        assert (all_violations(window), too_wide(window), too_low(window)) == ({}, {}, [])
    assert window.troubles == []


def test_everybody_can_use_what_asks_to_sign_in_again_and_to_send_what_was_typed(live):
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        window.expects.add(403)
        page.goto(live.filled("/leaks/{ended}/note"))
        page.locator("#entering textarea").fill("gate is open")
        page.context.clear_cookies()
        page.locator("button[name=save]").click()
        page.get_by_label("Password").wait_for()
        assert (all_violations(window), too_wide(window)) == ({}, {})
        page.get_by_label("Name").fill(live.sign_ins["crew"]["name"])
        page.get_by_label("Password").fill(live.sign_ins["crew"]["password"])
        page.get_by_role("button", name="Sign in").click()
        page.get_by_role("button", name="Send it again").wait_for()
        assert (all_violations(window), too_wide(window), too_low(window)) == ({}, {}, [])
    assert window.troubles == []


def test_a_page_that_not_everybody_can_use_would_be_seen(live):
    with live.seen_by(None, DESK) as window:
        window.page.goto("/sign-in")
        window.page.evaluate("() => document.querySelector('label').remove()")
        window.page.evaluate("() => document.querySelector('h1').style.color = '#ccc'")
        window.page.evaluate("() => document.querySelector('h1').style.width = '1400px'")
        window.page.evaluate("() => document.querySelector('button.do').style.minHeight = '47px'")
        found = all_violations(window)
        assert {rule for rules in found.values() for rule in rules} == {"label", "color-contrast"}
        assert min(too_wide(window).values()) > 1000
        assert [height for _html, height in too_low(window)] == [47]
