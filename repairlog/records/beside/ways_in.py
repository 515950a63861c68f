"""The ways by which a person, or a program in their name, is in just now: each can be ended, or all of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import delete, func, literal, select, tuple_, update

from repairlog.records.beside.sessions import digest_held
from repairlog.records.columns import Id
from repairlog.records.store import Store, Tx
from repairlog.records.tables.beside import SESSION, SIGN_IN, TOKEN

MARK = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A browser in which a person is signed in. `mark`: by which it is ended, and which tells nothing of what the
    browser holds; `device`: what that said it is, as `web.frame.device` reads it; empty where it said nothing."""

    mark: str
    device: str
    began_at: datetime
    seen_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """A token by which a program sends in a person's name. `what`: what it is for; `mark`: by which it is ended."""

    mark: str
    what: str
    made_at: datetime


def windows_of(tx: Tx, person: UUID, *, since: datetime) -> list[Window]:
    """The browsers in which that person is signed in, the last used first. `since`: those that were used before that
    moment lay idle for too long and let nobody in."""
    mine = select(SESSION).where(SESSION.c.person_id == person, SESSION.c.seen_at >= since)
    rows = tx.connection.execute(mine.order_by(SESSION.c.seen_at.desc(), SESSION.c.digest))
    return [
        Window(
            mark=bytes(row.digest).hex()[:MARK],
            device=row.device or "",
            began_at=row.began_at,
            seen_at=row.seen_at,
        )
        for row in rows
    ]


def programs_of(tx: Tx, person: UUID) -> list[Program]:
    """The tokens by which programs send in that person's name, the newest first; those that were closed are none."""
    mine = select(TOKEN).where(TOKEN.c.person_id == person, TOKEN.c.closed_at.is_(None))
    rows = tx.connection.execute(mine.order_by(TOKEN.c.made_at.desc(), TOKEN.c.digest))
    return [Program(mark=bytes(row.digest).hex()[:MARK], what=row.what, made_at=row.made_at) for row in rows]


@dataclass(frozen=True, slots=True, kw_only=True)
class WayIn:
    """How a person comes in: the `name` of their sign-in, in how many browsers they are in now, when one was last used
    (None: in none), and by how many tokens programs send."""

    person: UUID
    name: str
    made_at: datetime
    browsers: int
    seen_at: datetime | None
    programs: int


def every_way_in(tx: Tx, *, since: datetime, after: tuple[str, UUID] | None, most: int) -> list[WayIn]:
    """The sign-ins that are not closed, by name, with who is in by each; at most `most`, after that name and person.
    `since`: browsers that were used before that moment let nobody in."""
    is_in = (SESSION.c.person_id == SIGN_IN.c.person_id, SESSION.c.seen_at >= since)
    sends = (TOKEN.c.person_id == SIGN_IN.c.person_id, TOKEN.c.closed_at.is_(None))
    rows = select(
        SIGN_IN.c.person_id,
        SIGN_IN.c.name,
        SIGN_IN.c.made_at,
        select(func.count()).where(*is_in).scalar_subquery().label("browsers"),
        select(func.max(SESSION.c.seen_at)).where(*is_in).scalar_subquery().label("seen_at"),
        select(func.count()).where(*sends).scalar_subquery().label("programs"),
    ).where(SIGN_IN.c.closed_at.is_(None))
    if after is not None:
        edge = tuple_(literal(after[0]), literal(after[1], Id()))
        rows = rows.where(tuple_(SIGN_IN.c.name, SIGN_IN.c.person_id) > edge)
    found = tx.connection.execute(rows.order_by(SIGN_IN.c.name, SIGN_IN.c.person_id).limit(most))
    return [
        WayIn(
            person=row.person_id,
            name=row.name,
            made_at=row.made_at,
            browsers=row.browsers,
            seen_at=row.seen_at,
            programs=row.programs,
        )
        for row in found
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysIn:
    """How many sign-ins are not closed, in how many browsers anybody is in, by how many tokens programs send."""

    sign_ins: int
    browsers: int
    programs: int


def how_many_in(tx: Tx, *, since: datetime) -> WaysIn:
    """All of them together. `since`: browsers that were used before that moment let nobody in."""
    row = tx.connection.execute(
        select(
            select(func.count()).where(SIGN_IN.c.closed_at.is_(None)).scalar_subquery().label("sign_ins"),
            select(func.count()).where(SESSION.c.seen_at >= since).scalar_subquery().label("browsers"),
            select(func.count()).where(TOKEN.c.closed_at.is_(None)).scalar_subquery().label("programs"),
        )
    ).one()
    return WaysIn(sign_ins=row.sign_ins, browsers=row.browsers, programs=row.programs)


def mark_held(held: str) -> str:
    """The mark of the browser that holds this."""
    return digest_held(held).hex()[:MARK]


def end_window(store: Store, person: UUID, *, mark: str) -> bool:
    """Sign that person out in the browser of that mark; False where there is none."""
    with store.writing() as tx:
        mine = tx.connection.execute(select(SESSION.c.digest).where(SESSION.c.person_id == person)).scalars()
        meant = [digest for digest in mine if bytes(digest).hex()[:MARK] == mark]
        tx.connection.execute(delete(SESSION).where(SESSION.c.digest.in_(meant)))
    return bool(meant)


def end_windows(store: Store, person: UUID, *, but: str = "") -> None:
    """Sign that person out everywhere. `but`: what the one browser holds in which they stay."""
    others = [SESSION.c.digest != digest_held(but)] if but else []
    with store.writing() as tx:
        tx.connection.execute(delete(SESSION).where(SESSION.c.person_id == person, *others))


def end_program(store: Store, person: UUID, *, mark: str, at: datetime) -> bool:
    """No program sends by that token of that person any more; False where there is none."""
    open_ones = select(TOKEN.c.digest).where(TOKEN.c.person_id == person, TOKEN.c.closed_at.is_(None))
    with store.writing() as tx:
        meant = [each for each in tx.connection.execute(open_ones).scalars() if bytes(each).hex()[:MARK] == mark]
        tx.connection.execute(update(TOKEN).where(TOKEN.c.digest.in_(meant)).values(closed_at=at))
    return bool(meant)


def end_everything(store: Store, person: UUID, *, at: datetime) -> None:
    """A lost phone: signed out everywhere, and every token closed, in one commit. The sign-in itself stands."""
    with store.writing() as tx:
        tx.connection.execute(delete(SESSION).where(SESSION.c.person_id == person))
        mine = (TOKEN.c.person_id == person, TOKEN.c.closed_at.is_(None))
        tx.connection.execute(update(TOKEN).where(*mine).values(closed_at=at))
