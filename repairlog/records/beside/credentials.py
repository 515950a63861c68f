"""From what a browser or a program shows to the actor that the door knows."""

from __future__ import annotations

from datetime import datetime, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.access import EVERYTHING, Actor
from repairlog.records.beside.sessions import session_held
from repairlog.records.beside.tokens import token_shown
from repairlog.records.queries.people import memberships
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import Store


def actor_of_session(store: Store, held: str, *, at: datetime, idle: timedelta) -> tuple[Actor, str] | None:
    """Who is signed in, and under which name; None where nobody is. `at`: this moment; `idle`: how long it may lie."""
    if (session := session_held(store, held, at=at, idle=idle)) is None:
        return None
    return _actor(store, session.person, sure="password", since=session.began_at), session.name


def actor_of_token(store: Store, shown: str) -> Actor | None:
    """In whose name a program sends; None where its token is none of ours."""
    token = token_shown(store, shown)
    return _actor(store, token.person, sure="token", since=token.made_at) if token else None


def _actor(store: Store, person: UUID, *, sure: str, since: datetime) -> Actor:
    with store.reading() as tx:
        held = memberships(EVERYTHING, tx, ids=[person]).get(person, ())
        zone = operator_zone(EVERYTHING, tx) or "UTC"
    signed_in_on = since.astimezone(ZoneInfo(zone)).date().isoformat()
    return Actor(person=person, sure=sure, memberships=held, signed_in_on=signed_in_on)
