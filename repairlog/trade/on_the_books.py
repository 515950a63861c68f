"""What the books say of the people, instruments and lots that a leak's entries name; nothing said is no accusation."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.gap import Gap
from repairlog.trade.lot import Lot, is_expired, quarantined_as_one, was_quarantined, was_scrapped
from repairlog.trade.person import qualifications_as_one, same_task
from repairlog.trade.rests import Rests, lot_as_one, person_as_one


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
        records = lot_as_one(rests, read_id(row["lot"])) if "lot" in row else []
        for code, facts in _lot_used(records, on=entry.on) if records else ():
            facts = {"lot_number": records[0].lot_number} | facts
            yield Gap(code=code, entry=entry.id, row=f"materials.{row['key']}", facts=facts)


def _lot_used(records: Sequence[Lot], *, on: str) -> Iterator[tuple[str, dict[str, str]]]:
    """What of a lot that was used on that day does not hold up. `records`: all under which it stands, that which was
    named first. Where they give several last days, it had expired only once all of them were over; between the first
    and the last of them it is a question, and accuses nobody."""
    last_days = sorted(each.expires_on for each in records if each.expires_on)
    if last_days and all(is_expired(each, on=on) for each in records if each.expires_on):
        yield "expired_lot_used", {"expires_on": last_days[-1], "used_on": on}
    elif any(is_expired(each, on=on) for each in records):
        yield "lot_used_between_its_last_days", {"first_on": last_days[0], "last_on": last_days[-1], "used_on": on}
    if records[0].void:
        yield "void_lot_used", {}
    if was_quarantined(replace(records[0], quarantined=quarantined_as_one(records)), on=on):
        yield "quarantined_lot_used", {"used_on": on}
    for each in [each for each in records if was_scrapped(each, on=on)][:1]:
        yield "scrapped_lot_used", {"used_on": on, "scrapped_on": each.scrapped_on}


def _lots(entry: Standing) -> Iterator[Gap]:
    for row in entry.rows("materials"):
        if "lot" not in row:
            facts = {"named": row.get("named", "")}
            yield Gap(code="lot_not_on_the_books", entry=entry.id, row=f"materials.{row['key']}", facts=facts)


def _qualifications(entry: Standing, rests: Rests) -> Iterator[Gap]:
    """Of people on the books whose task is named, by all records of the person."""
    for row in entry.rows("people"):
        records = person_as_one(rests, read_id(row["person"])) if "person" in row else []
        if not records or "task" not in row:
            continue
        task = row["task"]
        held = qualifications_as_one(records)
        if not any(same_task(each.task, task) and each.holds(on=entry.on) for each in held):
            facts = {"person": records[0].name, "task": task, "done_on": entry.on}
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
