"""What a visit found, as far as a grade may hang on it: from the entry as understood, or from what is being typed."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from repairlog.entries.entry import Row, Standing
from repairlog.entries.fields import YES_NO
from repairlog.trade.grading.found import NOWHERE, Found, Reading, Spot
from repairlog.trade.rulebook import ASSUMED, PLACES
from repairlog.units import Measure, read, split_canonical

COUNTS_AS: Mapping[str, frozenset[str]] = {
    **{place: frozenset((place,)) for place in PLACES},
    "building": frozenset(("inside", "outside_wall")),  # which of the two, the word leaves open
    "manhole": frozenset(("confined_space",)),
    "vault": frozenset(("confined_space",)),
    "catch_basin": frozenset(("small_substructure",)),
    "valve_box": frozenset(("small_substructure",)),
}
"""What the places of a visit count as under rules of grading. Common practice, no source: a manhole or vault can be
entered, a catch basin or valve box cannot."""

_SAID = {
    "ignited": "ignited",
    "seen_or_heard": "seen_heard_or_felt",
    "frost": "frost",
    "excavation_damage": "excavation_damage",
}

_OPPOSITE = {"likely_to_reach_outside_wall": "not_likely_to_reach_outside_wall"}
"""What an answer to the one answers, too."""


def found_at(visit: Standing, *, lel_basis: Decimal, grade: str = "") -> Found:
    """What that visit found, by what was understood of it when it came in: nothing typed is read again.

    `lel_basis`: the area's. `grade`: the code that a person gave.
    """
    spots = {row["key"]: _spot(row, visit.understood) for row in visit.rows("places")}
    usual = Decimal(str(visit.understood.get("lel_basis", lel_basis)))
    readings = []
    for row in visit.rows("readings"):
        canonical = visit.understood.get(f"readings.{row['key']}.value")
        if canonical is None:
            continue  # kept as text: it could not be read
        amount = split_canonical(canonical)
        basis = visit.understood.get(f"readings.{row['key']}.lel_basis")
        readings.append(
            Reading(
                key=row["key"],
                value=amount.value,
                unit=amount.unit,
                gas=amount.qualifier or row.get("gas", "methane"),
                kind=row.get("kind", ""),
                lel_basis=Decimal(str(basis)) if basis else usual,
                spot=spots.get(row.get("place", ""), NOWHERE),
            )
        )
    return Found(
        readings=tuple(readings),
        spots=tuple(spots.values()),
        said=said_of(visit.said),
        answers=answers_of(visit.said),
        extent=_measure(visit.understood.get("extent"), "area"),
        percent_smys=Decimal(stress) if (stress := visit.text("percent_smys")).isdecimal() else None,
        class_location=visit.text("class_location").removeprefix("class_"),
        grade=grade,
    )


def said_of(said: Mapping[str, Any]) -> frozenset[str]:
    """The conditions that a visit says hold."""
    held = {condition for name, condition in _SAID.items() if said.get(name) == "yes"}
    if said.get("ground") == "frozen":
        held.add("frost")
    if said.get("paving") == "wall_to_wall":
        held.add("paved_wall_to_wall")
    return frozenset(held)


def answers_of(said: Mapping[str, Any]) -> dict[str, bool]:
    """Of what a person weighs, what a visit answers; what it leaves out was not said."""
    answers = {name: said[name] == "yes" for name in ASSUMED if said.get(name) in YES_NO}
    return answers | {other: not answers[name] for name, other in _OPPOSITE.items() if name in answers}


def _spot(row: Row, understood: Mapping[str, Any]) -> Spot:
    owner = row.get("owner", "unknown")
    return Spot(
        counts_as=COUNTS_AS.get(row.get("kind", ""), frozenset()),
        owner={"unknown": "", "gas": "gas_associated"}.get(owner, "other"),
        distance=_measure(understood.get(f"places.{row['key']}.from_building"), "distance"),
    )


def _measure(canonical: str | None, quantity: str) -> Measure | None:
    """The measure of a canonical text; None where there is none."""
    return None if canonical is None else read(canonical, quantity)
