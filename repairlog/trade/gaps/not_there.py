"""Who and what was not there on the day: somebody who had left, a lot that had not come in yet."""

from __future__ import annotations

from collections.abc import Iterator

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.gap import Gap
from repairlog.trade.lot import not_there_yet
from repairlog.trade.person import left_before
from repairlog.trade.rests import Rests, lot_as_one, person_as_one
from repairlog.trade.typed_after import BESIDE_THE_WORK


def not_there(entry: Standing, rests: Rests) -> Iterator[Gap]:
    """Every such gap of an entry. That is no lack in the record, so the cut-over day changes nothing; a day that is
    only known as on or before accuses nobody."""
    if "happened_known" not in entry.understood:
        yield from _left(entry, rests)
        yield from _lots(entry, rests)


def _left(entry: Standing, rests: Rests) -> Iterator[Gap]:
    """Whoever did it or did a task of it, and had left before that day: said once of each. Their last day is a day on
    which they worked; what is written beside the work says nothing of when somebody worked."""
    if entry.kind in BESIDE_THE_WORK:
        return
    said: set[str] = set()
    rows = [*(("did", row) for row in entry.by.get("did", ())), *(("people", row) for row in entry.rows("people"))]
    for name, row in rows:
        if "person" not in row or row["person"] in said:
            continue
        records = person_as_one(rests, read_id(row["person"]))
        if left_on := left_before(records, on=entry.on):
            said.add(row["person"])
            facts = {"person": records[0].name, "left_on": left_on, "done_on": entry.on}
            yield Gap(code="done_after_leaving", entry=entry.id, row=f"{name}.{row['key']}", facts=facts)


def _lots(entry: Standing, rests: Rests) -> Iterator[Gap]:
    for row in (row for row in entry.rows("materials") if "lot" in row):
        records = lot_as_one(rests, read_id(row["lot"]))
        if received_on := not_there_yet(records, on=entry.on):
            facts = {"lot_number": records[0].lot_number, "used_on": entry.on, "received_on": received_on}
            yield Gap(code="lot_used_before_it_came", entry=entry.id, row=f"materials.{row['key']}", facts=facts)
