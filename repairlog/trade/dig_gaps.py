"""What in a dig's record does not hold up: only what is plain from its own entries."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import RIGHTING
from repairlog.trade.answers_to import answers, moved_nowhere
from repairlog.trade.any_gaps import kept_as_text, sent_after_leaving
from repairlog.trade.gap import Gap
from repairlog.trade.typed_after import typed_long_after


def gaps(opened: Standing, live: Sequence[Standing]) -> Iterator[Gap]:
    """Every gap of a dig. `live`: its entries that stand, in the order they happened."""
    if opened.void is not None:
        for entry in (each for each in live if each.kind not in RIGHTING):
            yield Gap(code="stands_on_a_dig_opened_in_error", entry=entry.id)
        return
    yield from _ticket(opened)
    yield from typed_long_after(live)
    yield from moved_nowhere(answers(opened, live))
    filled = [entry for entry in live if entry.kind == "dig_backfilled"]
    owed = {str(entry.id) for entry in live if entry.kind == "restoration_owed"}
    for entry in live:
        yield from _who_did_it(entry)
        yield from kept_as_text(entry)
        yield from sent_after_leaving(entry)
        if entry.kind == "dig_backfilled" and _is_before(entry, opened):
            facts = {"backfilled_on": entry.on, "dug_on": opened.on}
            yield Gap(code="backfilled_before_it_was_dug", entry=entry.id, facts=facts)
        if entry.kind in ("dig_found", "pipe_exposed", "restored") and _is_before(entry, opened):
            facts = {"step": entry.kind, "done_on": entry.on, "dug_on": opened.on}
            yield Gap(code="before_it_was_dug", entry=entry.id, facts=facts)
        if entry.kind == "pipe_exposed" and filled and _is_before(filled[-1], entry):
            facts = {"done_on": entry.on, "backfilled_on": filled[-1].on}
            yield Gap(code="pipe_looked_at_after_it_was_backfilled", entry=entry.id, facts=facts)
        if entry.kind == "restored" and filled and _is_before(entry, filled[0]):
            facts = {"done_on": entry.on, "backfilled_on": filled[0].on}
            yield Gap(code="restored_before_it_was_backfilled", entry=entry.id, facts=facts)
        if entry.kind == "dig_found" and entry.text("found") == "nothing" and entry.text("source"):
            yield Gap(code="dry_and_yet_a_source", entry=entry.id)
        if entry.kind == "restored" and entry.text("owed") and entry.text("owed") not in owed:
            yield Gap(code="restoration_not_of_this_dig", entry=entry.id)


def _ticket(opened: Standing) -> Iterator[Gap]:
    """A dig needs a locate ticket, and is dug while that holds. Its first and last moment or day are counted in.

    Common practice, no source; the national rule asks excavators to use the one-call system and to wait for the marks
    (49 CFR 196.103), how long a ticket holds is a matter of each state.
    """
    if not opened.text("ticket"):
        yield Gap(code="no_locate_ticket", entry=opened.id)
    early, late = _against(opened, "ticket_from") < 0, _against(opened, "ticket_until") > 0
    if early or late:
        facts = {"dug_on": opened.on} | {
            f"{name.removeprefix('ticket_')}_on": str(opened.understood[f"{name}_on"])
            for name, outside in (("ticket_from", early), ("ticket_until", late))
            if outside
        }
        yield Gap(code="dug_before_the_ticket" if early else "dug_after_the_ticket", entry=opened.id, facts=facts)


def _against(entry: Standing, name: str) -> int:
    """-1 where it happened before what the field says, 1 after it, 0 within the same moment or day and where nothing is
    said: by moment where both are known, else by day."""
    if "happened_known" in entry.understood or f"{name}_on" not in entry.understood:
        return 0
    at, bound_at = entry.understood.get("happened_at"), entry.understood.get(f"{name}_at")
    this, bound = (at, bound_at) if at and bound_at else (entry.on, str(entry.understood[f"{name}_on"]))
    return (this > bound) - (this < bound)


def _is_before(entry: Standing, opened: Standing) -> bool:
    """By moment where both are known, else by day: the same day is not before."""
    if "happened_known" in entry.understood or "happened_known" in opened.understood:
        return False
    at, opened_at = entry.understood.get("happened_at"), opened.understood.get("happened_at")
    return bool(at < opened_at) if at and opened_at else entry.on < opened.on


def _who_did_it(entry: Standing) -> Iterator[Gap]:
    for row in entry.by.get("did", ()):
        if "person" not in row:
            facts = {"named": row.get("named", "")}
            yield Gap(code="person_not_on_the_books", entry=entry.id, row=f"did.{row['key']}", facts=facts)
