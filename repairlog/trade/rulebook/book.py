"""A whole rulebook with what it extends taken in, and as it is in force on a day."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from typing import Any, TypeAlias

from repairlog.trade.rulebook.cited import in_force_on
from repairlog.trade.rulebook.due import Due
from repairlog.trade.rulebook.grading import Criterion, Grade
from repairlog.trade.rulebook.keeping import Convention, RecordAsked, Report, Retention, Round
from repairlog.trade.rulebook.meeting import InstrumentInterval, QualificationInterval, ResponseTime, TestPressure
from repairlog.trade.rulebook.missing import Drop, RuleGap, Target
from repairlog.trade.rulebook.regrading import RegradeLimit, VentingWait

Rule: TypeAlias = (
    Grade
    | Criterion
    | Due
    | RegradeLimit
    | VentingWait
    | RecordAsked
    | Retention
    | Round
    | Report
    | TestPressure
    | InstrumentInterval
    | QualificationInterval
    | ResponseTime
    | Convention
    | Target
    | RuleGap
)

KINDS: Mapping[str, str] = MappingProxyType(
    {
        "grade": "grades",
        "criterion": "criteria",
        "due": "dues",
        "regrade": "regrades",
        "venting_wait": "venting_waits",
        "record": "records",
        "retention": "retentions",
        "round": "rounds",
        "report": "reports",
        "test_pressure": "test_pressures",
        "instrument": "instruments",
        "qualification": "qualifications",
        "response_time": "response_times",
        "convention": "conventions",
        "target": "targets",
        "gap": "gaps",
    }
)
"""What heads a rule of each kind in a file, and the field of `Rulebook` that holds them, in the order of printing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rulebook:
    """What an area can adopt. `first`, `last`: days in force as far as known. `extends`: ids. `digest`: SHA-256, hex,
    of its text and of the digests of what it extends. `dropped`: rules of those that do not hold here. The rules, by
    kind, are its own and those of what it extends, each in the order of the texts, the extended ones first."""

    id: str
    title: str
    authority: str
    status: str
    digest: str
    first: date | None = None
    last: date | None = None
    extends: tuple[str, ...] = ()
    says: str = ""
    grades: tuple[Grade, ...] = ()
    criteria: tuple[Criterion, ...] = ()
    dues: tuple[Due, ...] = ()
    regrades: tuple[RegradeLimit, ...] = ()
    venting_waits: tuple[VentingWait, ...] = ()
    records: tuple[RecordAsked, ...] = ()
    retentions: tuple[Retention, ...] = ()
    rounds: tuple[Round, ...] = ()
    reports: tuple[Report, ...] = ()
    test_pressures: tuple[TestPressure, ...] = ()
    instruments: tuple[InstrumentInterval, ...] = ()
    qualifications: tuple[QualificationInterval, ...] = ()
    response_times: tuple[ResponseTime, ...] = ()
    conventions: tuple[Convention, ...] = ()
    targets: tuple[Target, ...] = ()
    gaps: tuple[RuleGap, ...] = ()
    dropped: tuple[Drop, ...] = ()


def rules(rulebook: Rulebook) -> Iterator[tuple[str, Rule]]:
    """Every rule with its kind (a key of `KINDS`), kind by kind."""
    for kind, field in KINDS.items():
        for rule in getattr(rulebook, field):
            yield kind, rule


def rule_named(rulebook: Rulebook, id: str) -> Rule | None:
    """The rule of that id; None where there is none."""
    return next((rule for _, rule in rules(rulebook) if rule.id == id), None)


def in_force(rulebook: Rulebook, *, on: date) -> Rulebook:
    """The rulebook with those rules alone that are in force on that day."""
    held: dict[str, Any] = {
        field: tuple(rule for rule in getattr(rulebook, field) if in_force_on(rule.cited, on))
        for field in KINDS.values()
    }
    return replace(rulebook, **held)


def asks_confirmation(rule: Rule) -> bool:
    """Whether its dates are proposed until an officer confirms it: its text was not read. A gap has nothing to confirm,
    a convention and a target are the operator's own to set."""
    return not (rule.cited.firm or isinstance(rule, RuleGap | Convention | Target))


def to_be_confirmed(rulebook: Rulebook, *, confirmed: Collection[str] = ()) -> list[tuple[str, Rule]]:
    """The rules that ask for confirmation and are not among those `confirmed` (ids), with their kinds."""
    return [(kind, rule) for kind, rule in rules(rulebook) if asks_confirmation(rule) and rule.id not in confirmed]
