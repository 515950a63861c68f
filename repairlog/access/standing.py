"""What is to be told to somebody whose roles let them see nothing, or less than they expect."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.access.actor import INSPECTOR, Actor, has_its_days, scope_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """`code`: no_role, not_begun, ended or no_period, of who sees nothing; sign_in_again, of who came in before a role
    of theirs began. `on`: the first or last day that it is about; empty where there is none."""

    code: str
    on: str = ""


def standing_of(actor: Actor, *, on: str) -> Standing | None:
    """What is to be told to the actor on that day; None where nothing is."""
    if not scope_of(actor, on=on).sees_nothing:
        return _dates_from_before(actor, on=on)
    held = [m for m in actor.memberships if m.covers(area=m.area, on=on)]
    if any(m.role == INSPECTOR and not has_its_days(m) for m in held):
        return Standing(code="no_period")
    if to_come := [m.from_on for m in actor.memberships if on < m.from_on]:
        return Standing(code="not_begun", on=min(to_come))
    if over := [m.until_on for m in actor.memberships if m.until_on and m.until_on < on]:
        return Standing(code="ended", on=max(over))
    return Standing(code="no_role")


def _dates_from_before(actor: Actor, *, on: str) -> Standing | None:
    """A sign-in dates from the membership that it is used for: one from before the role posts nothing by it."""
    held = [m for m in actor.memberships if m.covers(area=m.area, on=on) and m.role != INSPECTOR]
    since = actor.signed_in_on
    if not since or not held or any(m.covers(area=m.area, on=since) for m in held):
        return None
    return Standing(code="sign_in_again", on=min(m.from_on for m in held))
