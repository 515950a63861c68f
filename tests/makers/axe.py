"""axe-core over a page: what of it not everybody can use."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import axe_playwright_python
from playwright.sync_api import Page

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

LOOKS = """rules => axe.run(document, {runOnly: rules, resultTypes: ['violations']}).then(found => found.violations.map(
    it => [it.id, it.nodes.map(node => node.html.slice(0, 160) + ' ' + node.any.map(a => a.message).join('; '))]))"""


def violations(page: Page) -> dict[str, list[str]]:
    """Rule by rule the pieces of the page that break it; empty where all is well.

    The script goes in past the page's policy, as a debugger's does: the page itself stays as it is served.
    """
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(_script())
    found: list[Any] = page.evaluate(LOOKS, RULES)
    return dict(found)


@cache
def _script() -> str:
    folder = Path(axe_playwright_python.__file__).parent
    return f"() => {{ {(folder / 'axe.min.js').read_text()} }}"
