"""The worked rows of what is owed: of a leak by its area's rulebooks, of a dig by what was said of its restoration."""

from __future__ import annotations

from datetime import date

from repairlog.records.effects.rows import as_day, put_row
from repairlog.records.tables.due import DUE_ITEM, DUE_MISSING
from repairlog.records.tables.picture import Picture
from repairlog.trade.dig import Dig
from repairlog.trade.due.of_leak import Required
from repairlog.trade.leak import Leak


def due_rows(picture: Picture, of: Leak) -> None:
    """The rows of a leak's items, those that are settled too, and of what has no day."""
    for required in of.required:
        _items(picture, of, required)
        for missing in required.owed.missing:
            put_row(
                picture,
                DUE_MISSING,
                subject_id=of.opened.id,
                adopted_id=required.adoption.entry,
                why=missing.why,
                grade=missing.grade,
                task=missing.task,
                rule=missing.rule,
                area_id=of.area,
                fill_in=missing.fill_in or None,
                from_on=as_day(required.from_on),
                until_on=as_day(required.until_on),
            )


def _items(picture: Picture, of: Leak, required: Required) -> None:
    for item in required.owed.items:
        put_row(
            picture,
            DUE_ITEM,
            subject_id=of.opened.id,
            adopted_id=required.adoption.entry,
            rule=item.rule,
            graded_id=item.graded or of.opened.id,
            counted_id=item.entry or of.opened.id,
            leak_id=of.opened.id,
            area_id=of.area,
            task=item.task,
            grade=item.grade,
            rank=item.rank,
            clause=item.clause,
            mark=item.mark,
            firm=item.firm,
            counted_from=item.counted_from,
            counted_on=item.counted_on,
            governed_by=item.governed_by,
            due_on=item.due_on,
            due_at=item.due_at,
            not_before=item.not_before,
            target_on=item.target_on,
            until=item.until,
            from_on=as_day(required.from_on),
            until_on=as_day(required.until_on),
            settled_on=item.settled_on,
            settled_by=item.settled_by or None,
        )


def restoration_rows(picture: Picture, of: Dig) -> None:
    """The rows of what a dig owes: whoever said by which day stands for it, and no clause does."""
    if of.status == "opened_in_error":
        return
    for owed in of.owed:
        if owed.by_on:
            put_row(
                picture,
                DUE_ITEM,
                subject_id=of.opened.id,
                adopted_id=owed.entry,
                rule="",
                graded_id=of.opened.id,
                counted_id=owed.entry,
                leak_id=of.leaks[0] if of.leaks else None,
                area_id=of.area,
                task="restore",
                grade=None,
                rank=None,
                clause=None,
                mark=None,
                firm=True,
                counted_from="said",
                counted_on=as_day(owed.on),
                governed_by=None,
                due_on=date.fromisoformat(owed.by_on),
                due_at=None,
                not_before=None,
                target_on=None,
                until="restored",
                from_on=None,
                until_on=None,
                settled_on=as_day(owed.restored_on),
                settled_by="restored" if owed.restored_on else None,
            )
        elif not owed.restored_on:
            put_row(
                picture,
                DUE_MISSING,
                subject_id=of.opened.id,
                adopted_id=owed.entry,
                why="no_day",
                grade="",
                task="restore",
                rule="",
                area_id=of.area,
                fill_in=owed.what,
                from_on=None,
                until_on=None,
            )
