"""Repair attempts as they stand: numbered as they happened, decided by their tests, accepted or returned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """`number`: its place among the leak's attempts, from 1. `outcome`: tight, not_tight, not_tested or cannot_say:
    the crew's word, or that of the last test that names it. `decided_by`: that test. `review`: waiting, accepted,
    returned. `on`: legal day."""

    id: UUID
    source: UUID | None
    number: int
    lasting: str
    on: str
    outcome: str
    decided_by: UUID | None
    review: str

    @property
    def holds(self) -> bool:
        """Permanent and tight: what an ending by repair may rest on."""
        return self.lasting == "permanent" and self.outcome == "tight"


def attempts(story: Sequence[Standing]) -> list[Attempt]:
    """The attempts of a leak. `story`: its live entries in the order they happened."""
    done = [entry for entry in story if entry.kind == "repair_attempted"]
    return [_attempt(entry, story, number=number) for number, entry in enumerate(done, start=1)]


def _attempt(entry: Standing, story: Sequence[Standing], *, number: int) -> Attempt:
    source = entry.text("source")
    named = [each for each in story if each.text("attempt") == entry.text("id")]
    test = next((each for each in reversed(named) if each.kind == "tested"), None)
    review = next((each for each in reversed(named) if each.kind == "repair_reviewed"), None)
    return Attempt(
        id=entry.id,
        source=read_id(source) if source else None,
        number=number,
        lasting=entry.text("lasting"),
        on=entry.on,
        outcome=test.text("result") if test else entry.text("outcome"),
        decided_by=test.id if test else None,
        review=review.text("outcome") if review else "waiting",
    )
