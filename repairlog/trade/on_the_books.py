"""What the books say of the people, instruments and lots that a leak's entries name; nothing said is no accusation."""

from __future__ import annotations

from collections.abc import Iterator

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.gap import Gap
from repairlog.trade.lot import is_expired, was_quarantined, was_scrapped
from repairlog.trade.person import same_task
from repairlog.trade.rests import Rests


def cut_over(opened: Standing, rests: Rests) -> str:
    """The cut-over day of a leak's area; empty where none is set. `opened`: the entry that opened the leak."""
    area = rests.areas.get(read_id(opened.said["area"]))
    return area.cut_over_on if area else ""


def on_the_books(entry: Standing, rests: Rests, *, cut_over_on: str) -> Iterator[Gap]:
    """Every gap of an entry that rests on people, instruments and lots. What is missing raises nothing before the
    area's cut-over day; a lot that had expired is not missing."""
    yield from _lots_used(entry, rests)
    if entry.on < cut_over_on:
        return
    yield from _lots(entry)
    yield from _qualifications(entry, rests)
    yield from _instruments(entry, rests)


def _lots_used(entry: Standing, rests: Rests) -> Iterator[Gap]:
    for row in entry.rows("materials"):
        lot, where = rests.lots.get(read_id(row["lot"])) if "lot" in row else None, f"materials.{row['key']}"
        if lot and is_expired(lot, on=entry.on):
            facts = {"lot_number": lot.lot_number, "expires_on": lot.expires_on, "used_on": entry.on}
            yield Gap(code="expired_lot_used", entry=entry.id, row=where, facts=facts)
        if lot and lot.void:
            yield Gap(code="void_lot_used", entry=entry.id, row=where, facts={"lot_number": lot.lot_number})
        if lot and was_quarantined(lot, on=entry.on):
            facts = {"lot_number": lot.lot_number, "used_on": entry.on}
            yield Gap(code="quarantined_lot_used", entry=entry.id, row=where, facts=facts)
        if lot and was_scrapped(lot, on=entry.on):
            facts = {"lot_number": lot.lot_number, "used_on": entry.on, "scrapped_on": lot.scrapped_on}
            yield Gap(code="scrapped_lot_used", entry=entry.id, row=where, facts=facts)


def _lots(entry: Standing) -> Iterator[Gap]:
    for row in entry.rows("materials"):
        if "lot" not in row:
            facts = {"named": row.get("named", "")}
            yield Gap(code="lot_not_on_the_books", entry=entry.id, row=f"materials.{row['key']}", facts=facts)


def _qualifications(entry: Standing, rests: Rests) -> Iterator[Gap]:
    """Of people on the books whose task is named."""
    for row in entry.rows("people"):
        person = rests.people.get(read_id(row["person"])) if "person" in row else None
        if person is None or "task" not in row:
            continue
        task = row["task"]
        if not any(same_task(each.task, task) and each.holds(on=entry.on) for each in person.qualifications):
            facts = {"person": person.name, "task": task, "done_on": entry.on}
            yield Gap(code="qualification_not_on_the_books", entry=entry.id, row=f"people.{row['key']}", facts=facts)


def _instruments(entry: Standing, rests: Rests) -> Iterator[Gap]:
    """Of the entry's own instrument, and of another with which one reading was taken."""
    rows = [("instrument", entry.said), *((f"readings.{row['key']}", row) for row in entry.rows("readings"))]
    for where, row in rows:
        if "instrument_used" not in row:
            if "instrument" in row:
                facts = {"named": row["instrument"]}
                yield Gap(code="instrument_not_on_the_books", entry=entry.id, row=where, facts=facts)
            continue
        instrument = rests.instruments.get(read_id(row["instrument_used"]))
        if instrument and not instrument.calibrated(on=entry.on):
            facts = {"mark": instrument.mark, "done_on": entry.on}
            yield Gap(code="calibration_not_on_the_books", entry=entry.id, row=where, facts=facts)
