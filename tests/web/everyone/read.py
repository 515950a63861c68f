"""What a person reads on a page: its text without the marks, part by part."""

from __future__ import annotations

import html
import re


def text_of(marked: str) -> str:
    """The text between the marks, blanks folded."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", marked)).split())


def rows_of(page: str) -> list[str]:
    """The rows of the list, as text."""
    return [text_of(row) for row in re.findall(r"<tr>(.*?)</tr>", page.partition("<tbody>")[2], flags=re.DOTALL)]


def entries_of(page: str) -> list[str]:
    """The entries of a sheet, as text."""
    return [text_of(each) for each in re.findall(r'<li class="entry.*?</li>', page, flags=re.DOTALL)]


def link(page: str, name: str) -> str:
    """Where the link of that name leads; empty where there is none."""
    found = re.search(rf'<a [^>]*href="([^"]*)"[^>]*>{re.escape(name)}</a>', page)
    return html.unescape(found[1]) if found else ""


def value_of(page: str, name: str) -> str:
    """What stands in the field of that name."""
    found = re.search(rf'<input [^>]*name="{name}"[^>]* value="([^"]*)"', page)
    return html.unescape(found[1]) if found else ""


def chosen(page: str, name: str) -> str:
    """What is chosen in the list of that name."""
    part = re.search(rf'<select [^>]*name="{name}".*?</select>', page, flags=re.DOTALL)
    found = re.search(r'<option(?: value="([^"]*)")? selected>([^<]*)<', part[0]) if part else None
    return (found[1] or found[2]) if found else ""


def said_beside(page: str, name: str) -> str:
    """What is said beside a field of the filter."""
    found = re.search(rf'id="wrong-{name}"[^>]*>([^<]*)<', page)
    return html.unescape(found[1]) if found else ""
