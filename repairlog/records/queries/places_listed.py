"""Streets and places in one list, by name: what they are and where, with their leaks, calls and digs counted."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import (
    ColumnElement,
    Date,
    Select,
    Subquery,
    Text,
    and_,
    case,
    cast,
    distinct,
    exists,
    func,
    literal,
    null,
    or_,
    select,
    tuple_,
    union_all,
)

from repairlog.access import Scope
from repairlog.records.columns import Id
from repairlog.records.queries.streets import streets_named, streets_shown
from repairlog.records.store import Tx
from repairlog.records.tables.facts import OF_KIND, STREET
from repairlog.records.tables.made_one import kept_for, stood_for
from repairlog.records.tables.search_key import search_key, words_in
from repairlog.records.tables.seen import sees_call, sees_leak
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import CALL, DIG_SERVES, LEAK, OUTSIDE_NUMBER, PLACE, SOURCE, STANDS_FOR

A_STREET = "street"
"""What a street is, among what places may be: it is on no list of places, but named by leaks and calls."""

_OPENED, _RECEIVED = OF_KIND["leak_opened"], OF_KIND["call_received"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedPlaces:
    """Which are asked for; empty or None asks for nothing. `text`: words that stand in name and address, or a number
    that others know a place by. `what`: `street`, or what a place is. `area`: places of it, and streets with a leak or
    call there."""

    text: str = ""
    what: str = ""
    area: UUID | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedPlace:
    """A street or a place. `street`, `town`: as written; of a street as some leak or call of it says. `area`: None for
    a street. `key`: where it stands in the list. `leaks`, `calls`, `digs`: in scope; `open`: of the leaks, those that
    are; `last_on`: day of the last report, empty where there is none. What was made one is counted as one."""

    id: UUID
    what: str
    called: str
    house_number: str
    street: str
    town: str
    area: UUID | None
    retired_on: str
    key: str
    leaks: int
    open: int
    calls: int
    digs: int
    last_on: str


def places_listed(
    scope: Scope, tx: Tx, *, asked: WantedPlaces, after: tuple[str, UUID] | None, most: int
) -> list[ListedPlace]:
    """The streets and places in scope that are asked for, by name; at most `most`, after that key and id."""
    if scope.sees_nothing:
        return []
    shown = streets_shown(scope, tx)
    arms = []
    if asked.what in ("", A_STREET):
        arms.append(_streets(scope, tx, asked, shown))
    if asked.what != A_STREET:
        arms.append(_places(scope, asked))
    return _counted(scope, tx, _page(tx, arms, after=after, most=most), asked.area, shown)


def street_listed(scope: Scope, tx: Tx, *, id: UUID) -> ListedPlace | None:
    """That street, or the one that is shown for it; None where there is none in scope."""
    if scope.sees_nothing:
        return None
    shown = streets_shown(scope, tx)
    one = _street_rows().where(STREET.c.id == shown.get(id, id), _street_seen(scope, None))
    return next(iter(_counted(scope, tx, tx.connection.execute(one).all(), None, shown)), None)


def place_listed(scope: Scope, tx: Tx, *, id: UUID) -> ListedPlace | None:
    """That place, added in error or not, under its own name; None where there is none in scope."""
    one = _place_rows().where(PLACE.c.id == id, within(scope, PLACE.c.area_id))
    return next(iter(_counted(scope, tx, tx.connection.execute(one).all(), None, {})), None)


def streets_as_one(scope: Scope, tx: Tx, *, id: UUID) -> list[UUID]:
    """The streets that are shown as that one, itself first."""
    return (
        []
        if scope.sees_nothing
        else [id, *(other for other, kept in sorted(streets_shown(scope, tx).items()) if kept == id)]
    )


def places_as_one(scope: Scope, tx: Tx, *, id: UUID) -> list[UUID]:
    """The places that are the same as that one and stand behind it, itself first."""
    return [] if scope.sees_nothing else [id, *_behind(tx, [id])[id]]


def _street_rows() -> Select[Any]:
    empty = cast(null(), Text)
    return select(
        STREET.c.id.label("id"),
        literal(A_STREET).label("what"),
        empty.label("called"),
        empty.label("house_number"),
        STREET.c.name.label("street"),
        STREET.c.town.label("town"),
        cast(null(), Id()).label("area_id"),
        cast(null(), Date()).label("retired_on"),
        STREET.c.search_key.label("key"),
    )


def _place_rows() -> Select[Any]:
    names = ("id", "what", "called", "house_number", "street", "town", "area_id", "retired_on")
    return select(*(PLACE.c[name].label(name) for name in names), PLACE.c.search_key.label("key"))


def _streets(scope: Scope, tx: Tx, asked: WantedPlaces, shown: Mapping[UUID, UUID]) -> Select[Any]:
    rows = _street_rows().where(STREET.c.id.not_in(shown.keys()), _street_seen(scope, asked.area))
    if asked.text:
        rows = rows.where(STREET.c.id.in_(streets_named(scope, tx, part=asked.text)))
    return rows


def _street_seen(scope: Scope, area: UUID | None) -> ColumnElement[bool]:
    """Whether there is a leak or a call in it that is in the scope, of that area where one is asked for."""
    leak = [LEAK.c.street_id == STREET.c.id, sees_leak(scope, LEAK), *([LEAK.c.area_id == area] if area else [])]
    call = [CALL.c.street_id == STREET.c.id, sees_call(scope, CALL), *([CALL.c.area_id == area] if area else [])]
    return or_(exists().where(and_(*leak)), exists().where(and_(*call)))


def _places(scope: Scope, asked: WantedPlaces) -> Select[Any]:
    rows = _place_rows().where(~PLACE.c.void, PLACE.c.id.not_in(stood_for()), within(scope, PLACE.c.area_id))
    if asked.what:
        rows = rows.where(PLACE.c.what == asked.what)
    if asked.area:
        rows = rows.where(PLACE.c.area_id == asked.area)
    if asked.text:
        typed = search_key(asked.text)
        named = [PLACE.c.search_key.contains(word, autoescape=True) for word in words_in(asked.text)]
        numbered = select(OUTSIDE_NUMBER.c.subject_id).where(OUTSIDE_NUMBER.c.search_key == typed)
        rows = rows.where(or_(and_(*named), PLACE.c.id.in_(numbered)) if named else PLACE.c.id.in_(()))
    return rows


def _page(tx: Tx, arms: Sequence[Select[Any]], *, after: tuple[str, UUID] | None, most: int) -> Sequence[Any]:
    """The first `most` of both, each looked through no further than that."""
    ends = []
    for arm in arms:
        of = arm.subquery()
        key, rows = (of.c.key, of.c.id), select(of)
        if after is not None:
            rows = rows.where(tuple_(*key) > tuple_(literal(after[0]), literal(after[1], Id())))
        ends.append(select(rows.order_by(*key).limit(most).subquery()))
    both = (ends[0] if len(ends) == 1 else union_all(*ends)).subquery()
    return tx.connection.execute(select(both).order_by(both.c.key, both.c.id).limit(most)).all()


def _counted(
    scope: Scope, tx: Tx, rows: Sequence[Any], area: UUID | None, shown: Mapping[UUID, UUID]
) -> list[ListedPlace]:
    streets = [row.id for row in rows if row.what == A_STREET]
    places = [row.id for row in rows if row.what != A_STREET]
    behind: dict[UUID, list[UUID]] = {id: [] for id in streets} | _behind(tx, places)
    for other, kept in shown.items():
        if kept in behind:
            behind[kept].append(other)
    stands = {id: kept for kept, others in behind.items() for id in (kept, *others)}
    on = [LEAK.c.area_id == area] if area else []
    of_street, of_place = _by(LEAK.c.street_id, streets, stands), _by(SOURCE.c.place_id, places, stands)
    seen = sees_leak(scope, LEAK)
    there = [
        select(of_street.label("at"), LEAK.c.id).where(LEAK.c.street_id.in_(_all(streets, behind)), seen, *on),
        select(of_place.label("at"), LEAK.c.id)
        .join(SOURCE, SOURCE.c.leak_id == LEAK.c.id)
        .where(SOURCE.c.place_id.in_(_all(places, behind)), seen, *on),
    ]
    at = union_all(*there).subquery()
    leaks, digs, calls = _leaks(tx, at), _digs(tx, at), _calls_of(scope, tx, at)
    on_street, written = _calls_in(scope, tx, _all(streets, behind), _by(CALL.c.street_id, streets, stands), area)
    return [_row(row, leaks, digs, calls | on_street, written) for row in rows]


def _all(ids: Sequence[UUID], behind: Mapping[UUID, Sequence[UUID]]) -> list[UUID]:
    return [each for id in ids for each in (id, *behind[id])]


def _by(column: ColumnElement[Any], ids: Collection[UUID], stands: Mapping[UUID, UUID]) -> ColumnElement[Any]:
    """The one that is shown for what the column names."""
    others = {other: kept for other, kept in stands.items() if kept in ids and other != kept}
    if not others:
        return column
    return case(*((column == other, literal(kept, Id())) for other, kept in others.items()), else_=column)


def _behind(tx: Tx, ids: Collection[UUID]) -> dict[UUID, list[UUID]]:
    """By place, those that are not shown because of it, by however many steps."""
    found: dict[UUID, list[UUID]] = {id: [] for id in ids}
    if not ids:
        return found
    others = tx.connection.execute(select(STANDS_FOR.c.other_id).join(PLACE, PLACE.c.id == STANDS_FOR.c.other_id))
    for other, kept in sorted(kept_for(tx, set(others.scalars())).items()):
        if kept in found:
            found[kept].append(other)
    return found


_Leaks = Mapping[UUID, tuple[int, int, str, str, str]]


def _leaks(tx: Tx, at: Subquery) -> _Leaks:
    """By street or place, how many leaks, how many of them open, the day of the last report, and the street and town
    as one of them is written. A number that goes on under another is no leak beside that one."""
    rows = (
        select(
            at.c["at"],
            func.count(distinct(case((func.coalesce(LEAK.c.ended_how, "") != "joined", LEAK.c.id)))),
            func.count(distinct(case((LEAK.c.status == "open", LEAK.c.id)))),
            func.max(LEAK.c.reported_on),
            func.max(case((LEAK.c.street_id == at.c["at"], _OPENED.c.street))),  # not under its other name
            func.max(case((LEAK.c.street_id == at.c["at"], _OPENED.c.town))),
        )
        .join(LEAK, LEAK.c.id == at.c.id)
        .join(_OPENED, _OPENED.c.id == at.c.id)
        .group_by(at.c["at"])
    )
    return {
        of: (all_of, still, last.isoformat(), street or "", town or "")
        for of, all_of, still, last, street, town in tx.connection.execute(rows)
    }


def _digs(tx: Tx, at: Subquery) -> Mapping[UUID, int]:
    rows = (
        select(at.c["at"], func.count(distinct(DIG_SERVES.c.dig_id)))
        .join(DIG_SERVES, DIG_SERVES.c.leak_id == at.c.id)
        .group_by(at.c["at"])
    )
    return {of: number for of, number in tx.connection.execute(rows)}  # noqa: C416 - rows are no pairs


def _calls_of(scope: Scope, tx: Tx, at: Subquery) -> dict[UUID, int]:
    """Calls of the leaks: what a place has, since no call names one."""
    rows = (
        select(at.c["at"], func.count(distinct(CALL.c.id)))
        .join(CALL, CALL.c.leak_id == at.c.id)
        .where(sees_call(scope, CALL))
        .group_by(at.c["at"])
    )
    return {of: number for of, number in tx.connection.execute(rows)}  # noqa: C416


def _calls_in(
    scope: Scope, tx: Tx, streets: Sequence[UUID], by: ColumnElement[Any], area: UUID | None
) -> tuple[dict[UUID, int], dict[UUID, tuple[str, str]]]:
    """By street, the calls from there, whatever came of them; and street and town as one of them is written."""
    wanted = [CALL.c.street_id.in_(streets), sees_call(scope, CALL), *([CALL.c.area_id == area] if area else [])]
    there = (
        select(by.label("at"), CALL.c.street_id, _RECEIVED.c.street, _RECEIVED.c.town)
        .join(_RECEIVED, _RECEIVED.c.id == CALL.c.id)
        .where(*wanted)
        .subquery()
    )
    itself = there.c.street_id == there.c["at"]
    named = (func.max(case((itself, name))) for name in (there.c.street, there.c.town))
    rows = select(there.c["at"], func.count(), *named).group_by(there.c["at"])
    found, written = dict.fromkeys(streets, 0), {}
    for of, number, street, town in tx.connection.execute(rows):
        found[of], written[of] = number, (street or "", town or "")
    return found, written


def _row(
    row: Any,
    leaks: _Leaks,
    digs: Mapping[UUID, int],
    calls: Mapping[UUID, int],
    written: Mapping[UUID, tuple[str, str]],
) -> ListedPlace:
    all_of, still, last, street, town = leaks.get(row.id, (0, 0, "", "", ""))
    if row.what == A_STREET:
        from_calls = written.get(row.id, ("", ""))
        street, town = street or from_calls[0] or row.street, town or from_calls[1] or row.town
    else:
        street, town = row.street or "", row.town or ""
    return ListedPlace(
        id=row.id,
        what=row.what,
        called=row.called or "",
        house_number=row.house_number or "",
        street=street,
        town=town,
        area=row.area_id,
        retired_on=row.retired_on.isoformat() if row.retired_on else "",
        key=row.key,
        leaks=all_of,
        open=still,
        calls=calls.get(row.id, 0),
        digs=digs.get(row.id, 0),
        last_on=last,
    )
