"""What is said where a leak is ended: what each way means, and what would keep the leak open."""

from __future__ import annotations

from repairlog.words import _


def meaning(how: str) -> str:
    """What ending a leak in that way says, in a phrase; KeyError for a way that is none of ours."""
    return {
        "repaired": _("a permanent repair on each source, tested tight"),
        "replaced": _("the pipe that leaked was replaced by new pipe"),
        "retired": _("the pipe that leaked was cut, sealed and left without gas"),
        "adjusted": _("tightened, greased or lubricated, and nothing leaks now"),
        "no_reading": _("nothing is read any more at any of the places"),
        "customers": _("it leaks behind the meter, on the customer's side"),
        "other_gas": _("what was read is no gas of ours: sewer, swamp or fuel"),
        "joined": _("the same hazard has another number, and goes on under that"),
        "opened_in_error": _("there never was such a leak"),
        "handed_over": _("the pipe is another operator's, who was told"),
    }[how]


def lack(code: str) -> str:
    """What keeps a leak open that is ended by repair, in a sentence; KeyError for another code."""
    return {
        "no_attempt_named": _("No repair is ticked. An ending by repair names the tight repair on each source."),
        "attempt_not_there": _("A repair that is ticked is void, or is none of this leak's."),
        "attempt_not_tight": _("A repair that is ticked is not tight."),
        "attempt_temporary": _("A repair that is ticked is temporary. A temporary repair ends no leak."),
        "source_without_attempt": _("A source has no repair ticked."),
    }[code]


def reviewed(review: str) -> str:
    """What a supervisor said of a repair; KeyError for another word."""
    return {
        "accepted": _("accepted"),
        "returned": _("returned by a supervisor"),
        "waiting": _("not accepted yet"),
    }[review]


def raised(review: str) -> str:
    """What is raised where a leak is ended by a repair that no supervisor accepted; KeyError for one that was."""
    return {
        "returned": _("A repair that is ticked was returned by a supervisor: that will be raised."),
        "waiting": _("No supervisor has accepted a repair that is ticked: that will be raised until one does."),
    }[review]
