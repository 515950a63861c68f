"""What is to be recorded, kept, gone round and reported."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.rulebook.cited import Cited

RECORDS = (
    *("leak", "call", "repair", "pressure_test", "qualification", "instrument", "integrity", "survey", "patrol"),
    *("corrosion", "letter_to_owner", "outage", "emergency", "incident"),
)
"""What a field or a retention is of. `integrity`: the distribution integrity management program."""

FIELDS_ASKED = (
    *("number", "discovered", "reported", "received", "dispatched", "arrived", "investigated", "investigated_by"),
    *("how_detected", "reporter", "action_taken", "reviewed", "place", "grade", "regraded", "part_of_system"),
    *("component", "material", "size", "pressure", "condition", "coating", "protection", "installed", "ground_cover"),
    *("readings", "extent", "instrument", "cause", "hazardous", "repaired", "repaired_by", "method", "readings_left"),
    *("follow_up", "agency_told", "sketch", "eliminated", "environmental_significance", "counts"),
    *("tested_by", "medium", "duration", "charts", "elevation", "leaks_found"),
    *("person", "tasks", "qualified", "how_qualified", "repair_crew_arrived"),
)

REPORTS = (
    *("telephone_notice", "telephone_update", "incident_report", "annual_report", "leak_list", "quarterly_report"),
    *("monthly_report", "semi_annual_report", "safety_condition", "outage_report", "review_of_calls"),
)

ROUNDS = (
    *("leak_survey", "survey_program", "patrol", "atmospheric_corrosion", "cathodic_protection", "rectifier"),
    *("valves", "regulators"),
)

WEEKENDS = ("stays", "next_working_day", "shifts_direction_not_read")
"""Whether a day of reporting that falls on a weekend or a federal holiday moves. `shifts_direction_not_read`: it does,
and the text that says where to was not read: the operator says."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordAsked:
    """`record`: one of `RECORDS`. `fields`: codes of `FIELDS_ASKED`."""

    id: str
    record: str
    fields: tuple[str, ...]
    cited: Cited
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Retention:
    """How long a record is kept: exactly one of `keep` (interval text), `life_of_pipeline` and `most_recent` (so many
    of them). `or_next_one`: longer, where the next one is not complete by then."""

    id: str
    record: str
    cited: Cited
    keep: str = ""
    life_of_pipeline: bool = False
    most_recent: int | None = None
    or_next_one: bool = False
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """How often something is gone round. `of`: which sections or places, in words. `within`: interval text.
    `not_sooner`: least time after the one before, as interval text; empty where none."""

    id: str
    round: str
    of: str
    within: str
    cited: Cited
    not_sooner: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """A report owed: either `within` (interval text) counted from `counted_from` (in words), or each year on `days`
    (`MM-DD`). `to`: whom. `weekend`: one of `WEEKENDS`, empty where the rule says nothing of it."""

    id: str
    report: str
    to: str
    cited: Cited
    within: str = ""
    counted_from: str = ""
    days: tuple[str, ...] = ()
    weekend: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Convention:
    """How the rulebook counts where its text leaves it open. `name`: `half_month`; `value`: interval text."""

    id: str
    name: str
    value: str
    cited: Cited
    says: str = ""
