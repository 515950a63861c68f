"""What a crew reads around a leak of the years: at the wall and in bar holes, by how near the gas is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import Any

WHERE = (
    "over the main",
    "over the service",
    "4 ft up the street",
    "8 ft up the street",
    "at the curb",
    "by the valve box",
)
REASONS = {
    "1": ("gas at the wall", "gas in the basement wall's crack", "high readings toward the building"),
    "2": ("gas under the walk, nothing at the wall", "high over the pipe, nothing within 20 ft of a wall"),
    "3": ("low readings over the pipe alone", "small and away from buildings"),
}
READ = {"1": (45, 95), "2": (22, 78), "3": (2, 18)}
"""Of the highest bar hole, %LEL."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A bar hole by its number in the leak, with the label it was given and what was read there last, in %LEL."""

    number: int
    label: str
    read: int


def holes_bored(chance: Random, grade: str) -> list[Hole]:
    """The holes of a first visit, the highest reading first."""
    high = chance.randint(*READ[grade])
    labels = chance.sample(WHERE, chance.randint(2, 4))
    reads = [max(0, round(high * share)) for share in (1, 0.6, 0.25, 0)]
    return [
        Hole(number=n, label=label, read=read) for n, (label, read) in enumerate(zip(labels, reads, strict=False), 1)
    ]


def first_places(chance: Random, holes: Sequence[Hole], *, grade: str) -> list[dict[str, Any]]:
    """The places of a first visit: the wall, and each hole."""
    wall = chance.randint(5, 40) if grade == "1" else 0
    away = f"{chance.randint(6, 34)} ft"
    places: list[dict[str, Any]] = [
        {
            "kind": "building",
            "owner": "customer",
            "label": "outside wall",
            "from_building": "0 ft",
            "reads": f"{wall} %LEL",
        }
    ]
    return places + [
        {"kind": "bar_hole", "owner": "gas", "label": hole.label, "from_building": away, "reads": f"{hole.read} %LEL"}
        for hole in holes
    ]


def again(chance: Random, holes: Sequence[Hole], *, change: float) -> tuple[list[Hole], list[dict[str, Any]]]:
    """The same holes some time later, and the places of that visit."""
    now = [
        Hole(number=hole.number, label=hole.label, read=max(0, round(hole.read * change * chance.uniform(0.85, 1.15))))
        for hole in holes
    ]
    places = [
        {"kind": "bar_hole", "owner": "gas", "label": hole.label, "same_as": hole.number, "reads": f"{hole.read} %LEL"}
        for hole in now
    ]
    return now, places


def reason_for(chance: Random, grade: str) -> str:
    """Why that grade, in a crew's words."""
    return chance.choice(REASONS[grade])
