"""Sizes, grades, factors and test clauses of pipe, as config/pipe has them."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from repairlog.figures.asked import bare_number
from repairlog.figures.dated import table
from repairlog.trade.pipe import Band, Pipe, TestClause
from repairlog.trade.unworkable import Unworkable
from repairlog.words.rulebooks.cited import mark_word

STEEL, PLASTIC, COPPER = "steel", "plastic", "copper"

# What people write around a size, a schedule or a grade: common practice, no source.
_NPS = re.compile(r"^nps\s*|\s*(?:inch(?:es)?|in\.?|[\"″”])$", re.IGNORECASE)
_SCHEDULE = re.compile(r"^(?:SCHEDULE|SCH\.?|S(?=[0-9]))\s*")
_GRADE = re.compile(r"^(?:api\s*)?(?:5l\s*)?(?:(?:grade|gr\.?)\s+)?")


def steel(nps: str, *, schedule: str) -> Pipe:
    """Pipe of that nominal size and schedule; raises `no_such_size`, `not_a_choice`."""
    row = _row(table("pipe/steel.toml")["sizes"], nps)
    wall = row.get(_SCHEDULE.sub("", schedule.upper()))
    if wall is None:
        known = [it for it in row if it != "od"]
        raise Unworkable("not_a_choice", field="schedule", got=schedule[:80], would_have=", ".join(known))
    return Pipe(od=row["od"], wall=wall)


def plastic(nps: str, *, sdr: float, system: str) -> Pipe:
    """Pipe of that nominal size, its wall OD over SDR but never thinner than the least; raises `no_such_size`."""
    data = table("pipe/plastic.toml")
    od = float(_row(data["sizes"][system], nps))
    return Pipe(od=od, wall=max(od / sdr, data["least_wall"]["inches"]))


def copper(nps: str) -> Pipe:
    """Pipe of that nominal size; raises `no_such_size`."""
    return Pipe(**_row(table("pipe/copper.toml")["sizes"], nps))


def yield_strength(grade: str) -> float:
    """Specified minimum yield strength of a grade, psi; raises `not_a_choice`."""
    grades = {name: it for name, it in table("pipe/steel.toml")["grades"].items() if isinstance(it, int)}
    known = {name.lower(): it for name, it in grades.items()}
    said = _GRADE.sub("", grade.lower()).replace("-", "").strip()
    if said not in known:
        raise Unworkable("not_a_choice", field="grade", got=grade[:80], would_have=", ".join(grades))
    return float(known[said])


def design_factor(class_location: str) -> float:
    """How much of the yield strength a steel design may use there."""
    return float(table("pipe/steel.toml")["design_factors"][class_location])


def plastic_caps() -> list[dict[str, Any]]:
    """What a plastic design is capped at, by its design factor, the smallest first."""
    return sorted(table("pipe/plastic.toml")["cap"], key=lambda it: float(it["most_design_factor"]))


def source_of(material: str) -> str:
    """Where a material's sizes come from, with their mark."""
    data = table(f"pipe/{material}.toml")
    return f"{data['source']} ({mark_word(data['mark'])})"


def clauses() -> tuple[TestClause, ...]:
    """Every test clause on file."""
    return tuple(_clause(row) for row in table("pipe/tests.toml")["clause"])


def _clause(row: dict[str, Any]) -> TestClause:
    bands = tuple(Band(**band) for band in row.get("band", ()))
    rest: dict[str, Any] = {
        name: tuple(it) if isinstance(it, list) else it for name, it in row.items() if name != "band"
    }
    return TestClause(**rest, bands=bands)


def _row(sizes: dict[str, Any], nps: str) -> Any:
    wanted = bare_number(_NPS.sub("", nps.strip()), field="nps")
    for name, row in sizes.items():
        if _inches(name) == wanted:
            return row
    raise Unworkable("not_a_choice", field="nps", got=nps[:80], would_have=", ".join(sizes))


def _inches(name: str) -> Decimal:
    return bare_number(name.replace("-", " "), field="nps")
