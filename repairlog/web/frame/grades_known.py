"""The grades that are known where a leak is: those of the rulebooks that hold there, for one touch each on a form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any
from uuid import UUID

from repairlog.intake.form import Choices
from repairlog.records.queries.adopted import adopted, rulebook_with
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.grade import USUAL_RANKS
from repairlog.trade.rulebook import Rulebook
from repairlog.trade.rulebook.kept import RulebookUnreadable
from repairlog.web.frame.asking import asker


def rulebooks_of(tx: Tx, areas: Sequence[Area], *, on: str) -> dict[UUID, Rulebook]:
    """By area, the rulebook that holds there on that day (`YYYY-MM-DD`), where one does and can be read."""
    found = {}
    for area in areas:
        try:
            holds = adopted(asker().scope, tx, area=area.id, on=date.fromisoformat(on))
            rulebook = rulebook_with(asker().scope, tx, digest=holds.digest) if holds else None
        except RulebookUnreadable:
            continue  # nobody is kept from grading by it; the pages of rulebooks say what is wrong
        if rulebook:
            found[area.id] = rulebook
    return found


def grades_known(rulebooks: Iterable[Rulebook]) -> Choices:
    """The grades to choose from, the most hazardous first: those of these rulebooks, else the usual three."""
    ranks = {each.code: each.rank for rulebook in rulebooks for each in rulebook.grades} or USUAL_RANKS
    return [(code, code) for code in sorted(ranks, key=lambda code: ranks[code])]


def with_rank(grade: Mapping[str, Any], rulebook: Rulebook | None) -> Mapping[str, Any]:
    """A grade as it is typed, with its rank where only that rulebook knows it and nobody gave one."""
    if rulebook is None or "rank" in grade or grade.get("grade", "") in USUAL_RANKS:
        return grade
    rank = next((each.rank for each in rulebook.grades if each.code == grade.get("grade")), None)
    return grade if rank is None else {**grade, "rank": str(rank)}
