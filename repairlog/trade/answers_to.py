"""The area that a subject answers to: the one it was opened in, until a move says that it answers to another.

Facts keep what was said; whoever works something out asks here. What is owed, and whose list a thing stands on, goes by
where it answers now; whether an entry held to the rules, by where its subject answered then: a move accuses nobody of
having worked by the rules of the area in which they worked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.moved import MOVABLE
from repairlog.trade.gap import Gap


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A move as it counts. `from_area`: where the subject answered before it, by the order in which things happened,
    not by what anybody thought when they entered it."""

    entry: Standing
    from_area: UUID
    to_area: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """`first`: the area in which it was opened. `moves`: in the order in which they happened."""

    first: UUID
    moves: tuple[Move, ...]

    @property
    def now(self) -> UUID:
        """The area to which the last move brought it, else the first."""
        return self.moves[-1].to_area if self.moves else self.first

    @property
    def all(self) -> frozenset[UUID]:
        """Every area to which it ever answered."""
        return frozenset((self.first, *(move.to_area for move in self.moves)))

    def since(self, on: str) -> frozenset[UUID]:
        """Every area to which it answered on that day (`YYYY-MM-DD`) or after it."""
        before = [move.to_area for move in self.moves if move.entry.on < on]
        return frozenset((before[-1] if before else self.first, *(m.to_area for m in self.moves if on <= m.entry.on)))

    def then(self, entry: Standing) -> UUID:
        """The area to which it answered when that entry of its own happened; of a move, that to which it went."""
        at = order_of_happening(entry)
        before = [move.to_area for move in self.moves if order_of_happening(move.entry) <= at]
        return before[-1] if before else self.first


def answers(opened: Standing, live: Iterable[Standing]) -> Answers:
    """What a subject answers to, and answered to. `opened`: what opened it; `live`: its entries that stand, in the
    order they happened."""
    first = area = read_id(opened.said["area"])
    moves = []
    for entry in live:
        if entry.kind == "subject_moved":
            moves.append(Move(entry=entry, from_area=area, to_area=read_id(entry.said["to_area"])))
            area = moves[-1].to_area
    return Answers(first=first, moves=tuple(moves))


def answers_of(entries: Iterable[Standing]) -> Answers | None:
    """The same of the subject whose story these entries are, in any order, void ones too; None of a subject that is
    never moved."""
    told = sorted(entries, key=order_of_happening)
    opened = next((entry for entry in told if KINDS[entry.kind].opens in MOVABLE), None)
    return answers(opened, [entry for entry in told if entry.void is None]) if opened else None


def moved_nowhere(of: Answers) -> Iterator[Gap]:
    """Moves to the area where the subject answered already."""
    for move in of.moves:
        if move.from_area == move.to_area:
            yield Gap(code="moved_to_where_it_was", entry=move.entry.id)
