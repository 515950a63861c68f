"""The worked rows of companies, people and crews."""

from __future__ import annotations

from collections.abc import Sequence

from repairlog.entries.entry import Standing
from repairlog.records.effects.rows import as_day, put_row
from repairlog.records.tables import books
from repairlog.records.tables.picture import Picture
from repairlog.trade.company import company, plain_name
from repairlog.trade.crew import crew
from repairlog.trade.person import Person, person
from repairlog.trade.rests import Rests


def company_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    """The rows of a company, of its names and of its terms. `entries`: its story."""
    picture: Picture = {}
    if (as_is := company(entries)) is None:
        return picture
    put_row(picture, books.COMPANY, id=as_is.id, name=as_is.name, what=as_is.what, void=as_is.void)
    for name in as_is.names:
        put_row(picture, books.COMPANY_NAME, company_id=as_is.id, plain=plain_name(name), name=name)
    for term in as_is.terms:
        days = {"from_on": as_day(term.from_on), "until_on": as_day(term.until_on)}
        put_row(picture, books.COMPANY_TERM, entry_id=term.entry, company_id=as_is.id, **days)
    return picture


def person_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    """The rows of a person, of their roles and of their qualifications. `entries`: the person's story."""
    picture: Picture = {}
    if (as_is := person(entries)) is None:
        return picture
    put_row(
        picture,
        books.PERSON,
        id=as_is.id,
        name=as_is.name,
        company=as_is.company,
        staff_number=as_is.staff_number,
        left_on=as_day(as_is.left_on),
        void=as_is.void,
    )
    _roles(picture, as_is)
    for each in as_is.qualifications:
        put_row(
            picture,
            books.QUALIFICATION,
            entry_id=each.entry,
            person_id=as_is.id,
            task=each.task,
            from_on=as_day(each.from_on),
            until_on=as_day(each.until_on),
            ended_on=as_day(each.ended_on),
            ended_how=each.ended_how or None,
        )
    return picture


def _roles(picture: Picture, of: Person) -> None:
    for role in of.roles:
        put_row(
            picture,
            books.ROLE,
            entry_id=role.entry,
            key=role.key,
            person_id=of.id,
            role=role.role,
            area_id=role.area,
            from_on=as_day(role.from_on),
            until_on=as_day(role.until_on),
            company=role.company,
            period_from_on=as_day(role.period_from_on),
            period_until_on=as_day(role.period_until_on),
        )


def crew_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    """The rows of a crew, of who is in it and of whose it is. `entries`: its story."""
    picture: Picture = {}
    if (as_is := crew(entries)) is None:
        return picture
    put_row(picture, books.CREW, id=as_is.id, area_id=as_is.area, name=as_is.name, void=as_is.void)
    for each in as_is.members:
        days = {"from_on": as_day(each.from_on), "until_on": as_day(each.until_on)}
        put_row(picture, books.CREW_MEMBER, crew_id=as_is.id, person_id=each.person, **days)
    for whose in as_is.companies:
        days = {"from_on": as_day(whose.from_on), "until_on": as_day(whose.until_on)}
        put_row(picture, books.CREW_COMPANY, crew_id=as_is.id, company=whose.company, **days)
    return picture
