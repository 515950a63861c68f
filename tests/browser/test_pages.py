"""Everybody can use every page: by axe-core, on a phone and at a desk, light and dark, however long its words are."""

import pytest

from tests.makers.addresses import ADDRESSES, pages
from tests.makers.axe import OF_COLOUR, RULES, violations
from tests.makers.browser import DESK, PHONE

pytestmark = pytest.mark.xdist_group("browser, look")

NARROWEST = 320
"""CSS pixels: WCAG 2.2, 1.4.10 Reflow; as much as 1280 at 400 %."""

SIDEWAYS = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
PRESSED = "main :is(a[href], button, input:not([type=hidden]), select, textarea, summary)"
LOW = """pressed => [...document.querySelectorAll(pressed)]
    .filter(it => it.checkVisibility() && !it.closest('p, li'))
    .map(it => [it.outerHTML.slice(0, 120), (it.matches('[type=radio], [type=checkbox]') ? it.closest('label') : it)
        .getBoundingClientRect().height])
    .filter(([, height]) => height < 48)"""


def all_violations(window):
    """By what the page is looked at on, the rules that it breaks."""
    found = {}
    for name, face in {"phone": PHONE, "desk": DESK}.items():
        window.page.set_viewport_size({"width": face.width, "height": face.height})
        for scheme, rules in {"light": RULES, "dark": OF_COLOUR}.items():
            window.page.emulate_media(color_scheme=scheme)
            if broken := violations(window.page, rules=rules):
                found[f"{window.page.url} on a {name}, {scheme}"] = broken
    return found


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
        for address in ADDRESSES[endpoint]:
            window.page.goto(live.filled(address))
            assert all_violations(window) == {}
            assert too_wide(window) == {}
            assert page.room != "crew" or too_low(window) == []
        assert window.troubles == []


@pytest.mark.parametrize("endpoint", [name for name, page in pages().items() if page.enters])
def test_everybody_can_use_what_comes_back_where_nothing_could_be_read(live, endpoint):
    page = pages()[endpoint]
    with live.seen_by(page.role, PHONE) as window:
        window.expects.add(422)
        for address in ADDRESSES[endpoint]:
            window.page.goto(live.filled(address))
            send_what_nobody_can_read(window.page)
            assert all_violations(window) == {}
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
