"""What an entry says of rulebooks and calendars is checked against those that are offered here or stand in the book."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from repairlog.entries.entry import Standing
from repairlog.intake.said import DIGEST, Reading
from repairlog.trade.intervals.working_days import CALENDARS
from repairlog.trade.rulebook import Rulebook, rule_named, rules

MOST_OFFERED = 6
"""Names of rules or calendars that are offered where another one came."""


def digests_said(call: Iterable[Mapping[str, Any]], *, chains: Iterable[Iterable[Standing]]) -> set[str]:
    """The digests of rulebooks that a call names, and those that stand in what it puts right."""
    told = [*call, *(entry.said for chain in chains for entry in chain)]
    return {digest for said in told for digest in _digests(said)}


def _digests(said: Mapping[str, Any]) -> Iterator[str]:
    if "rulebook" in said and "digest" in said:
        yield str(said["digest"])
    for change in said.get("changes", ()):
        if DIGEST.fullmatch(str(change.get("to", ""))):
            yield str(change["to"])


def demand_known(said: Mapping[str, Any], rulebooks: Mapping[str, Rulebook], *, reading: Reading) -> None:
    """Complain of a rulebook, a rule or a calendar that nobody knows here, and of a proposal that is adopted without a
    word that it is one. `rulebooks`: by digest, those that could be opened."""
    if "rulebook" in said:
        _rulebook(said, rulebooks.get(said["digest"]), reading=reading)
    if "calendar" in said and said["calendar"] not in CALENDARS:
        near = get_close_matches(said["calendar"].upper(), sorted(CALENDARS), n=MOST_OFFERED, cutoff=0.5)
        reading.complain("calendar", "calendar_unknown", got=said["calendar"], would_have=near or ["US", "US-NY", "GB"])


def _rulebook(said: Mapping[str, Any], found: Rulebook | None, *, reading: Reading) -> None:
    if found is None:
        reading.complain("digest", "rulebook_unknown", got=said["rulebook"], named=said["digest"])
        return
    if found.id != said["rulebook"]:
        reading.complain("rulebook", "rulebook_of_other_digest", got=said["rulebook"], would_have=[found.id])
    if "rule" in said and rule_named(found, said["rule"]) is None:
        every = [rule.id for _kind, rule in rules(found)]
        near = get_close_matches(said["rule"], every, n=MOST_OFFERED) or every
        reading.complain("rule", "rule_unknown", got=said["rule"], would_have=near)
    if "from_on" in said and found.status == "proposed" and "although_proposed" not in said:
        reading.complain("although_proposed", "rulebook_proposed", got=found.title)
