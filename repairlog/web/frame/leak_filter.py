"""What the address of a list of leaks asks for: each filter read by itself, so that a wrong one spoils no other."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode
from uuid import UUID

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import Edge, LeakRow, Wanted
from repairlog.trade.area import Area
from repairlog.web.frame.filters import day_in

NAMES = ("area", "status", "grade", "street", "from", "until", "number", "by", "crew", "method", "notes")
"""The filters, as the address names them."""

BY = ("reported", "repaired", "ended")
"""Of what the days from and until are."""

A_YEAR = 366
"""Days from the first to the last, both counted in, in which notes are searched at the most: every one is read."""

STATUSES = ("open", "ended", "opened_in_error")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field, empty ones left out. `wrong`: by field, the code of what is wrong with it.
    The rest as it was read; None or empty where nothing, or nothing readable, was asked for."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    area: UUID | None
    status: str
    grade: str
    street: str
    from_on: date | None
    until_on: date | None
    number: str
    by: str
    crew: UUID | None
    method: str
    notes: str


def asked(arguments: Mapping[str, str], *, areas: Sequence[Area], crews: Collection[UUID] = ()) -> Asked:
    """Read the filter of an address. `areas`, `crews`: those in the asker's scope; any other is as if it were not
    there."""
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in areas if area.code.casefold() == typed.get("area", "").casefold()), None)
    status = typed.get("status", "")
    from_on, until_on = (day_in(typed.get(name, "")) for name in ("from", "until"))
    backwards = bool(from_on and until_on and until_on < from_on)
    by = typed.get("by", BY[0])
    crew = next((crew for crew in crews if str(crew) == typed.get("crew", "")), None)
    a_year = bool(from_on and until_on and 0 <= (until_on - from_on).days < A_YEAR)
    found = {
        "area": "no_such_area" if area is None else "",
        "status": "no_such_status" if status not in STATUSES else "",
        "from": "not_a_day" if from_on is None else "",
        "until": "not_a_day" if until_on is None else "until_before_from" if backwards else "",
        "by": "no_such_day" if by not in BY else "",
        "crew": "no_such_crew" if crew is None else "",
        "notes": "" if area and a_year else "notes_of_an_area_and_a_year",
    }
    wrong = {name: code for name, code in found.items() if code and name in typed}
    return Asked(
        typed=typed,
        wrong=wrong,
        area=area,
        status="" if "status" in wrong else status,
        grade=typed.get("grade", ""),
        street=typed.get("street", ""),
        from_on=from_on,
        until_on=None if backwards else until_on,
        number=typed.get("number", ""),
        by=BY[0] if "by" in wrong else by,
        crew=crew,
        method=typed.get("method", ""),
        notes="" if "notes" in wrong else typed.get("notes", ""),
    )


def wanted(of: Asked, *, streets: Sequence[UUID] | None) -> Wanted:
    """The same as a question to the book. `streets`: those of the part of a name that was asked for, None of none."""
    return Wanted(
        area=of.area,
        status=of.status,
        grade=of.grade,
        streets=None if streets is None else tuple(streets),
        from_on=of.from_on,
        until_on=of.until_on,
        number=of.number,
        by=of.by,
        crew=of.crew,
        method=of.method,
        notes=of.notes,
    )


def edge_of(arguments: Mapping[str, str]) -> Edge | None:
    """Where the page before ended, `older=DAY.ID` or `newer=DAY.ID`; None on the first page, and for any other text."""
    for towards in ("older", "newer"):
        day, _dot, id_text = arguments.get(towards, "").partition(".")
        id = as_id(id_text)
        if id is not None and (on := day_in(day)) is not None:
            return Edge(on, id, towards)
    return None


def edge_text(row: LeakRow) -> str:
    """The same as it stands in an address, where a page ends with that row."""
    return f"{row.reported_on}.{row.id}"


def edge_after(last: LeakRow | None) -> Edge | None:
    """Where the rows begin that are older than that one; None for the newest."""
    return Edge(date.fromisoformat(last.reported_on), last.id) if last else None


def filtered(at: str, typed: Mapping[str, str], **edge: str) -> str:
    """The address `at` with that filter, and where a page begins."""
    return f"{at}?{urlencode({**typed, **edge})}".removesuffix("?")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeaksPage:
    """A page of the list. `rows`: those on it. `newer`, `older`, `newest`: addresses of the pages beside it and of the
    first one, empty where there is none. `more`: older ones follow."""

    rows: Sequence[LeakRow]
    newer: str
    older: str
    newest: str
    more: bool


def leaks_page(rows: Sequence[LeakRow], *, at_most: int, of: Asked, beyond: Edge | None, at: str) -> LeaksPage:
    """The page of these rows, of which one more than `at_most` was asked for. `at`: the address without its filter."""
    more = len(rows) > at_most
    upwards = beyond is not None and beyond.towards == "newer"
    on_page = rows[-at_most:] if upwards else rows[:at_most]
    newer, older = (more, True) if upwards else (beyond is not None, more)

    return LeaksPage(
        rows=on_page,
        newer=filtered(at, of.typed, newer=edge_text(on_page[0])) if newer and on_page else "",
        older=filtered(at, of.typed, older=edge_text(on_page[-1])) if older and on_page else "",
        newest=filtered(at, of.typed) if beyond else "",
        more=older and bool(on_page),
    )
