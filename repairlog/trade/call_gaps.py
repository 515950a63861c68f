"""What in a call's record does not hold up. A gap says so; it never refuses and never drops what was written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import RIGHTING
from repairlog.trade.answers_to import answers, moved_nowhere
from repairlog.trade.any_gaps import any_gaps
from repairlog.trade.gap import Gap
from repairlog.trade.typed_after import typed_long_after

STEPS = ("call_received", "call_sent", "call_on_way", "call_on_site", "call_outcome")
"""The steps of a call in the order in which they come about: common practice, no source."""

NAMES = {"operators_leak": "found_leak", "same_call": "same_as"}
"""Outcomes that name something, with the field that names it."""


def gaps(received: Standing, live: Sequence[Standing]) -> Iterator[Gap]:
    """Every gap of a call. `live`: its entries that stand, in the order they happened."""
    if received.void is not None:
        yield from _received_in_error(live)
        return
    yield from _out_of_order(live)
    yield from _outcomes(live)
    yield from typed_long_after(live)
    yield from moved_nowhere(answers(received, live))
    for entry in live:
        yield from any_gaps(entry)
        yield from _not_on_the_books(entry)


def _received_in_error(live: Iterable[Standing]) -> Iterator[Gap]:
    for entry in live:
        if entry.kind not in RIGHTING:
            yield Gap(code="stands_on_a_call_received_in_error", entry=entry.id, facts={"kind": entry.kind})


def _out_of_order(live: Sequence[Standing]) -> Iterator[Gap]:
    """An entry that happened before the first of an earlier step, said once an entry. A day that is only known as on or
    before raises nothing."""
    known = [entry for entry in live if entry.kind in STEPS and "happened_known" not in entry.understood]
    firsts: dict[str, Standing] = {}
    for entry in known:
        firsts.setdefault(entry.kind, entry)
    for entry in known:
        before = [firsts[step] for step in STEPS[: STEPS.index(entry.kind)] if step in firsts]
        if late := [each for each in before if _is_before(entry, each)]:
            times = {"typed": entry.text("happened"), "other_typed": late[0].text("happened")}
            facts = {"step": entry.kind, "other_step": late[0].kind} | times
            yield Gap(code="call_times_out_of_order", entry=entry.id, facts=facts)


def _is_before(entry: Standing, other: Standing) -> bool:
    """By moment where both are known, else by day: the same day is not before."""
    at, other_at = entry.understood.get("happened_at"), other.understood.get("happened_at")
    if at and other_at:
        return bool(at < other_at)
    return entry.on < other.on


def _outcomes(live: Sequence[Standing]) -> Iterator[Gap]:
    """What an outcome leaves unsaid, and two outcomes without anybody sent in between."""
    first: Standing | None = None
    for entry in live:
        if entry.kind == "call_sent":
            first = None
        if entry.kind != "call_outcome":
            continue
        outcome = entry.text("outcome")
        if outcome in NAMES and not entry.text(NAMES[outcome]):
            lacks_leak = outcome == "operators_leak"
            yield Gap(code="outcome_names_no_leak" if lacks_leak else "outcome_names_no_call", entry=entry.id)
        if outcome == "customers" and entry.text("made_safe") in ("", "not_made_safe"):
            yield Gap(code="customers_piping_not_made_safe", entry=entry.id)
        if first is not None:
            yield Gap(code="call_ended_twice", entry=entry.id, facts={"first": first.text("outcome")})
        first = first or entry


def _not_on_the_books(entry: Standing) -> Iterator[Gap]:
    """Somebody who was sent, by a name alone."""
    if entry.kind in STEPS and entry.text("named") and not (entry.text("crew") or entry.text("person")):
        yield Gap(code="person_not_on_the_books", entry=entry.id, row="named", facts={"named": entry.text("named")})
