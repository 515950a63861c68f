"""What the tests of the pages in a browser share: a browser, a site that is really served, and who is signed in."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, StorageState

from repairlog.clock import now
from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.store import open_store
from tests.makers import browser, full_book
from tests.makers.browser import DESK, Face, Watched, looking
from tests.makers.served import served


@dataclass(frozen=True)
class Live:
    """A site that is served, and a browser to look at it. `names`: under which name a role signs in; `passwords`: with
    which password. Nobody signs in twice: what the first window held, the next ones hold."""

    browser: Browser
    address: str
    database_url: str
    names: dict[str, str]
    passwords: dict[str, str]
    ids: dict[str, str]
    held: dict[str, StorageState] = field(default_factory=dict)

    def filled(self, address: str) -> str:
        """An address with the ids of what is named in its braces."""
        return address.format_map(self.ids)

    def seen_by(self, role: str | None, face: Face) -> AbstractContextManager[Watched]:
        """A window in which the person of that role is signed in; None: nobody."""
        if role is not None and role not in self.held:
            with looking(self.browser, DESK, at=self.address) as window:
                self.sign_in(window, role)
                self.held[role] = window.page.context.storage_state()
        return looking(self.browser, face, at=self.address, held=self.held[role] if role else None)

    def sign_in(self, window: Watched, role: str) -> None:
        """By the page, as a person does."""
        window.page.goto("/sign-in")
        window.page.get_by_label("Name").fill(self.names[role])
        window.page.get_by_label("Password").fill(self.passwords[role])
        window.page.get_by_role("button", name="Sign in").click()
        window.page.wait_for_url("**/leaks")


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser a worker; one clear skip where this machine has none."""
    if browser.binary() is None:
        pytest.skip(browser.NONE_HERE)
    with browser.chromium() as started:
        yield started


@pytest.fixture(scope="session")
def live(chromium: Browser, sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    """A full invented book, served; a worker has one of its own."""
    url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('live') / 'repairlog.db')}"
    store = open_store(url)
    full = full_book.filled(store)
    book = full.book
    actors = {"crew": book.crew, "supervisor": book.supervisor, "officer": book.officer}
    for role, actor in actors.items():
        make_sign_in(store, person=actor.person, name=f"{role} of a book", password="not a secret", at=now())
    store.engine.dispose()
    with served(url) as address:
        yield Live(
            chromium,
            address,
            url,
            {role: f"{role} of a book" for role in actors},
            dict.fromkeys(actors, "not a secret"),
            full.ids,
        )
