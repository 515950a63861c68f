"""What stands in the way of another grade for the same leak."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.rulebook.cited import Cited

CLOCKS = ("runs_on", "starts_anew", "shorter_of_both")
"""What a new grade does to the time already running. `shorter_of_both`: what is left, or the new grade's, if less."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RegradeLimit:
    """From which grades to which: codes, none of them where any. `direction`: up, down or either. `most_times`: how
    often without a repair, None where not limited. `only_after_repair`: a repair, a temporary one too, comes first.
    `within`: only so long after the leak was found, as interval text; empty where not limited. `clock`: one of
    `CLOCKS`, empty where the rule does not say. `reason_asked`, `person_named`: whether the rule asks for them."""

    id: str
    direction: str
    cited: Cited
    from_grades: tuple[str, ...] = ()
    to_grades: tuple[str, ...] = ()
    most_times: int | None = None
    only_after_repair: bool = False
    within: str = ""
    clock: str = ""
    reason_asked: bool = False
    person_named: bool = False
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class VentingWait:
    """After venting: so long a wait (interval text), then a reading again, before a lower grade. `grades`: codes of the
    grade that stands until then, to which it applies; none where any."""

    id: str
    wait: str
    cited: Cited
    grades: tuple[str, ...] = ()
    says: str = ""
