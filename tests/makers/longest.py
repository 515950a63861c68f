"""A leak with as many letters as its entries may have, some of them in words that nobody can break."""

from __future__ import annotations

from typing import Any

from repairlog.entries.fields import Field
from repairlog.entries.kinds import KINDS
from tests.makers import book as m

WORD = "Grundstücksverkehrsgenehmigungszuständigkeitsübertragungsverordnung"
SENTENCE = f"At the {WORD} by the gate, a smell.\n"
OURS = {"number"}
"""What has a meaning beside its letters."""


def longest_leak(book: m.Book) -> str:
    """Record such a leak in all its parts; its id."""
    leak = stretched(m.leak(book))
    attempt = m.attempt(leak["id"])
    attempt |= {"materials": [{"key": "m1", "named": "-"}], "people": [{"key": "p1", "named": "-", "task": "-"}]}
    stretch = [m.source(leak["id"]), m.visit(leak["id"]), m.grade(leak["id"]), attempt, m.note(leak["id"])]
    stretch += [m.test_of(leak["id"], attempt["id"]), m.review(leak["id"], attempt["id"])]
    book.say(leak, *(stretched(each) for each in stretch))
    book.say(m.corrected(attempt["id"], ("remarks", text(4000)), reason=text(400)))
    return str(leak["id"])


def stretched(raw: dict[str, Any]) -> dict[str, Any]:
    """The entry with every text of its own at its longest, in its rows where they have one."""
    kind = KINDS[raw["kind"]]
    rows = {rows.name: _rows(raw[rows.name], rows.fields) for rows in kind.rows if rows.name in raw}
    return raw | _texts(kind.fields) | rows


def text(length: int) -> str:
    """So many characters: one word where they are few, sentences in lines where they are many."""
    return ((WORD if length <= 200 else SENTENCE) * length)[:length].strip().ljust(length, "-")


def _rows(rows: list[dict[str, Any]], fields: tuple[Field, ...]) -> list[dict[str, Any]]:
    return [{name: _texts(fields).get(name, value) for name, value in row.items() if name != "place"} for row in rows]


def _texts(fields: tuple[Field, ...]) -> dict[str, str]:
    return {each.name: text(each.longest) for each in fields if each.kind == "text" and each.name not in OURS}
