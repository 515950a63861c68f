"""Who sent a call and when, kept beside what waits: it is tried again in their name, as of that moment."""

from __future__ import annotations

from typing import Any

from repairlog.access import Actor, Membership
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.entries.moments import moment_text, read_moment


def kept_sender(actor: Actor, moments: Moments) -> dict[str, Any]:
    """Both as plain values; `sender_read` gives them back."""
    return {
        "person": str(actor.person),
        "sure": actor.sure,
        "signed_in_on": actor.signed_in_on,
        "memberships": [_kept(membership) for membership in actor.memberships],
        "received": moment_text(moments.received),
        "sent": moment_text(moments.sent) if moments.sent else "",
        "offset_ms": moments.offset_ms,
    }


def sender_read(kept: Any) -> tuple[Actor, Moments]:
    """Who sent it and when, from what `kept_sender` gave."""
    memberships = tuple(_membership_read(*each) for each in kept["memberships"])
    actor = Actor(
        person=read_id(kept["person"]),
        sure=kept["sure"],
        memberships=memberships,
        signed_in_on=kept["signed_in_on"],
    )
    sent = read_moment(kept["sent"]) if kept["sent"] else None
    return actor, Moments(received=read_moment(kept["received"]), sent=sent, offset_ms=kept["offset_ms"])


def _kept(membership: Membership) -> list[str]:
    area = str(membership.area) if membership.area else ""
    return [membership.role, area, membership.from_on, membership.until_on, membership.company]


def _membership_read(role: str, area: str, from_on: str, until_on: str, company: str = "") -> Membership:
    """One that was kept before companies were has none. An inspector's period is no matter: an inspector posts
    nothing."""
    return Membership(
        role=role, area=read_id(area) if area else None, from_on=from_on, until_on=until_on, company=company
    )
