"""What the address of the list asks for: each filter read by itself, so that one that is wrong spoils no other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import Edge
from repairlog.trade.area import Area

NAMES = ("area", "status", "grade", "street", "from", "until", "number")
"""The filters, as the address names them."""

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


def asked(arguments: Mapping[str, str], *, areas: Sequence[Area]) -> Asked:
    """Read the filter of an address. `areas`: those in the asker's scope; any other is as if it were not there."""
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in areas if area.code.casefold() == typed.get("area", "").casefold()), None)
    status = typed.get("status", "")
    from_on, until_on = (_day(typed.get(name, "")) for name in ("from", "until"))
    backwards = bool(from_on and until_on and until_on < from_on)
    found = {
        "area": "no_such_area" if area is None else "",
        "status": "no_such_status" if status not in STATUSES else "",
        "from": "not_a_day" if from_on is None else "",
        "until": "not_a_day" if until_on is None else "until_before_from" if backwards else "",
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
    )


def edge_of(arguments: Mapping[str, str]) -> Edge | None:
    """Where the page before ended, `older=DAY.ID` or `newer=DAY.ID`; None on the first page, and for any other text."""
    for towards in ("older", "newer"):
        day, _dot, id_text = arguments.get(towards, "").partition(".")
        id = as_id(id_text)
        if id is not None and (on := _day(day)) is not None:
            return Edge(on, id, towards)
    return None


def edge_text(on: str, id: UUID) -> str:
    """The same as it stands in an address."""
    return f"{on}.{id}"


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
