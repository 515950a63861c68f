"""Worked figures that are kept, as a story tells them: worked out, not measured."""

from __future__ import annotations

from collections.abc import Iterator

from repairlog.entries.entry import Row, Standing
from repairlog.records.story import Told
from repairlog.words import _
from repairlog.words.story.fields import NOTHING, Shown, a_list
from repairlog.words.story.pieces import Item, Margin
from repairlog.words.story.reader import Reader


def heading(_reader: Reader, entry: Standing) -> tuple[str, str, bool]:
    """`Gas through a hole`, and that it is no measurement."""
    return entry.text("called"), _("worked figure, not a measurement"), True


def rows(_reader: Reader, told: Told) -> Iterator[Item]:
    """What came out, what went in, within which bounds, with which cautions."""
    yield from a_list(told, "results", says=_("Worked out"), show=_result)
    yield from a_list(told, "inputs", says=_("From"), show=_input)
    yield from a_list(told, "holds_for", says=_("Holds for"), show=lambda _version, row: (row.get("text", ""), ""))
    yield from a_list(told, "cautions", says=_("Mind"), show=lambda _version, row: (row.get("text", ""), ""))


def beside(reader: Reader, entry: Standing) -> Iterator[Margin]:
    """The figures that were worked from an entry, and beside a figure itself what came out of it."""
    for kept in reader.figures:
        if str(entry.id) in (kept.text("id"), kept.text("from_entry")):
            results = [text for row in kept.rows("results") if (text := _result(kept, row)[0])]
            named = [kept.text("called")] if kept.id != entry.id else []
            said = "; ".join([*named, *results[:MOST_BESIDE]])
            yield Margin(head=_("Worked figure, not a measurement"), text=said)


MOST_BESIDE = 3
"""Results that stand in the margin; all of them stand in the entry."""


def _result(_version: Standing, row: Row) -> Shown:
    """`Flow: 253 scf/h`; nothing of a result that no person was told."""
    said = row.get("shown") or " ".join(filter(None, (row.get("value", ""), row.get("unit", ""))))
    return (_("{label}: {value}").format(label=row["label"], value=said), "") if row.get("label") else NOTHING


def _input(_version: Standing, row: Row) -> Shown:
    """`Hole across: 1/16 in`, with how it was understood where that says more; the usual value where none was typed."""
    typed, heard = row.get("typed", ""), row.get("heard", "")
    text = _("{label}: {value}").format(label=row.get("label") or row.get("name", ""), value=typed or heard)
    return text, ("" if heard == typed else heard) if typed else _("usual value")
