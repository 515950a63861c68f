"""What goes wrong in a page is seen by the tests of the pages."""

import pytest

from tests.makers.browser import PHONE, looking

POLICY = {"Content-Security-Policy": "default-src 'self'", "Content-Type": "text/html"}
TROUBLES = {
    "a script that fails": ("<script src='/wrong.js'></script>", "error of a script: nothing by that name"),
    "a complaint on the console": ("<script src='/complains.js'></script>", "error on the console: this is wrong"),
    "a style inside the page": ("<p style='color: red'>red</p>", "error on the console: "),
    "a script inside the page": ("<script>document.title = 'run'</script>", "error on the console: "),
    "a picture that is not there": ("<img src='/none.png' alt=''>", "answered 404: GET http://127.0.0.1:1/none.png"),
    "a picture from nowhere": ("<img src='/gone.png' alt=''>", "failed: http://127.0.0.1:1/gone.png"),
    "a picture from elsewhere": ("<img src='http://127.0.0.2/p.png' alt=''>", "error on the console: "),
}


def answered(route):
    """Answers in the place of a server."""
    path = route.request.url.removeprefix("http://127.0.0.1:1")
    scripts = {
        "/wrong.js": "throw new Error('nothing by that name')",
        "/complains.js": "console.error('this is wrong')",
    }
    if path == "/icon":
        route.fulfill(body="", content_type="image/svg+xml")
    elif path in scripts:
        route.fulfill(body=scripts[path], content_type="text/javascript")
    elif path == "/gone.png":
        route.abort()
    elif path == "/none.png":
        route.fulfill(status=404)
    else:
        body = TROUBLES.get(route.request.headers.get("x-case", ""), ("", ""))[0]
        route.fulfill(body=f"<!doctype html><link rel=icon href=/icon>{body}", headers=POLICY)


@pytest.mark.parametrize("case", TROUBLES)
def test_what_goes_wrong_in_a_page_is_told(chromium, case):
    _body, told = TROUBLES[case]
    with looking(chromium, PHONE, at="http://127.0.0.1:1") as window:
        window.page.route("**/*", answered)
        window.page.set_extra_http_headers({"x-case": case})
        window.page.goto("/")
        window.page.wait_for_load_state("networkidle")
    assert any(it.startswith(told) for it in window.troubles), window.troubles


def test_a_page_in_which_nothing_goes_wrong_tells_nothing(chromium):
    with looking(chromium, PHONE, at="http://127.0.0.1:1") as window:
        window.page.route("**/*", answered)
        window.page.goto("/")
        window.page.wait_for_load_state("networkidle")
    assert window.troubles == []


def test_a_page_that_may_come_with_422_is_no_trouble_and_one_that_may_not_is(live):
    with live.seen_by(None, PHONE) as window:
        window.page.goto("/no-such-page")
        assert window.troubles == [f"answered 404: GET {live.address}/no-such-page"]
        window.expects.add(404)
        window.page.reload()
    assert len(window.troubles) == 1


def test_a_question_whose_place_a_later_one_took_is_no_trouble_and_one_that_could_not_be_sent_is(live):
    with live.seen_by("supervisor", PHONE) as window:
        window.page.goto(live.filled("/leaks/{ended}/end"))
        window.page.evaluate("() => document.querySelectorAll('[name=ending-how]').forEach(way => way.click())")
        window.page.wait_for_load_state("networkidle")
        assert window.troubles == []
        window.page.route("**/end", lambda route: route.abort())
        with window.page.expect_console_message(lambda message: "htmx:sendError" in message.text):
            window.page.get_by_label("Repaired").check()
    assert any("htmx:sendError" in it for it in window.troubles), window.troubles
