"""What the tests of the pages in a browser share: a browser, sites that are really served, and who is signed in."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, StorageState

from repairlog.clock import now
from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import open_store
from tests.makers import browser, demo, full_book
from tests.makers.browser import DESK, Face, Watched, looking, sign_in
from tests.makers.longest import longest_leak
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.sent_back import refused_to_crew
from tests.makers.serve import serving


@dataclass(frozen=True)
class Live:
    """A site that is served, and a browser to look at it. `sign_ins`: by role, the `name` and `password` to come in by.
    `ids`: of entries, by name. Nobody signs in twice: what the first window held, the next ones hold."""

    browser: Browser
    address: str
    sign_ins: Mapping[str, Mapping[str, Any]]
    ids: Mapping[str, str] = field(default_factory=dict)
    held: dict[str, StorageState] = field(default_factory=dict)

    def seen_by(self, role: str | None, face: Face) -> AbstractContextManager[Watched]:
        """A window in which the person of that role is signed in; None: nobody."""
        if role is not None and role not in self.held:
            with looking(self.browser, DESK, at=self.address) as window:
                sign_in(window.page, name=self.sign_ins[role]["name"], password=self.sign_ins[role]["password"])
                self.held[role] = window.page.context.storage_state()
        return looking(self.browser, face, at=self.address, held=self.held[role] if role else None)

    def filled(self, address: str) -> str:
        """An address with the ids of what is named in its braces."""
        return address.format_map(self.ids)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser a worker; one clear skip where this machine has none."""
    if browser.binary() is None:
        pytest.skip(browser.NONE_HERE)
    with browser.chromium() as started:
        yield started


@pytest.fixture(scope="session")
def live(chromium: Browser, sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    """The full book, served: every kind of entry, and a leak with as many letters as there may be."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('live') / 'repairlog.db')}"
    store = open_store(url, rulebooks=RULEBOOKS)
    full = full_book.filled(store)
    unfinished = str(of_person(store, full.book.crew.person)[0].id)
    refused = refused_to_crew(full.book, full.ids["ended"])
    ids = full.ids | {"longest": longest_leak(full.book), "unfinished": unfinished, "refused": refused}
    book = full.book
    actors = {"crew": book.crew, "supervisor": book.supervisor, "officer": book.officer, "administrator": book.everyone}
    for role, actor in actors.items():
        make_sign_in(store, person=actor.person, name=f"the {role}", password=f"word of the {role}", at=now())
    store.engine.dispose()
    sign_ins = {role: {"name": f"the {role}", "password": f"word of the {role}"} for role in actors}
    with serving(url) as server:
        yield Live(chromium, server.address.rstrip("/"), sign_ins, ids)


@pytest.fixture(scope="module")
def shown(chromium: Browser, demo_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    """The demo, served, for one file of tests; by role whoever has it in Eastmarsh."""
    told = demo.once(demo_folder / "sqlite", lambda: demo.filled("--at", str(demo_folder / "sqlite")))
    book = demo.copied(demo_folder / "sqlite", told, to=tmp_path_factory.mktemp("shown"))
    with serving(book.url) as server:
        yield Live(
            chromium, server.address.rstrip("/"), {each["role"]: book.signs_in(each["role"]) for each in book.sign_ins}
        )
