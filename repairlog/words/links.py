"""How a page says that something else is linked to what it tells of."""

from __future__ import annotations

from repairlog.records.queries.links import LinkFrom
from repairlog.records.queries.named import Named
from repairlog.words import _, codes
from repairlog.words.days import day


def called(of: Named) -> str:
    """`ES-26-0417`, `Call ES-C26-0009`, `Dig of 6 Oct 2026, ticket T-26-10418`, or the name of a place."""
    if of.kind == "dig":
        return dig(of.on, ticket=of.called)
    return _("Call {number}").format(number=of.called) if of.kind == "call" else of.called


def dig(on: str, *, ticket: str) -> str:
    """`Dig of 6 Oct 2026, ticket T-26-10418`; a dig has no number of its own."""
    told = _("Dig of {day}").format(day=day(on))
    return _("{dig}, ticket {ticket}").format(dig=told, ticket=ticket) if ticket else told


def says(link: LinkFrom) -> str:
    """`ES-26-0418: waits on this one`."""
    how = codes.word(link.how)
    return _("{what}: {how} this one").format(what=called(link.named), how=how[:1].lower() + how[1:])


def beside(link: LinkFrom) -> str:
    """Why, by whom and when."""
    by = _("by {who}, {day}").format(who=link.by, day=day(link.on)) if link.by else day(link.on)
    return ", ".join(filter(None, (link.reason, by)))
