"""What is owed by when, from which day it is counted, and how long it is owed."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.rulebook.cited import Cited

TASKS = (
    *("act", "repair", "permanent_repair", "re_evaluate", "follow_up"),
    *("tell_fire_department", "tell_police", "tell_owner", "letter_to_owner", "review"),
)
"""`act`: immediate and continuous action until the hazard is gone. `repair`: repaired or cleared for good, where the
rule draws no line between the two. `permanent_repair`: what a temporary one still owes. `follow_up`: a look after the
repair. `review`: a supervisor's look at what was recorded."""

COUNTED_FROM = (
    *("reported", "found", "graded", "upgraded", "downgraded"),
    *("repaired", "temporarily_repaired", "looked_at", "told"),
)
"""From which day it runs. `found`: detected, or first located. `graded`: classified or designated. `looked_at`: the
last look at the leak, of which the day it was found is the first. `told`: the operator's dispatch was told."""

UNTIL = ("made_safe", "repaired", "permanently_repaired", "ended", "no_reading", "done_once")
"""`no_reading`: until a look finds none any more, or the leak is graded anew or ended. `done_once`: once is enough."""

DUE_WHEN = (
    *("residual_gas", "frost", "replacement_planned", "plastic_pipe", "temporary_repair"),
    *("downgraded_without_repair", "owner_not_there", "not_our_gas"),
)
"""`not_our_gas`: another operator's, or no natural gas of a pipeline at all. `owner_not_there`: nor another adult."""

AT_ONCE = "at once"
"""The interval of immediate action: due on the day it is counted from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One thing owed. `within`: interval text (`6 months`, `15 months or next scheduled round, whichever first`,
    `not before 14 days, not after 30 days`), or `AT_ONCE`.

    `grades`: codes; `criteria`: ids of the criteria that set the grade, where the interval hangs on those; a rule that
    names both wants both. `when`: codes of `DUE_WHEN` that all hold; `unless`: codes of which none does. `repeats`:
    owed again from each time it is done. `until`: one of `UNTIL`.
    """

    id: str
    task: str
    counted_from: str
    until: str
    within: str
    cited: Cited
    grades: tuple[str, ...] = ()
    criteria: tuple[str, ...] = ()
    when: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    repeats: bool = False
    says: str = ""
