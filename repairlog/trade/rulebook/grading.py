"""Grades, and the criteria by which what was found calls for one."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from repairlog.trade.rulebook.cited import Cited
from repairlog.units import Measure

PLACES = ("outside_wall", "inside", "tunnel", "confined_space", "small_substructure", "sidewalk", "street", "bar_hole")
"""Where a reading is taken. A bar hole counts where a rule speaks of bar holes; what it stands in is another place."""

OWNERS = ("gas_associated", "other")
"""Whose substructure it is: built for gas, or another's."""

SAID = (
    *("ignited", "seen_heard_or_felt", "excavation_damage", "frost"),
    *("paved_wall_to_wall", "not_paved_wall_to_wall"),
)
"""Conditions that hold where somebody says so, and not otherwise. Of the two of paving one always holds: without a
word about it, the street is not paved from wall to wall."""

ASSUMED = (
    "likely_to_reach_outside_wall",
    "not_likely_to_reach_outside_wall",
    "significant_migration",
    "probable_future_hazard",
    "public_or_property_endangered",
)
"""Conditions that a person weighs: where nobody answered, they count as met, and whoever judges says so. The grade
that comes out is the more hazardous one, never the less."""

CONDITIONS = (*SAID, *ASSUMED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A class of leaks. `code`: as the rulebook writes it. `rank`: 1 is the most hazardous; two codes of one rulebook
    may share none. `meaning`: in words."""

    id: str
    code: str
    rank: int
    meaning: str
    cited: Cited


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """Limits of one measure; each None where there is none. `at_least` and `at_most` count in, `above` and `below`
    do not."""

    at_least: Measure | None = None
    above: Measure | None = None
    below: Measure | None = None
    at_most: Measure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingBound:
    """A reading of `gas` (methane and the like); `kind`: sustained, peak, or empty for either; `bound`: of quantity
    gas, in the unit and on the LEL basis that the rule is written in."""

    gas: str
    kind: str
    bound: Bound


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion:
    """What calls for a grade: everything that it names together.

    `place`: one of `PLACES`, empty where any; `owner`: one of `OWNERS`, empty where either. `conditions`: codes of
    `CONDITIONS`, all of which hold. `reading`, `extent` (square measure), `distance` (from a building's outside wall):
    None where not asked. `percent_smys_at_least` with `class_locations`: of a line so stressed, in such a class; None
    and none where not asked. `judged`: nothing measured decides; a person cites it. `of_grade`: counts only for a leak
    that otherwise has that grade; empty where it stands alone. `calls_for`: grade code. `says`: in words.
    """

    id: str
    says: str
    calls_for: str
    cited: Cited
    place: str = ""
    owner: str = ""
    conditions: tuple[str, ...] = ()
    reading: ReadingBound | None = None
    extent: Bound | None = None
    distance: Bound | None = None
    percent_smys_at_least: Decimal | None = None
    class_locations: tuple[str, ...] = ()
    judged: bool = False
    of_grade: str = ""
