"""Companies as a list of them asks, and what there is of one: its people, its crews, roles that are bound to it, and
instruments that its people put on the books.

Whatever is written on people, crews and roles is a company's where it is one of its names, capitals and spaces apart.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date
from uuid import UUID

from sqlalchemy import ColumnElement, Date, and_, exists, literal, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import COMPANY, COMPANY_NAME, COMPANY_TERM
from repairlog.records.tables.known_as import bears_number
from repairlog.records.tables.of_company import in_term, sees_company, written
from repairlog.trade.company import Term, plain_name, plain_names


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedCompanies:
    """Which companies are asked for: empty asks for nothing. `on`: the day that is looked at. `text`: a part of a name,
    or an outside number, the whole of it. `works`: `now` or `not`, on that day."""

    on: date
    text: str = ""
    what: str = ""
    works: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedCompany:
    """A company on the books. `terms`: in the order of days. `people`, `crews`: how many that the scope shows are
    written as its own."""

    id: UUID
    name: str
    what: str
    also_named: tuple[str, ...]
    terms: tuple[Term, ...]
    people: int
    crews: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenName:
    """A name of a company as it is written, and on how many people, crews and roles."""

    name: str
    people: int = 0
    crews: int = 0
    roles: int = 0


def companies_listed(
    scope: Scope, tx: Tx, *, asked: WantedCompanies, after: tuple[str, UUID] | None, most: int
) -> list[ListedCompany]:
    """The companies that are asked for, by name; at most `most`, after that name and id."""
    if scope.sees_nothing:
        return []
    rows = select(COMPANY).where(~COMPANY.c.void, sees_company(scope), *_conditions(asked))
    if after is not None:
        name, id = after
        rows = rows.where(or_(COMPANY.c.name > name, and_(COMPANY.c.name == name, COMPANY.c.id > id)))
    found = tx.connection.execute(rows.order_by(COMPANY.c.name, COMPANY.c.id).limit(most)).all()
    ids = [row.id for row in found]
    names, terms, counts = _names(tx, ids), _terms(tx, ids), _counts(scope, tx)
    return [
        ListedCompany(
            id=row.id,
            name=row.name,
            what=row.what,
            also_named=tuple(each for each in names[row.id] if each != row.name),
            terms=tuple(terms[row.id]),
            people=sum(counts["people"].get(plain_name(name), 0) for name in names[row.id]),
            crews=sum(counts["crews"].get(plain_name(name), 0) for name in names[row.id]),
        )
        for row in found
    ]


def company_seen(scope: Scope, tx: Tx, *, company: UUID) -> str | None:
    """What that company is called, put on the books in error or not; None where the scope does not show it."""
    if scope.sees_nothing:
        return None
    rows = select(COMPANY.c.name).where(COMPANY.c.id == company, sees_company(scope))
    found: str | None = tx.connection.execute(rows).scalar()
    return found


def company_names(scope: Scope, tx: Tx) -> list[str]:
    """The names of the companies on the books, to choose from."""
    if scope.sees_nothing:
        return []
    rows = select(COMPANY.c.name).where(~COMPANY.c.void, sees_company(scope)).order_by(COMPANY.c.name).distinct()
    return list(tx.connection.execute(rows).scalars())


def companies_called(scope: Scope, tx: Tx, *, names: Collection[str]) -> Mapping[str, UUID]:
    """By each of these names that one of them bears, the company on the books; of two the first that came."""
    if scope.sees_nothing:
        return {}
    rows = (
        select(COMPANY_NAME.c.plain, COMPANY_NAME.c.company_id)
        .join(COMPANY, COMPANY.c.id == COMPANY_NAME.c.company_id)
        .where(COMPANY_NAME.c.plain.in_(sorted(plain_names(names))), ~COMPANY.c.void, sees_company(scope))
        .order_by(COMPANY_NAME.c.company_id.desc())
    )
    by_plain = {row.plain: row.company_id for row in tx.connection.execute(rows)}
    return {name: by_plain[plain_name(name)] for name in names if plain_name(name) in by_plain}


def companies_not_on_the_books(scope: Scope, tx: Tx) -> list[WrittenName]:
    """The names that are written on people, crews and roles and are none of a company on the books, by name; those that
    differ by capitals and spaces alone are one."""
    if scope.sees_nothing:
        return []
    known = set(
        tx.connection.execute(
            select(COMPANY_NAME.c.plain).join(COMPANY, COMPANY.c.id == COMPANY_NAME.c.company_id).where(~COMPANY.c.void)
        ).scalars()
    )
    found: dict[str, WrittenName] = {}
    for name, on, many in sorted(written(scope, tx)):
        if plain_name(name) not in known:
            one = found.setdefault(plain_name(name), WrittenName(name=name))
            found[plain_name(name)] = replace(one, **{on: getattr(one, on) + many})
    return [found[plain] for plain in sorted(found)]


def _conditions(asked: WantedCompanies) -> list[ColumnElement[bool]]:
    found: list[ColumnElement[bool]] = [COMPANY.c.what == asked.what] if asked.what else []
    if asked.text:
        named = COMPANY_NAME.c.name.icontains(asked.text, autoescape=True)
        of = exists().where(COMPANY_NAME.c.company_id == COMPANY.c.id, named)
        found.append(or_(of, bears_number(COMPANY.c.id, asked.text)))
    if asked.works:
        works = exists().where(COMPANY_TERM.c.company_id == COMPANY.c.id, in_term(literal(asked.on, Date)))
        found.append(works if asked.works == "now" else ~works)
    return found


def _names(tx: Tx, ids: Collection[UUID]) -> Mapping[UUID, list[str]]:
    found: defaultdict[UUID, list[str]] = defaultdict(list)
    rows = select(COMPANY_NAME).where(COMPANY_NAME.c.company_id.in_(ids)).order_by(COMPANY_NAME.c.plain)
    for row in tx.connection.execute(rows):
        found[row.company_id].append(row.name)
    return found


def _terms(tx: Tx, ids: Collection[UUID]) -> Mapping[UUID, list[Term]]:
    found: defaultdict[UUID, list[Term]] = defaultdict(list)
    rows = select(COMPANY_TERM).where(COMPANY_TERM.c.company_id.in_(ids))
    for row in tx.connection.execute(rows.order_by(COMPANY_TERM.c.from_on.nulls_first(), COMPANY_TERM.c.entry_id)):
        first, last = (each.isoformat() if each else "" for each in (row.from_on, row.until_on))
        found[row.company_id].append(Term(entry=row.entry_id, from_on=first, until_on=last))
    return found


def _counts(scope: Scope, tx: Tx) -> Mapping[str, Mapping[str, int]]:
    found: dict[str, defaultdict[str, int]] = {on: defaultdict(int) for on in ("people", "crews", "roles")}
    for name, on, many in written(scope, tx):
        found[on][plain_name(name)] += many
    return found
