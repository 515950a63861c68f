"""What stands around every page: it stays out of the way, and is there for those who use no pointer."""

import re

import pytest

from repairlog.web.frame import drawn as drawn_with
from tests.makers.browser import DESK, PHONE, Face

CUT = """() => [...document.querySelectorAll('header.top :is(a, summary, button)')]
    .filter(it => it.checkVisibility() && !it.closest('.rest'))
    .map(it => [it.textContent.trim(), it.getBoundingClientRect(), it.closest('.row')?.getBoundingClientRect()])
    .filter(([, it, row]) => it.left < 0 || it.right > (row ? row.right + 1 : document.documentElement.clientWidth))
    .map(([text]) => text)"""
FOCUSED = "() => document.activeElement.textContent.trim()"


def test_the_way_past_the_shell_is_seen_only_once_the_keyboard_comes_to_it(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/leaks")
        skip = window.page.get_by_role("link", name="To the page")
        away = skip.bounding_box()
        window.page.keyboard.press("Tab")
        here = skip.bounding_box()
        assert (away["y"] + away["height"] <= 0, here["y"] >= 0) == (True, True)
        window.page.keyboard.press("Enter")
        assert window.page.evaluate("() => document.activeElement.id") == "main"
    assert window.troubles == []


def test_the_keyboard_goes_through_the_shell_in_the_order_in_which_it_is_read(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/leaks")
        passed = []
        while (not passed or passed[-1] != "Sign out") and len(passed) < 20:
            window.page.keyboard.press("Tab")
            passed.append(window.page.evaluate(FOCUSED))
        links = window.page.get_by_role("navigation", name="Pages").get_by_role("link").all_inner_texts()
        name = live.sign_ins["crew"]["name"]
        assert passed == ["To the page", "RepairLog", *links, "More", name, "Sign out"]


def test_the_keyboard_opens_the_fold_and_what_it_goes_on_to_is_not_covered(live):
    with live.seen_by("officer", PHONE) as window:
        page = window.page
        page.goto("/leaks")
        page.locator(".more > summary").focus()
        page.keyboard.press("Enter")
        rest = page.locator(".more > .rest")
        offered = rest.get_by_role("link").all_inner_texts()
        page.keyboard.press("Tab")
        assert (page.evaluate(FOCUSED), {"Figures", "Blank forms"} <= set(offered)) == (offered[0], True)
        assert min(it.bounding_box()["height"] for it in rest.get_by_role("link").all()) >= 48
        page.locator("#main a").first.focus()
        page.keyboard.press("Shift")  # a key: the browser shows where it is
        assert rest.is_hidden()


def test_a_page_under_the_fold_is_marked_there_and_on_the_fold(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/figures")
        window.page.locator(".more > summary").click()
        assert window.page.locator("nav [aria-current=page]:visible").all_inner_texts() == ["Figures"]
        assert window.page.locator(".more.here").count() == 1


@pytest.mark.parametrize("width", [320, PHONE.width, 700, 800, 1040, 1280])
def test_the_shell_stands_beside_its_fold_without_being_cut(live, width):
    """The officer has the most links, and something left unfinished is the longest of them."""
    with live.seen_by("crew", Face(width=width, height=844)) as crew:
        crew.page.goto("/leaks")
        assert crew.page.get_by_role("link", name=re.compile(r"Unfinished \(\d+\)")).is_visible()
        assert crew.page.evaluate(CUT) == []
    with live.seen_by("officer", Face(width=width, height=844)) as officer:
        officer.page.goto("/leaks")
        assert officer.page.evaluate(CUT) == []


def test_where_the_keyboard_is_can_be_seen(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/leaks")
        drawn = []
        for _ in range(6):
            window.page.keyboard.press("Tab")
            drawn.append(window.page.evaluate("() => getComputedStyle(document.activeElement).outlineWidth"))
        assert drawn == ["3px"] * 6


def test_the_page_that_one_is_on_is_marked(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/leaks")
        assert window.page.locator("nav [aria-current=page]:visible").all_inner_texts() == ["Leaks"]


@pytest.mark.parametrize("width", [320, PHONE.width])
def test_on_a_phone_the_shell_takes_an_eighth_of_the_screen_at_most(live, width):
    with live.seen_by("crew", Face(width=width, height=844)) as window:
        window.page.goto("/leaks")
        height = window.page.locator("header.top").bounding_box()["height"]
        assert 48 <= height <= 844 / 8
        low = [
            it.bounding_box()["height"]
            for it in window.page.locator("header.top :is(.row a, summary, button):visible").all()
        ]
        assert [it for it in low if it < 48] == []


def test_letters_twice_as_large_leave_the_page_as_wide_as_the_window(live):
    with live.seen_by("crew", Face(width=640, height=800)) as window:
        window.page.goto("/leaks")
        window.page.evaluate("() => document.documentElement.style.fontSize = '200%'")
        assert window.page.evaluate("() => document.documentElement.scrollWidth") == 640


def test_nothing_on_a_page_moves():
    drawn = (drawn_with.FOLDER / "notebook.css").read_text()
    assert [word for word in ("transition", "animation", "scroll-behavior") if word in drawn] == []


def test_on_paper_stands_the_page_and_nothing_to_press(live):
    with live.seen_by("crew", DESK) as window:
        window.page.goto("/leaks")
        window.page.emulate_media(media="print", color_scheme="dark")
        assert window.page.locator("header.top").is_hidden()
        assert window.page.get_by_role("heading", level=1).is_visible()
        colours = (
            "() => [getComputedStyle(document.body).color, getComputedStyle(document.documentElement).backgroundColor]"
        )
        assert window.page.evaluate(colours) == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]
