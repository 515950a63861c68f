"""A browser that drives the pages: a Chromium of this machine, on a phone or at a desk, and what it complains about."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from playwright.sync_api import Browser, ConsoleMessage, Page, Request, Response, StorageState, sync_playwright

NONE_HERE = "no Chromium on this machine: install it (Debian: apt-get install chromium)"
"""Why a test is skipped that needs one."""

NAMES = ("chromium", "chromium-browser", "google-chrome")
SWITCHES = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE = 20_000
"""Milliseconds after which a page or a field that does not come is a failure: a busy machine of two cores is slow."""

GIVEN_UP = ("htmx:sendAbort", "htmx:afterRequest")
"""How the console is told that a later question took an earlier one's place: no trouble. Where sending really fails,
it is told `htmx:sendError` besides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """How a page is looked at. `width`, `height`: in CSS pixels."""

    width: int
    height: int
    dark: bool = False
    script: bool = True
    scale: int = 1


PHONE = Face(width=390, height=844)
DESK = Face(width=1280, height=900)


@dataclass(slots=True)
class Watched:
    """A page and what went wrong in it: errors of scripts, refusals of the policy, requests that failed.

    `expects`: the statuses with which a page itself may come; whatever is at or over 400 and not among them is
    trouble.
    """

    page: Page
    expects: set[int] = field(default_factory=set)
    troubles: list[str] = field(default_factory=list)


def binary() -> str | None:
    """Where this machine has a Chromium; None where it has none."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


@contextmanager
def chromium() -> Iterator[Browser]:
    """One browser, closed at the end. Raises FileNotFoundError where this machine has none."""
    if (path := binary()) is None:
        raise FileNotFoundError(NONE_HERE)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(SWITCHES))
        try:
            yield browser
        finally:
            browser.close()


@contextmanager
def looking(browser: Browser, face: Face, *, at: str, held: StorageState | None = None) -> Iterator[Watched]:
    """A page that is watched, in a window of its own, on the site at that address.

    `held`: what another window held (`context.storage_state()`), so that whoever was signed in there is signed in here.
    """
    context = browser.new_context(
        base_url=at,
        viewport={"width": face.width, "height": face.height},
        device_scale_factor=face.scale,
        color_scheme="dark" if face.dark else "light",
        java_script_enabled=face.script,
        storage_state=held,
        reduced_motion="reduce",
    )
    context.set_default_timeout(PATIENCE)
    try:
        yield watch(context.new_page())
    finally:
        context.close()


def sign_in(page: Page, *, name: str, password: str) -> None:
    """Sign in by the page, as a person does; comes back on Today."""
    page.goto("/sign-in")
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/today")


def watch(page: Page) -> Watched:
    """Note from now on whatever goes wrong in that page."""
    watched = Watched(page)
    page.on("console", lambda message: _said(watched, message))
    page.on("pageerror", lambda error: watched.troubles.append(f"error of a script: {error}"))
    page.on("requestfailed", lambda request: _failed(watched, request))
    page.on("response", lambda response: _answered(watched, response))
    return watched


def _said(watched: Watched, message: ConsoleMessage) -> None:
    of_an_answer = message.text.startswith("Failed to load resource")  # `_answered` tells these with their status
    if message.type in ("error", "warning") and not of_an_answer and not message.text.startswith(GIVEN_UP):
        watched.troubles.append(f"{message.type} on the console: {message.text}")


def _failed(watched: Watched, request: Request) -> None:
    if request.failure != "net::ERR_ABORTED":  # given up by the browser itself: another page was asked for
        watched.troubles.append(f"failed: {request.url}: {request.failure}")


def _answered(watched: Watched, response: Response) -> None:
    if response.status >= 400 and response.status not in watched.expects:
        watched.troubles.append(f"answered {response.status}: {response.request.method} {response.url}")
