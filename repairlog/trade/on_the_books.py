"""What the books say of the people, instruments and lots that a leak's entries name; nothing said is no accusation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.gap import Gap
from repairlog.trade.instrument import was_calibrated, was_retired
from repairlog.trade.lot import Lot, is_expired, quarantined_as_one, was_quarantined, was_scrapped
from repairlog.trade.person import qualifications_as_one, same_task
from repairlog.trade.rests import Rests, instrument_as_one, lot_as_one, person_as_one


def cut_over(area: UUID, rests: Rests) -> str:
    """The cut-over day of that area; empty where none is set."""
    of = rests.areas.get(area)
    return of.cut_over_on if of else ""


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
        if "lot" in row and (records := lot_as_one(rests, read_id(row["lot"]))):
            yield from _last_days(entry, records, where=f"materials.{row['key']}")
            yield from _not_to_be_used(entry, records, where=f"materials.{row['key']}")


def _last_days(entry: Standing, records: Sequence[Lot], *, where: str) -> Iterator[Gap]:
    """Where the records of a lot give several last days, it had expired only once all of them were over; between the
    first and the last of them it is a question, and accuses nobody."""
    said = sorted(each.expires_on for each in records if each.expires_on)
    expired = [each for each in records if is_expired(each, on=entry.on)]
    facts = {"lot_number": records[0].lot_number, "used_on": entry.on}
    if expired and len(expired) == len(said):
        yield Gap(code="expired_lot_used", entry=entry.id, row=where, facts=facts | {"expires_on": said[-1]})
    elif expired:
        facts |= {"first_on": said[0], "last_on": said[-1]}
        yield Gap(code="lot_used_between_its_last_days", entry=entry.id, row=where, facts=facts)


def _not_to_be_used(entry: Standing, records: Sequence[Lot], *, where: str) -> Iterator[Gap]:
    first = records[0]
    facts = {"lot_number": first.lot_number, "used_on": entry.on}
    if first.void:
        yield Gap(code="void_lot_used", entry=entry.id, row=where, facts={"lot_number": first.lot_number})
    if was_quarantined(replace(first, quarantined=quarantined_as_one(records)), on=entry.on):
        yield Gap(code="quarantined_lot_used", entry=entry.id, row=where, facts=facts)
    scrapped = [each for each in records if was_scrapped(each, on=entry.on)]
    if scrapped:
        facts |= {"scrapped_on": scrapped[0].scrapped_on}
        yield Gap(code="scrapped_lot_used", entry=entry.id, row=where, facts=facts)


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
    """Of the entry's own instrument, and of others that readings were taken with; each once, at its first naming."""
    rows = [("instrument", entry.said), *((f"readings.{row['key']}", row) for row in entry.rows("readings"))]
    first: dict[object, tuple[str, Mapping[str, Any]]] = {}
    for where, row in rows:
        first.setdefault(row.get("instrument_used", row.get("instrument")), (where, row))
    for where, row in first.values():
        if "instrument_used" not in row:
            if "instrument" in row:
                facts = {"named": row["instrument"]}
                yield Gap(code="instrument_not_on_the_books", entry=entry.id, row=where, facts=facts)
            continue
        records = instrument_as_one(rests, read_id(row["instrument_used"]))
        facts = {"mark": records[0].mark, "done_on": entry.on} if records else {}
        if retired_on := was_retired(records, on=entry.on) if records else "":
            raised = {**facts, "retired_on": retired_on}
            yield Gap(code="retired_instrument_used", entry=entry.id, row=where, facts=raised)
        if records and not was_calibrated(records, on=entry.on):
            yield Gap(code="calibration_not_on_the_books", entry=entry.id, row=where, facts=facts)
