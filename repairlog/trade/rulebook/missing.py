"""What a rulebook does not say, no longer says, or says beside the law."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.rulebook.cited import Cited


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleGap:
    """A figure that nobody gives: never zero, never a guess. `task`: of `TASKS`, empty where it is no due item.
    `grades`, `criteria`: codes and ids that it is about; none where all. `fill_in`: what the operator must fill
    in, in words. `instead_of`: the kind of rule (a key of `KINDS`) that would say it; empty where a due item would."""

    id: str
    fill_in: str
    cited: Cited
    task: str = ""
    grades: tuple[str, ...] = ()
    criteria: tuple[str, ...] = ()
    instead_of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The operator's own earlier date beside a limit. `beside`: id of the due rule. Counted as that rule counts,
    `within` its own interval text. Missing a target is never late."""

    id: str
    beside: str
    within: str
    cited: Cited
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """A rule of what is extended that does not hold here. `id`: its id; `reason`: why; `rulebook`: who says so."""

    id: str
    reason: str
    rulebook: str
