"""Who may do what: one table of named predicates, and the scope of what a person sees. Pure."""

from __future__ import annotations

from repairlog.access.actor import EVERYTHING, NOTHING, Actor, Membership, Part, Scope, inspects, scope_of
from repairlog.access.posts import Ask, Refused, left_on, may_post, may_put_right, require
from repairlog.access.standing import Standing, standing_of

__all__ = [
    "EVERYTHING",
    "NOTHING",
    "Actor",
    "Ask",
    "Membership",
    "Part",
    "Refused",
    "Scope",
    "Standing",
    "inspects",
    "left_on",
    "may_let_in",
    "may_post",
    "may_put_right",
    "require",
    "scope_of",
    "standing_of",
]
