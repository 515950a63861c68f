"""A whole rulebook in words: a part for each kind of rule, each rule with its clause and how far it is known."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from repairlog.trade.rulebook import KINDS, Drop, Rule, Rulebook, asks_confirmation
from repairlog.words import _
from repairlog.words.rulebooks.cited import cited_line
from repairlog.words.rulebooks.said import said


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """One rule. `says`: what it asks, in sentences. `cited`: where that is written. `asks_confirmation`: its text was
    not read, and no officer confirmed it yet. `kind`, `rulebook`: what it is, and the id of whichever rulebook says
    so."""

    id: str
    kind: str
    says: str
    cited: str
    mark: str
    asks_confirmation: bool
    rulebook: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The rules of one kind, under their heading."""

    kind: str
    heading: str
    rules: tuple[Printed, ...]


def printed(rulebook: Rulebook, *, confirmed: Collection[str] = ()) -> list[Part]:
    """Every kind of rule that the rulebook has any of, in a fixed order. `confirmed`: ids that an officer confirmed."""
    parts = []
    for kind, field in KINDS.items():
        rules: tuple[Rule, ...] = getattr(rulebook, field)
        if rules:
            told = tuple(_printed(kind, rule, confirmed=confirmed) for rule in rules)
            parts.append(Part(kind=kind, heading=_headings()[kind], rules=told))
    return parts


def dropped_line(drop: Drop) -> str:
    """A rule of what is extended that does not hold, and why."""
    return _("{id}: {reason}").format(id=drop.id, reason=drop.reason)


def _printed(kind: str, rule: Rule, *, confirmed: Collection[str]) -> Printed:
    return Printed(
        id=rule.id,
        kind=kind,
        says=said(rule),
        cited=cited_line(rule.cited),
        mark=rule.cited.mark,
        asks_confirmation=asks_confirmation(rule) and rule.id not in confirmed,
        rulebook=rule.cited.rulebook,
    )


def _headings() -> dict[str, str]:
    return {
        "grade": _("Grades"),
        "criterion": _("What calls for a grade"),
        "due": _("What is owed, and by when"),
        "regrade": _("Another grade for the same leak"),
        "venting_wait": _("After venting"),
        "record": _("What is recorded"),
        "retention": _("What is kept, and how long"),
        "round": _("Rounds"),
        "report": _("Reports"),
        "test_pressure": _("Test pressures"),
        "instrument": _("Instruments"),
        "qualification": _("Qualification"),
        "response_time": _("Response times"),
        "convention": _("How it is counted"),
        "target": _("The operator's own targets"),
        "gap": _("What the operator must fill in"),
    }
