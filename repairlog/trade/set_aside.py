"""Gaps that somebody set aside, with a reason: they still stand, and say so."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.gap import Gap


def marked(gaps: Iterable[Gap], live: Sequence[Standing]) -> Iterator[Gap]:
    """The same gaps, each with the last entry that set it aside, if any. `live`: the subject's entries that stand, in
    the order they happened. Set aside is the gap about that entry and row, whatever its facts become."""
    aside = {
        (entry.text("gap"), read_id(entry.text("about")), entry.text("row")): entry.id
        for entry in live
        if entry.kind == "gap_set_aside"
    }
    for gap in gaps:
        by = aside.get((gap.code, gap.entry, gap.row))
        yield replace(gap, set_aside=by) if by else gap
