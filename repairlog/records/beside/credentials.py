"""From what a browser or a program shows to the actor that the door knows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.access import EVERYTHING, Actor
from repairlog.records.beside.sessions import SEEN_TO, mark_seen, session_held
from repairlog.records.beside.tokens import token_shown
from repairlog.records.beside.unfinished import how_many
from repairlog.records.queries.people import memberships
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import Store, Tx


@dataclass(frozen=True, slots=True, kw_only=True)
class SignedIn:
    """`name`: under which the person signed in. `zone`: the operator's. `unfinished`: how much the person left so."""

    actor: Actor
    name: str
    zone: str
    unfinished: int


def signed_in(store: Store, held: str, *, at: datetime, idle: timedelta) -> SignedIn | None:
    """Who is signed in; None where nobody is. `held`: what the browser holds. `at`: this moment; `idle`: how long a
    session may lie. All of it is read at once: every page asks for it."""
    with store.reading() as tx:
        if (session := session_held(tx, held, at=at, idle=idle)) is None:
            return None
        zone = _zone(tx)
        found = SignedIn(
            actor=_actor(tx, session.person, sure="password", since=session.began_at, zone=zone),
            name=session.name,
            zone=zone,
            unfinished=how_many(tx, session.person),
        )
    if at - session.seen_at > SEEN_TO:
        mark_seen(store, held, at=at, idle=idle)
    return found


def actor_of_token(store: Store, shown: str) -> Actor | None:
    """In whose name a program sends; None where its token is none of ours."""
    if (token := token_shown(store, shown)) is None:
        return None
    with store.reading() as tx:
        return _actor(tx, token.person, sure="token", since=token.made_at, zone=_zone(tx))


def _zone(tx: Tx) -> str:
    return operator_zone(EVERYTHING, tx) or "UTC"


def _actor(tx: Tx, person: UUID, *, sure: str, since: datetime, zone: str) -> Actor:
    held = memberships(EVERYTHING, tx, ids=[person]).get(person, ())
    signed_in_on = since.astimezone(ZoneInfo(zone)).date().isoformat()
    return Actor(person=person, sure=sure, memberships=held, signed_in_on=signed_in_on)
