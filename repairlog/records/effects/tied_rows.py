"""Worked rows of digs and places, and of what any subject's entries tie to it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Table

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.records.effects.entries import street_as_row
from repairlog.records.tables import ENGINE_VERSION, worked
from repairlog.records.tables.picture import Picture, add
from repairlog.records.tables.search_key import search_key
from repairlog.trade.answers_to import answers, answers_of
from repairlog.trade.dig import Dig
from repairlog.trade.tied import others_that_are_the_same, outside_numbers, streets_that_are_the_same


def dig_rows(picture: Picture, of: Dig) -> None:
    """The rows of a dig, but for its gaps."""
    owed = of.still_owed
    _add(
        picture,
        worked.DIG,
        id=of.opened.id,
        area_id=of.area,
        opened_on=_day(of.opened.on),
        status=of.status,
        found=of.found or None,
        ticket=of.ticket or None,
        backfilled_on=_day(of.backfilled_on),
        owed=len(owed),
        owed_by_on=_day(owed[0].by_on) if owed else None,
    )
    for leak in of.leaks if of.status != "opened_in_error" else ():
        _add(picture, worked.DIG_SERVES, dig_id=of.opened.id, leak_id=leak)


def place_rows(picture: Picture, entries: Sequence[Standing]) -> None:
    """The row of a place; none where none of its entries adds it."""
    added = next((entry for entry in entries if entry.kind == "place_added"), None)
    if added is None:
        return
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    retired = [entry.on for entry in live if entry.kind == "place_retired"]
    named = [added.text(name) for name in ("called", "house_number", "street", "town", "postal_code", "location")]
    _add(
        picture,
        worked.PLACE,
        id=added.id,
        area_id=answers(added, live).now,
        what=added.text("what"),
        called=added.said.get("called"),
        house_number=added.said.get("house_number"),
        street=added.said.get("street"),
        town=added.said.get("town"),
        search_key=search_key(" ".join(named)),
        retired_on=_day(min(retired, default="")),
        void=added.void is not None,
    )


def tied_rows(picture: Picture, entries: Sequence[Standing], *, subject: UUID) -> None:
    """The rows that a subject of whatever kind has by what was tied to it. `entries`: its whole story."""
    for each in outside_numbers(entries):
        _add(
            picture,
            worked.OUTSIDE_NUMBER,
            subject_id=subject,
            entry_id=each.entry,
            row_key=each.row,
            what=each.what,
            number=each.number,
            search_key=search_key(each.number),
        )
    for entry, other in others_that_are_the_same(entries):
        _add(picture, worked.STANDS_FOR, kept_id=subject, other_id=other, entry_id=entry)
    for says_so, kept, same in streets_that_are_the_same(entries):
        streets = [street_as_row(each.name, each.town) for each in (kept, same)]
        if streets[0] and streets[1] and streets[0]["id"] != streets[1]["id"]:
            _add(
                picture,
                worked.STREET_STANDS_FOR,
                entry_id=says_so,
                area_id=subject,
                kept_id=streets[0]["id"],
                kept_name=", ".join(filter(None, (kept.name, kept.town))),
                other_id=streets[1]["id"],
            )


def moved_rows(picture: Picture, entries: Sequence[Standing], *, subject: UUID) -> None:
    """The moves of a subject, each from where it answered before; the last one is that by which it answers now."""
    answered = answers_of(entries)
    moves = answered.moves if answered else ()
    for number, move in enumerate(moves, start=1):
        _add(
            picture,
            worked.MOVED,
            entry_id=move.entry.id,
            subject_id=subject,
            from_area_id=move.from_area,
            to_area_id=move.to_area,
            moved_on=_day(move.entry.on),
            number=number,
            last=move is moves[-1],
        )


def _add(picture: Picture, table: Table, **row: Any) -> None:
    add(picture, table, engine=ENGINE_VERSION, **row)


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None
