"""What pages say of streets and places: what one is called in a line, what it is, how a dig there stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from repairlog.records.queries.digs import DigRow
from repairlog.records.queries.places import PlaceRow
from repairlog.records.queries.places_listed import A_STREET, ListedPlace
from repairlog.trade.area import Area
from repairlog.words import _, codes, of_number
from repairlog.words.days import day

WHAT = (A_STREET, "service", "main_segment", "meter_set", "structure", "building")


def place(row: PlaceRow) -> str:
    """`Service to number 14: service, 14 Quarry Lane, Harrowsedge`; without a name, what it is comes first."""
    what = codes.word(row.what)
    where = " ".join(filter(None, (row.house_number, row.street)))
    address = ", ".join(filter(None, (where, row.town)))
    if row.called:
        told = ", ".join(filter(None, (what[:1].lower() + what[1:], address)))
        return _("{name}: {told}").format(name=row.called, told=told)
    return ", ".join(filter(None, (what, address)))


def what(code: str) -> str:
    """What it is."""
    return _("Street") if code == A_STREET else codes.word(code)


def name(row: ListedPlace) -> str:
    """What it is called: of a street the street and its town; of a place its own name, else where it is."""
    return row.called or address(row) or what(row.what)


def address(row: ListedPlace) -> str:
    """Where it is: house number, street, town; in capitals where nothing tells how the street is written."""
    return ", ".join(filter(None, (" ".join(filter(None, (row.house_number, row.street))), row.town)))


def dig_stands(row: DigRow) -> str:
    """What was found in a dig and how it stands, such as `a dry hole, backfilled`."""
    return ", ".join((dig_found(row.found), dig_status(row.status)))


def dig_found(code: str) -> str:
    """What was found in a dig; KeyError for another code."""
    return {
        "source": _("the source"),
        "nothing": _("a dry hole"),
        "other_pipe": _("another pipe"),
        "": _("nobody said yet what was found"),
    }[code]


def dig_status(code: str) -> str:
    """How a dig stands; KeyError for another code."""
    return {
        "open": _("not backfilled yet"),
        "backfilled": _("backfilled"),
        "restored": _("restored"),
        "opened_in_error": _("opened in error"),
    }[code]


def number_of(number: int) -> str:
    """So many streets and places in words."""
    return of_number("{number} street or place", "{number} streets and places", number=number).format(number=number)


def columns(areas: Sequence[Area]) -> Mapping[str, Callable[[ListedPlace], str | int]]:
    """The columns of the list as a file, by the word at their heads. `areas`: those that the rows may be of."""
    names = {area.id: area.name for area in areas}
    return {
        _("What it is"): lambda row: what(row.what),
        _("What it is called"): lambda row: row.called,
        _("House number"): lambda row: row.house_number,
        _("Street"): lambda row: row.street,
        _("Town"): lambda row: row.town,
        _("Area"): lambda row: names.get(row.area, "") if row.area else "",
        _("Leaks"): lambda row: row.leaks,
        _("Open"): lambda row: row.open,
        _("Last reported on"): lambda row: row.last_on,
        _("Calls"): lambda row: row.calls,
        _("Digs"): lambda row: row.digs,
        _("Retired on"): lambda row: row.retired_on,
    }


def retired(on: str) -> str:
    """That a place is no longer there."""
    return _("retired {day}").format(day=day(on))
