"""How long after what it tells of an entry was written, and from when on that is said to be long."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Moments, Standing, written_truly
from repairlog.entries.moments import read_moment
from repairlog.trade.gap import Gap

WORTH_A_NOTE = timedelta(days=1)
"""An entry written later than this after what it tells says so on the sheet: common practice, no source."""

USUAL_HOURS = 168
"""Hours after the work until which nothing is raised, where an area says none of its own: a week. It is ours and no
rule's; the operator's procedures say how soon a record is to be made."""

BESIDE_THE_WORK = ("note", "attached", "outside_number_added", "linked", "made_one", "gap_set_aside")
"""Kinds of entries that add to a record, whenever somebody does: they are not late."""


def days_after(entry: Standing) -> int:
    """Whole days from what happened to its writing by the device's clock; 0 where it was no more than one, and for what
    an old list tells, which is always late. By the day where no hour is known: written the day after counts as one day
    at the most."""
    after = _after(entry)
    return after.days if after > WORTH_A_NOTE else 0


def typed_long_after(live: Sequence[Standing]) -> Iterator[Gap]:
    """What was written longer after it happened than the area had said by then, once for all that was typed at a time:
    of the entry that happened first. What was keyed from paper is told apart: it was written once before. `live`: a
    subject's entries that stand, in the order they happened."""
    said: set[tuple[str, str]] = set()
    for entry in (each for each in live if each.kind not in BESIDE_THE_WORK):
        after, at_once = _after(entry), (str(entry.moments["received"]), entry.text("typed_from"))
        hours = entry.understood.get("typed_within", f"{USUAL_HOURS} h").removesuffix(" h")
        if after > timedelta(hours=int(hours)) and at_once not in said:
            said.add(at_once)
            code = "keyed_from_paper_long_after" if entry.text("typed_from") == "paper" else "typed_long_after"
            yield Gap(code=code, entry=entry.id, facts={"days": str(after.days), "hours": hours})


def _after(entry: Standing) -> timedelta:
    """From what happened to its writing; nothing where nobody can say, or where an old list tells it."""
    if entry.by["sure"] == "import" or "happened_known" in entry.understood:
        return timedelta()
    written = written_at(entry)
    if at := entry.understood.get("happened_at"):
        return written - read_moment(at)
    local = written.astimezone(ZoneInfo(entry.understood["zone"])).date()
    return timedelta(days=(local - date.fromisoformat(entry.on)).days)


def written_at(entry: Standing) -> datetime:
    """When it was written: by the device's clock with its offset taken off, else when it was received."""
    sealed = entry.moments
    moments = Moments(received=read_moment(sealed["received"]), offset_ms=sealed.get("offset_ms"))
    return written_truly(read_moment(sealed["written"]) if "written" in sealed else None, moments)
