"""The pictures of README.md, made anew from the demo: `.venv/bin/python -m tests.makers.screens`."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

from tests.house.reading import ROOT
from tests.makers import demo
from tests.makers.browser import Face, chromium, looking, sign_in
from tests.makers.serve import serving

FOLDER = ROOT / "demo" / "screens"
DAY = "2026-11-20"
"""On which the demo plays: its pages then show the same days whenever the pictures are made anew."""

PHONE = Face(width=390, height=780, scale=2)
DESK = Face(width=1200, height=860)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """`role`: who looks; None: nobody is signed in. `opens`: goes to the page. `title`: of that page, as a browser
    shows it."""

    name: str
    role: str | None
    face: Face
    opens: Callable[[Page], Any]
    title: str


def leak_at(address: str, *, street: str) -> Callable[[Page], None]:
    """Go to the Sheet of the leak at that address, by the list of leaks."""

    def opens(page: Page) -> None:
        page.goto(f"/leaks?street={street}")
        page.get_by_role("link", name=address).click()
        page.wait_for_url("**/leaks/*-*")

    return opens


def repair_at(address: str, *, street: str) -> Callable[[Page], None]:
    """Go to the form for a repair of that leak, and fill in its pressures."""

    def opens(page: Page) -> None:
        leak_at(address, street=street)(page)
        page.goto(f"{page.url}/repair")
        page.get_by_label("Day", exact=True).first.fill(DAY)
        page.get_by_label("Time, where known").first.fill("10:02")
        page.get_by_label("Permanent").check()
        page.get_by_label("Method").fill("bolt-on clamp")
        page.get_by_label("Line pressure found").fill("45 psi")
        page.get_by_label("Line pressure while installing").fill("7 in wc")
        page.get_by_label("Line pressure while installing").blur()
        page.get_by_text("kPa").nth(1).wait_for()
        page.get_by_label("Method").evaluate("it => window.scrollTo(0, it.offsetTop - 330)")

    return opens


PICTURES = (
    Picture(
        name="sheet",
        role="officer",
        face=DESK,
        opens=leak_at("118 Mill Lane", street="Mill+Lane"),
        title="ES-26-0004, 118 Mill Lane, Harrowsedge · RepairLog",
    ),
    Picture(
        name="leaks",
        role="officer",
        face=DESK,
        opens=lambda page: page.goto("/leaks"),
        title="Leaks · RepairLog",
    ),
    Picture(
        name="repair",
        role="crew",
        face=PHONE,
        opens=repair_at("14 Quarry Lane", street="Quarry+Lane"),
        title="Repair, attempt 2 · RepairLog",
    ),
    Picture(
        name="sign-in",
        role=None,
        face=PHONE,
        opens=lambda page: page.goto("/sign-in"),
        title="Sign in · RepairLog",
    ),
)


def made(browser: Browser, *, into: Path) -> dict[str, str]:
    """Fill a demo, serve it, and take every picture as `NAME.png`; the titles of the pages by name.

    Raises AssertionError where something goes wrong in a page.
    """
    into.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        told = demo.filled("--at", folder, "--on", DAY)
        sign_ins = {each["role"]: each for each in reversed(told["sign_ins"])}
        with serving(told["database"]) as server:
            return {each.name: _taken(browser, server.address, each, sign_ins, into) for each in PICTURES}


def _taken(browser: Browser, address: str, picture: Picture, sign_ins: Mapping[str, Any], into: Path) -> str:
    with looking(browser, picture.face, at=address) as window:
        if picture.role is not None:
            who = sign_ins[picture.role]
            sign_in(window.page, name=who["name"], password=who["password"])
        picture.opens(window.page)
        window.page.wait_for_load_state("networkidle")
        window.page.mouse.move(0, 0)
        window.page.screenshot(path=into / f"{picture.name}.png")
        assert window.troubles == [], window.troubles
        return window.page.title()


if __name__ == "__main__":
    with chromium() as started:
        made(started, into=Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
