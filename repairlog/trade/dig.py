"""A dig as it stands, folded from its own entries: what it found, whether it is filled, what is owed after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.trade.answers_to import answers
from repairlog.trade.dig_gaps import gaps
from repairlog.trade.gap import Gap
from repairlog.trade.set_aside import marked


@dataclass(frozen=True, slots=True, kw_only=True)
class Owed:
    """A restoration that is owed. `on`: the day it was said. `by_on`: its day, `YYYY-MM-DD`, empty where none was said.
    `restored_on`: the day it was done, empty where it is still owed."""

    entry: UUID
    on: str
    what: str
    by_on: str
    owed_by: str
    restored_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Dig:
    """`area`: the one it answers to. `leaks`: those that it serves. `found`: source, nothing (a dry hole) or
    other_pipe; empty where nobody said yet. `status`: open, backfilled, restored, opened_in_error. `backfilled_on`:
    empty while it is open. `ticket`: number of the locate ticket."""

    opened: Standing
    area: UUID
    leaks: tuple[UUID, ...]
    ticket: str
    found: str
    status: str
    backfilled_on: str
    owed: tuple[Owed, ...]
    gaps: tuple[Gap, ...]

    @property
    def still_owed(self) -> tuple[Owed, ...]:
        """What is owed and not done, that with the earliest day first, those without a day last."""
        return tuple(sorted((each for each in self.owed if not each.restored_on), key=lambda e: (not e.by_on, e.by_on)))


def dig(entries: Sequence[Standing]) -> Dig | None:
    """The dig that these entries tell of; None if none of them opens it.

    `entries`: all that belong to it as they stand, void ones too, in any order. What it found is what was said last.
    """
    opened = next((entry for entry in entries if entry.kind == "dig_opened"), None)
    if opened is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    found = [entry.text("found") for entry in live if entry.kind == "dig_found"]
    filled = [entry for entry in live if entry.kind == "dig_backfilled"]
    owed = tuple(_owed(live))
    return Dig(
        opened=opened,
        area=answers(opened, live).now,
        leaks=tuple(dict.fromkeys(read_id(row["leak"]) for row in opened.rows("leaks"))),
        ticket=opened.text("ticket"),
        found=found[-1] if found else "",
        status=_status(opened, live, filled=bool(filled), owed=owed),
        backfilled_on=filled[-1].on if filled else "",
        owed=owed,
        gaps=tuple(marked(gaps(opened, live), live)),
    )


def _owed(live: Sequence[Standing]) -> Iterator[Owed]:
    """What is owed, in the order in which it was said. One that names none settles all that was said before it."""
    done = [entry for entry in live if entry.kind == "restored"]
    for entry in (each for each in live if each.kind == "restoration_owed"):
        settles = next((each for each in done if _settles(each, entry)), None)
        yield Owed(
            entry=entry.id,
            on=entry.on,
            what=entry.text("what"),
            by_on=entry.text("by_on"),
            owed_by=entry.text("owed_by"),
            restored_on=settles.on if settles else "",
        )


def _settles(restored: Standing, owed: Standing) -> bool:
    if restored.text("owed"):
        return restored.text("owed") == str(owed.id)
    return order_of_happening(owed) < order_of_happening(restored)


def _status(opened: Standing, live: Sequence[Standing], *, filled: bool, owed: Sequence[Owed]) -> str:
    if opened.void is not None:
        return "opened_in_error"
    if not filled:
        return "open"
    restored = any(entry.kind == "restored" for entry in live)
    return "restored" if restored and all(each.restored_on for each in owed) else "backfilled"
