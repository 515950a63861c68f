"""Who may give a person a sign-in. It is no entry, and never sealed."""

from __future__ import annotations

from repairlog.access.actor import Actor

ADMINISTRATOR = "administrator"


def may_let_in(actor: Actor, *, on: str) -> bool:
    """Whether the actor may give somebody a sign-in on that day (`YYYY-MM-DD`): an administrator of every area, for
    whoever comes in may have roles in any."""
    held = (each for each in actor.memberships if each.role == ADMINISTRATOR and not each.company)
    return any(each.area is None and each.covers(area=None, on=on) for each in held)
