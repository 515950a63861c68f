"""What a place is called in a line: its own name, what it is, and where."""

from __future__ import annotations

from repairlog.records.queries.places import PlaceRow
from repairlog.words import _, codes


def place(row: PlaceRow) -> str:
    """`Service to number 14: service, 14 Quarry Lane, Harrowsedge`; without a name, what it is comes first."""
    what = codes.word(row.what)
    where = " ".join(filter(None, (row.house_number, row.street)))
    address = ", ".join(filter(None, (where, row.town)))
    if row.called:
        told = ", ".join(filter(None, (what[:1].lower() + what[1:], address)))
        return _("{name}: {told}").format(name=row.called, told=told)
    return ", ".join(filter(None, (what, address)))
