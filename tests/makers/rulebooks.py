"""An invented rulebook with one rule of each shape that grading and due items know, and its parts."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from repairlog.rulebooks import rulebooks_of
from repairlog.trade.rulebook import Bound, Cited, Criterion, Due, Grade, ReadingBound, Rulebook
from repairlog.units import read

FIRM = Cited(clause="1.1", source="invented", mark="text_checked", checked=date(2026, 11, 25))
PROPOSED = Cited(clause="9.9", source="invented", mark="memory", checked=date(2026, 11, 25))


def bound(**sides: str) -> Bound:
    """A bound on gas: `at_least="80 %LEL"`."""
    return Bound(**{side: read(text, "gas") for side, text in sides.items()})


def criterion(id: str, calls_for: str, *, reading: Bound | None = None, kind: str = "", **rest: Any) -> Criterion:
    """A firm criterion, on methane where it asks for a reading."""
    asked = ReadingBound(gas="methane", kind=kind, bound=reading) if reading is not None else None
    return Criterion(id=id, says=id, calls_for=calls_for, cited=FIRM, reading=asked, **rest)


def due(id: str, task: str, **rest: Any) -> Due:
    """A firm rule unless told otherwise."""
    return Due(**{"id": id, "task": task, "cited": FIRM, **rest})


GRADES = tuple(
    Grade(id=code, code=code, rank=rank, meaning=f"class {code}", cited=FIRM)
    for code, rank in (("1", 1), ("2", 2), ("3", 3), ("3E", 4))
)

CRITERIA = (
    criterion("ignited", "1", conditions=("ignited",)),
    criterion("wall", "1", place="outside_wall", reading=bound(above="0 %LEL")),
    criterion("space-80", "1", place="confined_space", reading=bound(at_least="80 %LEL")),
    criterion(
        "box-80",
        "1",
        place="small_substructure",
        owner="other",
        conditions=("likely_to_reach_outside_wall",),
        reading=bound(at_least="80 %LEL"),
    ),
    criterion("seen", "1", conditions=("seen_heard_or_felt", "public_or_property_endangered")),
    criterion("judged", "1", judged=True),
    criterion("space-20", "2", place="confined_space", reading=bound(at_least="20 %LEL", below="80 %LEL")),
    criterion("walk-40", "2", place="sidewalk", conditions=("paved_wall_to_wall",), reading=bound(at_least="40 %LEL")),
    criterion("gas-box-80", "2", place="small_substructure", owner="gas_associated", reading=bound(at_least="80 %LEL")),
    criterion(
        "stressed",
        "2",
        percent_smys_at_least=Decimal(30),
        class_locations=("3", "4"),
        reading=bound(above="0 %LEL"),
    ),
    criterion("space-0", "3", place="confined_space", reading=bound(above="0 %LEL", below="20 %LEL")),
    criterion(
        "gas-box",
        "3",
        place="small_substructure",
        owner="gas_associated",
        reading=bound(above="0 %LEL", below="80 %LEL"),
    ),
    criterion("much", "3E", of_grade="3", place="bar_hole", reading=bound(at_least="50 %gas")),
    criterion("wide", "3E", of_grade="3", extent=Bound(at_least=read("2000 sq ft", "area"))),
    criterion("near", "1", place="bar_hole", distance=Bound(at_most=read("5 ft", "distance")), reading=bound()),
)

RULEBOOK = Rulebook(
    id="example",
    title="Example",
    authority="nobody",
    status="guidance",
    digest="0" * 64,
    grades=GRADES,
    criteria=CRITERIA,
)

OWN = Path(__file__).parent / "own_rulebooks"
"""The folder of an invented operator's own rulebooks: `saltmarsh-practice`, and `saltmarsh-proposal` beside it."""

RULEBOOKS = rulebooks_of(OWN)
"""Those and the shipped ones, as whoever opens a book hands them in."""
