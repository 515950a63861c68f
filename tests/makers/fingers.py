"""A thumb on a phone that goes through pages as a person does, and counts: touches of the glass, and boxes touched."""

from __future__ import annotations

from dataclasses import dataclass, field

from playwright.sync_api import Locator, Page


@dataclass
class Fingers:
    """`taps`: touches of a link, a button, a choice, or of a box before something is typed into it; a choice from a
    closed list takes two. `boxes`: by name, the boxes of forms that were touched. What is typed letter by letter counts
    as no tap: it hangs on what there is to say."""

    page: Page
    taps: int = 0
    boxes: set[str] = field(default_factory=set)

    def tap(self, what: Locator) -> None:
        """One touch."""
        self.taps += 1
        what.click()

    def type(self, name: str, text: str) -> None:
        """Touch a box of the page's form and type into it."""
        self._at(name, taps=1).fill(text)

    def check(self, name: str, value: str) -> None:
        """Touch one of few choices."""
        self.taps += 1
        self.boxes.add(name)
        self.page.locator(f'#entering [name="{name}"][value="{value}"]').check()

    def choose(self, name: str, value: str) -> None:
        """Open a list and touch what is wanted."""
        self._at(name, taps=2).select_option(value)

    def _at(self, name: str, *, taps: int) -> Locator:
        self.taps += taps
        self.boxes.add(name)
        return self.page.locator(f'#entering [name="{name}"]:not([type=hidden])').first

    def told(self) -> str:
        """Both, as the report of the tests says them."""
        return f"{self.taps} taps, {len(self.boxes)} boxes"
