"""Who asks for a page, when, and of which book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import Blueprint, abort, current_app, g, request, session
from flask.typing import ResponseReturnValue
from werkzeug.wrappers import Response

from repairlog.access import Actor, Scope, inspects, may_post, scope_of, standing_of
from repairlog.clock import now
from repairlog.entries.entry import Moments
from repairlog.records.beside.credentials import signed_in
from repairlog.records.beside.looked_at import list_look
from repairlog.records.beside.unfinished import how_many
from repairlog.records.store import Away, Busy, Store
from repairlog.web.frame.ask_in import demand_sign_in
from repairlog.words import standing

HELD = "held"
"""Where the browser's cookie holds what `begin_session` gave."""


IDLE = "REPAIRLOG_IDLE"
"""Where the application's configuration says how long a sign-in may lie unused, a timedelta."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asker:
    """`actor`: as the door knows it. `name`: under which the person signed in. `at`: this moment; `on`: its day
    (`YYYY-MM-DD`) in the operator's zone. `scope`: what the person may see today."""

    actor: Actor
    name: str
    at: datetime
    on: str
    scope: Scope

    @property
    def told(self) -> tuple[str, str] | None:
        """What is told on every page to somebody who sees nothing, or may do less than they expect, and what to do."""
        found = standing_of(self.actor, on=self.on)
        return standing.sentence(found.code, found.on) if found else None

    @property
    def moments(self) -> Moments:
        """When what is posted came in: a form without script knows no clock of its own."""
        return Moments(received=self.at)

    @property
    def roles(self) -> frozenset[str]:
        """The roles that the person holds today, in whatever area."""
        return frozenset(m.role for m in self.actor.memberships if m.covers(area=m.area, on=self.on))

    def holds(self, *roles: str) -> bool:
        """Whether the person holds one of these roles today, in whatever area."""
        return not self.roles.isdisjoint(roles)

    def may(self, *kinds: str, area: UUID | None, subject: str = "") -> bool:
        """Whether the person may post every one of these kinds in that area today. `subject`: the kind of what they
        are about, which a move is judged by."""
        return all(may_post(self.actor, kind, area=area, on=self.on, subject=subject) for kind in kinds)

    def may_on_the_spot(self, kind: str) -> bool:
        """Whether the person may post that kind of who comes to help and is put on the books with it."""
        return may_post(self.actor, kind, area=None, on=self.on, here=True)


def store() -> Store:
    """The book that these pages are about."""
    found: Store = current_app.extensions["repairlog.store"]
    return found


def asker() -> Asker:
    """Who asks for this page; a page of a room is drawn for nobody else."""
    found: Asker = g.asker
    return found


def demand_role(*roles: str) -> None:
    """403 for who holds none of these roles today."""
    if not asker().holds(*roles):
        abort(403)


def asker_or_none() -> Asker | None:
    """Who asks, where somebody is signed in."""
    if "asker" not in g:
        g.asker = _read_asker()
    found: Asker | None = g.asker
    return found


def room(name: str, import_name: str) -> Blueprint:
    """Routes of one noun, for those who are signed in; others are asked to sign in and come back to where they were.
    What an inspector is shown is listed."""
    routes = Blueprint(name, import_name, template_folder="templates")
    routes.before_request(_demand_signed_in)
    routes.after_request(_list_look)
    return routes


def _demand_signed_in() -> ResponseReturnValue | None:
    return demand_sign_in() if asker_or_none() is None else None


def _list_look(answer: Response) -> Response:
    """List what an inspector is shown, before it is: where it cannot be listed, it is not shown."""
    if request.method != "GET" or answer.status_code != 200:
        return answer  # the book is not asked who it is: that may be what failed
    who = asker_or_none()
    if who is None or not inspects(who.actor, on=who.on):
        return answer
    about = (request.view_args or {}).get("leak") or (request.view_args or {}).get("call")
    address = request.full_path.rstrip("?")
    try:
        list_look(
            store(), person=who.actor.person, at=who.at, page=request.endpoint or "", address=address, subject=about
        )
    except (Away, Busy) as not_now:
        return current_app.make_response(current_app.handle_user_exception(not_now))
    return answer


def count_unfinished() -> None:
    """Have the shell say how much the asker left unfinished by now, where that has changed with this page."""
    with store().reading() as tx:
        g.unfinished = how_many(tx, asker().actor.person)


def _read_asker() -> Asker | None:
    if not (held := session.get(HELD)):
        return None
    at = now()
    if (found := signed_in(store(), held, at=at, idle=current_app.config[IDLE])) is None:
        return None
    g.unfinished = found.unfinished
    on = at.astimezone(ZoneInfo(found.zone)).date().isoformat()
    return Asker(actor=found.actor, name=found.name, at=at, on=on, scope=scope_of(found.actor, on=on))
