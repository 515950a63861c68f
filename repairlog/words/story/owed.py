"""What is owed of a leak, as its sheet says it: at its top, and beside the entry from which each is counted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.records.story import Story
from repairlog.trade.dig import Owed as Restoration
from repairlog.trade.due import Item, Missing
from repairlog.trade.due.of_leak import Required
from repairlog.words import _, due_items
from repairlog.words.days import day
from repairlog.words.story.pieces import Margin

TAKEN_AWAY = ("graded_anew", "joined", "ended")
"""What settles an item without anybody having done it: nothing is said of it beside the entry."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DueLine:
    """One thing owed. `how_soon`: `due in 12 days`; `late`: past its limit. `by`: its days in full, and the operator's
    target; `asked_by`: clause and mark, empty for a restoration. `entry`: from which it is counted."""

    task: str
    how_soon: str
    late: bool
    by: str
    asked_by: str
    entry: UUID | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DueNext:
    """`rulebook`: id of what is answered to; empty where the area adopted none that holds. `lines`: what is late first,
    then by day. `missing`: sentences on what would be owed and has no day."""

    rulebook: str
    lines: Sequence[DueLine]
    missing: Sequence[str]


def due_next(story: Story, *, at: datetime) -> DueNext:
    """What is owed of a leak and its digs at that moment."""
    zone = ZoneInfo(str(story.leak.opened.understood["zone"]))
    on = at.astimezone(zone).date()
    holds = required_on(story.leak.required, on=on)
    items = [item for each in holds for item in each.owed.items if item.settled_on is None]
    lines = [((not is_late(item, on=on, at=at), item.due_on), _line(item, on=on, at=at, zone=zone)) for item in items]
    lines += [
        ((line.late is False, date.fromisoformat(owed.by_on)), line)
        for dig in story.digs
        for owed in (dig.owed if dig.status != "opened_in_error" else ())
        if owed.by_on and not owed.restored_on
        for line in [_restoration(owed, on=on)]
    ]
    missing = [due_items.missing(each) for owing in holds for each in owing.owed.missing if _is_asked(story, each)]
    ordered = [line for _key, line in sorted(lines, key=lambda each: each[0])]
    return DueNext(rulebook=holds[0].adoption.rulebook if holds else "", lines=ordered, missing=missing)


def required_on(required: Sequence[Required], *, on: date) -> list[Required]:
    """What is owed by the rulebook that holds on that day."""
    text = on.isoformat()
    return [each for each in required if each.from_on <= text and (not each.until_on or text <= each.until_on)]


def is_late(item: Item, *, on: date, at: datetime) -> bool:
    """Whether an item that is owed is past its limit; a proposed day is none."""
    return (
        item.firm and item.settled_on is None and (item.due_on < on or (item.due_at is not None and item.due_at < at))
    )


def due_notes(story: Story, entry: Standing, *, at: datetime) -> Iterator[Margin]:
    """What is owed, and what was done of it, counted from that entry."""
    if story.of_leak is None:
        return
    zone = ZoneInfo(str(entry.understood["zone"]))
    on = at.astimezone(zone).date()
    for each in required_on(story.of_leak.required, on=on):
        for item in each.owed.items:
            if item.entry != entry.id or item.settled_by in TAKEN_AWAY:
                continue
            if item.settled_on is None:
                line = _line(item, on=on, at=at, zone=zone)
                head = _("{task}: {how_soon}").format(task=_capital(line.task), how_soon=line.how_soon)
                text = _("{by}. {clause}; confirm with your procedures.").format(by=line.by, clause=line.asked_by)
                yield Margin(head=head, text=text, wants=line.late)
            else:
                done = due_items.settled(item)
                was = _("was due {day}") if due_items.in_time(item) else _("was due {day}, settled after it")
                head = _("{task}: {done}").format(task=_capital(due_items.tasks()[item.task]), done=done)
                yield Margin(head=head, text=was.format(day=day(item.due_on.isoformat())) + ".")


def _line(item: Item, *, on: date, at: datetime, zone: ZoneInfo) -> DueLine:
    by = _("by {day}").format(day=day(item.due_on.isoformat()))
    since = _("counted from {what}").format(what=due_items.counted_from()[item.counted_from])
    target = due_items.target(item, on=on)
    return DueLine(
        task=due_items.tasks()[item.task],
        how_soon=due_items.how_soon(item, on=on, at=at, zone=zone),
        late=is_late(item, on=on, at=at),
        by=", ".join(filter(None, (by, since, target))),
        asked_by=due_items.asked_by(item),
        entry=item.entry,
    )


def _restoration(owed: Restoration, *, on: date) -> DueLine:
    left = (date.fromisoformat(owed.by_on) - on).days
    return DueLine(
        task=due_items.tasks()["restore"],
        how_soon=due_items.in_days(left),
        late=left < 0,
        by=", ".join(filter(None, (owed.what, _("by {day}").format(day=day(owed.by_on)), owed.owed_by))),
        asked_by="",
        entry=owed.entry,
    )


def _is_asked(story: Story, missing: Missing) -> bool:
    """Of a leak that is ended nothing is missing but what comes after."""
    return story.leak.status == "open" or missing.task in ("follow_up", "permanent_repair")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
