"""Names of what a list tells: always the same ids for the same list, so that taking it twice is taking it once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from repairlog.entries.ids import uuid8
from repairlog.intake.lists.drafts import Draft, Drafts


@dataclass(slots=True)
class Names:
    """Gives the parts of leaks' names. `seen`: how often a row without a number came before, by eight bytes of its
    name: the one thing that grows with such a list."""

    operator: UUID
    area: UUID
    seen: Counter[int] = field(default_factory=Counter)

    def parts_of(self, drafts: Drafts) -> tuple[str, ...]:
        """Of operator, area and the list's number; without one, of the row's cells and its count among equal rows."""
        of = (str(self.operator), str(self.area))
        if drafts.number:
            return number_parts(of, drafts.number)
        parts = (*of, "row", *drafts.identity)
        digest = uuid8(*parts).int & (1 << 64) - 1
        self.seen[digest] += 1
        return (*parts, str(self.seen[digest]))


def number_parts(of: tuple[str, str], number: str) -> tuple[str, ...]:
    """Parts of the name of a leak that bears a number. `of`: operator and area."""
    return (*of, "number", number)


def leak_named(parts: tuple[str, ...], *, opened_in_error: Callable[[UUID], bool] = lambda _id: False) -> UUID:
    """The leak of that name; the next one after each that a list opened and somebody made void."""
    id, again = uuid8(*parts), 0
    while opened_in_error(id):
        again += 1
        id = uuid8(*parts, "again", str(again))
    return id


def entries_named(drafts: Drafts, leak: UUID, *, also: Draft | None = None) -> list[tuple[Draft, dict[str, Any]]]:
    """Each later draft with the entry it becomes: its id from the leak, the fact and a count among equal facts, never
    from its place among the others. The same said twice is one entry. `also`: one draft more."""
    named: list[tuple[Draft, dict[str, Any]]] = []
    told: dict[tuple[str, ...], list[Mapping[str, Any]]] = {}
    for draft in (*drafts.later, *([also] if also else ())):
        before = told.setdefault(draft.fact, [])
        if draft.said in before:
            continue
        id = uuid8(str(leak), *draft.fact, str(len(before)))
        before.append(draft.said)
        within = "subject" if draft.said["kind"] == "note" else "leak"
        named.append((draft, {**draft.said, "id": str(id), within: str(leak)}))
    return named
