"""The grades of a leak as they were set: which stand, and which lower ones a supervisor has looked over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from repairlog.entries.entry import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A grade code with its rank (1 is the most hazardous); None where no rank is known."""

    code: str
    rank: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeSet:
    """`entry`: that set it. `lower_than`: the grade that stood before, where this one is lower. `review`: waiting for
    one that is lower; approved or not_approved once somebody reviewed it; empty for others."""

    entry: Standing
    grade: Grade
    lower_than: Grade | None
    review: str

    @property
    def counts(self) -> bool:
        """Whether it stands: a lower grade that was not approved leaves the one before it standing. One that is only
        lower than readings call for stands until another is set: without it there would be none."""
        return self.review != "not_approved" or self.lower_than is None


def grades(live: Sequence[Standing]) -> list[GradeSet]:
    """Every grade of a leak. `live`: its entries that stand, in the order they happened."""
    found: list[GradeSet] = []
    stands: Grade | None = None
    for entry in (each for each in live if each.kind == "grade_set"):
        grade = Grade(code=entry.text("grade"), rank=entry.understood.get("rank"))
        lower = stands if stands is not None and _is_lower(grade, stands) else None
        found.append(
            GradeSet(
                entry=entry, grade=grade, lower_than=lower, review=_review(entry, live) or ("waiting" if lower else "")
            )
        )
        if found[-1].counts:
            stands = grade
    return found


def _is_lower(grade: Grade, than: Grade) -> bool:
    return grade.rank is not None and than.rank is not None and grade.rank > than.rank


def _review(entry: Standing, live: Sequence[Standing]) -> str:
    named = [each for each in live if each.kind == "downgrade_reviewed" and each.text("grade_set") == entry.text("id")]
    return named[-1].text("outcome") if named else ""
