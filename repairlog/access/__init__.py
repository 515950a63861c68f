"""Who may do what: one table of named predicates, and the scope of what a person sees. Pure."""

from __future__ import annotations

from repairlog.access.actor import EVERYTHING, NOTHING, Actor, Membership, Scope, scope_of
from repairlog.access.lets_in import may_let_in
from repairlog.access.posts import Ask, Refused, left_on, may_post, may_put_right, require

__all__ = [
    "EVERYTHING",
    "NOTHING",
    "Actor",
    "Ask",
    "Membership",
    "Refused",
    "Scope",
    "left_on",
    "may_let_in",
    "may_post",
    "may_put_right",
    "require",
    "scope_of",
]
