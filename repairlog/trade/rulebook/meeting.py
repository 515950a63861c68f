"""What a repaired line, an instrument, a person and a response must meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from repairlog.trade.rulebook.cited import Cited
from repairlog.trade.rulebook.grading import Bound
from repairlog.units import Measure

TESTED_PARTS = ("main", "service", "plastic", "tie_in", "steel_30_percent_smys", "steel_below_30_percent_smys")

FIELDS_OF_FORM: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "fixed": ("pressure",),
        "times_operating": ("times",),
        "greater_of_operating_and_fixed": ("times", "pressure"),
        "times_design": ("times",),
    }
)
"""The closed list of ways in which a test pressure is written, and the fields that each has: a pressure; so many times
the highest operating pressure; the greater of the two; so many times the design pressure."""

PRESSURE_FORMS = tuple(FIELDS_OF_FORM)

INSTRUMENTS = ("combustible_gas_indicator", "flame_ionization", "solid_state", "any_gas_instrument")

RESPONSE_FORMS = ("mean", "share", "most")
"""Three different rules: the mean over a period; the share of calls within a time; the most for any one call."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureForm:
    """`form`: one of `PRESSURE_FORMS`; `pressure`: the fixed one, None where the form has none; `times`: of the
    operating or design pressure, None where the form has none."""

    form: str
    pressure: Measure | None = None
    times: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestPressure:
    """The least and the most pressure of a test, and how long it is held: at least one of the three. `part`: one of
    `TESTED_PARTS`. `operating`: for lines of that highest operating pressure (gauge), None for all. `hold`: duration,
    None where the rule says none."""

    __test__ = False  # pytest takes a class of this name for tests

    id: str
    part: str
    cited: Cited
    least: PressureForm | None = None
    operating: Bound | None = None
    most: PressureForm | None = None
    hold: Measure | None = None
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class InstrumentInterval:
    """How often an instrument is verified. `within`: interval text. `also_after`: what else asks for it, in words."""

    id: str
    instrument: str
    within: str
    cited: Cited
    also_after: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class QualificationInterval:
    """How often a person is qualified again for a task. `task`: in words. `within`: interval text."""

    id: str
    task: str
    within: str
    cited: Cited
    also_after: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ResponseTime:
    """`form`: one of `RESPONSE_FORMS`. `time`: from `counted_from` to `until`, both in words; ends counted in.
    `percent`: of a share, the calls that are within the time, at least; None otherwise. `period`: month or year, empty
    for a single call. `calls`: which calls, in words."""

    id: str
    form: str
    calls: str
    time: Measure
    counted_from: str
    until: str
    cited: Cited
    percent: Decimal | None = None
    period: str = ""
    says: str = ""
