"""The worked rows of one subject: its fold, written as rows. A kind of subject without a fold has none."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import Any
from uuid import UUID

import orjson
from sqlalchemy import Table

from repairlog.entries.entry import Standing
from repairlog.entries.ids import as_id, read_id
from repairlog.entries.kinds import RIGHTING
from repairlog.entries.moments import read_moment
from repairlog.entries.naming import own_subject
from repairlog.records.effects.area_rows import area_rows
from repairlog.records.effects.due_rows import due_rows, restoration_rows
from repairlog.records.effects.entries import street_of
from repairlog.records.effects.instrument_rows import instrument_rows
from repairlog.records.effects.people_rows import company_rows, crew_rows, person_rows
from repairlog.records.effects.tied_rows import dig_rows, moved_rows, place_rows, tied_rows
from repairlog.records.tables import ENGINE_VERSION, books, due, worked
from repairlog.records.tables.picture import Picture, add
from repairlog.trade.call import Call, call
from repairlog.trade.dig import dig
from repairlog.trade.gap import Gap
from repairlog.trade.leak import Leak, leak
from repairlog.trade.lot import lot
from repairlog.trade.rests import Rests

OWNER: dict[Table, str] = {
    worked.AREA: "id",
    books.COMPANY: "id",
    books.COMPANY_NAME: "company_id",
    books.COMPANY_TERM: "company_id",
    books.PERSON: "id",
    books.ROLE: "person_id",
    books.QUALIFICATION: "person_id",
    books.CREW: "id",
    books.CREW_MEMBER: "crew_id",
    books.CREW_COMPANY: "crew_id",
    books.INSTRUMENT: "id",
    books.CALIBRATION: "instrument_id",
    worked.LOT: "id",
    worked.LEAK: "id",
    worked.CALL: "id",
    worked.WATCH: "leak_id",
    worked.SOURCE: "leak_id",
    worked.ATTEMPT: "leak_id",
    worked.BAR_HOLE: "leak_id",
    worked.WORK: "leak_id",
    worked.GAP: "subject_id",
    due.DUE_ITEM: "subject_id",
    due.DUE_MISSING: "subject_id",
    worked.DIG: "id",
    worked.DIG_SERVES: "dig_id",
    worked.PLACE: "id",
    worked.OUTSIDE_NUMBER: "subject_id",
    worked.MOVED: "subject_id",
    worked.STANDS_FOR: "kept_id",
    worked.STREET_STANDS_FOR: "area_id",
}
"""The column of each worked table that names the subject whose fold made the row."""


def worked_rows(kind: str, entries: Sequence[Standing], *, rests: Rests) -> Picture:
    """The worked rows of a subject of that kind. `entries`: its whole story as it stands."""
    fold = _FOLDS.get(kind)
    picture = fold(entries, rests) if fold and entries else {}
    subject = next((own_subject(entry.said) for entry in entries if entry.kind not in RIGHTING), None)
    if subject is not None:
        tied_rows(picture, entries, subject=subject)
        moved_rows(picture, entries, subject=subject)
    return picture


def _lot_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    picture: Picture = {}
    if as_is := lot(entries):
        _add(
            picture,
            worked.LOT,
            id=as_is.id,
            area_id=read_id(as_is.area),
            item=as_is.item,
            lot_number=as_is.lot_number,
            expires_on=_day(as_is.expires_on),
            void=as_is.void,
            status=as_is.status,
            lies_at=as_is.lies_at or None,
            shelf_id=as_is.shelf,
            quarantined=orjson.dumps(as_is.quarantined).decode() if as_is.quarantined else None,
            scrapped_on=_day(as_is.scrapped_on),
            received_on=_day(as_is.received_on),
        )
    return picture


def _dig_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    picture: Picture = {}
    if as_is := dig(entries):
        dig_rows(picture, as_is)
        restoration_rows(picture, as_is)
        _gaps(picture, as_is.gaps, subject=as_is.opened.id, area=as_is.area, on=_days(entries))
    return picture


def _place_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    picture: Picture = {}
    place_rows(picture, entries)
    return picture


def _leak_rows(entries: Sequence[Standing], rests: Rests) -> Picture:
    picture: Picture = {}
    if as_is := leak(entries, rests=rests):
        _leak(picture, as_is)
        _sources_and_attempts(picture, as_is)
        _bar_holes(picture, as_is)
        _work(picture, as_is)
        _watch(picture, as_is)
        due_rows(picture, as_is)
        _gaps(picture, as_is.gaps, subject=as_is.opened.id, area=as_is.area, on=_days(entries))
    return picture


def _leak(picture: Picture, of: Leak) -> None:
    opened, ending = of.opened, of.ending
    _add(
        picture,
        worked.LEAK,
        id=opened.id,
        number=opened.understood["number"],
        area_id=of.area,
        status=of.status,
        reported_on=_day(opened.on),
        reported_at=_at(opened),
        grade_found=of.grade_found.code if of.grade_found else None,
        rank_found=of.grade_found.rank if of.grade_found else None,
        grade_now=of.grade_now.code if of.grade_now else None,
        rank_now=of.grade_now.rank if of.grade_now else None,
        house_number=opened.said.get("house_number"),
        street_id=street_of(opened),
        cross_street=opened.said.get("cross_street"),
        postal_code=opened.said.get("postal_code"),
        sources=len(of.sources),
        attempts=len(of.attempts),
        ended_on=_day(ending.on) if ending else None,
        ended_how=ending.entry.text("how") if ending else None,
        ended_by_id=ending.entry.id if ending else None,
        joined_to_id=of.joined_to,
        reopened_on=_day(of.reopened_on),
        scheduled_since=_day(of.scheduled.since) if of.scheduled else None,
        scheduled_for=_day(of.scheduled.for_on) if of.scheduled else None,
        waits_on=of.waits.text("waits_on") if of.waits else None,
        waits_since=_day(of.waits.on) if of.waits else None,
        waits_until=_day(of.waits.text("until_on")) if of.waits else None,
    )


def _sources_and_attempts(picture: Picture, of: Leak) -> None:
    for source in of.sources:
        _add(
            picture,
            worked.SOURCE,
            id=source.id,
            leak_id=of.opened.id,
            number=source.number,
            tight_on=_day(source.tight_on),
            **{name: source.known.text(name) or None for name in ("part", "component", "material", "size")},
            place_id=_id(source.known.text("place")),
        )
    for attempt in of.attempts:
        _add(
            picture,
            worked.ATTEMPT,
            id=attempt.id,
            leak_id=of.opened.id,
            source_id=attempt.source,
            number=attempt.number,
            lasting=attempt.lasting,
            attempted_on=_day(attempt.on),
            outcome=attempt.outcome,
            decided_by_id=attempt.decided_by,
            review=attempt.review,
        )


def _bar_holes(picture: Picture, of: Leak) -> None:
    for hole in of.bar_holes:
        _add(
            picture,
            worked.BAR_HOLE,
            entry_id=hole.entry,
            key=hole.key,
            leak_id=of.opened.id,
            number=hole.number,
            label=hole.label or None,
        )


def _work(picture: Picture, of: Leak) -> None:
    for given in of.in_hand:
        _add(
            picture,
            worked.WORK,
            id=given.id,
            leak_id=of.opened.id,
            work=given.text("work"),
            crew_id=as_id(given.text("crew")),
            person_id=as_id(given.text("person")),
            named=given.text("named") or None,
            given_on=_day(given.on),
            by_on=_day(given.text("by_on")),
        )


def _watch(picture: Picture, of: Leak) -> None:
    handed = of.watch if of.status == "open" else None
    if handed is not None:
        _add(
            picture,
            worked.WATCH,
            leak_id=of.opened.id,
            entry_id=handed.id,
            area_id=of.area,
            person_id=_id(handed.text("to_person")),
            named=handed.said.get("to_named"),
            since_on=_day(handed.on),
            since_at=_at(handed),
            next_reading_on=_day(handed.understood.get("next_reading_by_on", "")),
            next_reading_at=_moment(handed.understood.get("next_reading_by_at")),
        )


def _call_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    picture: Picture = {}
    if as_is := call(entries):
        _call(picture, as_is)
        _gaps(picture, as_is.gaps, subject=as_is.received.id, area=as_is.area, on=_days(entries))
    return picture


def _call(picture: Picture, of: Call) -> None:
    received, outcome = of.received, of.outcome
    _add(
        picture,
        worked.CALL,
        id=received.id,
        number=received.understood["number"],
        area_id=of.area,
        status=of.status,
        report=received.text("report"),
        received_on=_day(received.on),
        received_at=_at(received),
        sent_at=_at(of.sent),
        on_way_at=_at(of.on_way),
        on_site_at=_at(of.on_site),
        ended_on=_day(outcome.on) if outcome else None,
        ended_at=_at(outcome),
        outcome=outcome.text("outcome") if outcome else None,
        leak_id=_id(outcome.text("found_leak")) if outcome else None,
        same_as_id=_id(outcome.text("same_as")) if outcome else None,
        crew_id=_id(of.who.crew),
        person_id=_id(of.who.person),
        named=of.who.named or None,
        reviewed=of.reviewed,
        house_number=received.said.get("house_number"),
        street_id=street_of(received),
        cross_street=received.said.get("cross_street"),
        postal_code=received.said.get("postal_code"),
    )


def _days(entries: Sequence[Standing]) -> dict[UUID, str]:
    return {entry.id: entry.on for entry in entries}


def _gaps(picture: Picture, gaps: Iterable[Gap], *, subject: UUID, area: UUID, on: Mapping[UUID, str]) -> None:
    """`area`: the one to which the subject answers; `on`: the legal day of each entry of its story."""
    for gap in gaps:
        _add(
            picture,
            worked.GAP,
            subject_id=subject,
            code=gap.code,
            entry_id=gap.entry,
            row_key=gap.row,
            facts=orjson.dumps(dict(gap.facts), option=orjson.OPT_SORT_KEYS).decode(),
            area_id=area,
            happened_on=_day(on[gap.entry]),
            set_aside_by_id=gap.set_aside,
        )


def _add(picture: Picture, table: Table, **row: Any) -> None:
    add(picture, table, engine=ENGINE_VERSION, **row)


def _at(entry: Standing | None) -> datetime | None:
    return _moment(entry.understood.get("happened_at")) if entry else None


def _moment(text: str | None) -> datetime | None:
    return read_moment(text) if text else None


def _id(text: str) -> UUID | None:
    return read_id(text) if text else None


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


_FOLDS: dict[str, Callable[[Sequence[Standing], Rests], Picture]] = {
    "area": area_rows,
    "company": company_rows,
    "person": person_rows,
    "crew": crew_rows,
    "instrument": instrument_rows,
    "lot": _lot_rows,
    "dig": _dig_rows,
    "place": _place_rows,
    "call": _call_rows,
    "leak": _leak_rows,
}
