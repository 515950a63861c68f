"""What is said of what moves to another area, and of what was moved away."""

from __future__ import annotations

from repairlog.words import _
from repairlog.words.days import day


def what(kind: str) -> str:
    """What a subject of that kind is called; KeyError for one that is never moved."""
    return {
        "leak": _("Leak"),
        "call": _("Call"),
        "dig": _("Dig"),
        "place": _("Place"),
        "shelf": _("Shelf or truck"),
        "lot": _("Lot"),
        "crew": _("Crew"),
        "instrument": _("Instrument"),
    }[kind]


def named(kind: str, called: str) -> str:
    """The thing by its kind and what it is called."""
    return _("{what} {called}").format(what=what(kind), called=called).strip()


def went(kind: str, called: str, *, to: str, on: str) -> str:
    """Where it went, and when."""
    told = _("{what} was moved to {area} on {day}.")
    return told.format(what=named(kind, called), area=to, day=day(on))


def since_then() -> str:
    """What follows for whoever looks for it where it was."""
    return _("It answers there since then: whoever has a role in that area sees it and goes on with it.")


def means(kind: str) -> list[str]:
    """What follows where something of that kind is moved."""
    told = [
        _(
            "From that day on it stands on the lists of the area to which it goes, and whoever has a role there goes "
            "on with it. What was entered before keeps its day, its hour and its number."
        )
    ]
    if kind == "leak":
        told.append(
            _(
                "What an open leak owes is worked out by the rulebook that the new area adopted, from the days on "
                "which things happened. Its digs and calls are not moved with it."
            )
        )
    return told


def way() -> str:
    """What leads to the page by which something is moved."""
    return _("Move to another area")
