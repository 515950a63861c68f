"""From what was found at a leak to the least grade that it calls for. Pure: it takes readings and a rulebook."""

from repairlog.trade.grading.called_for import OWNER, CalledFor, Grader, Met, called_for, grader
from repairlog.trade.grading.found import Found, Reading, Spot, reading_of
from repairlog.trade.grading.nearly import Nearly, nearly_met
from repairlog.trade.grading.vented import AskedAfterVenting, Venting, Waited, asked_after_venting, venting_of, waited
from repairlog.trade.grading.visits import COUNTS_AS, answers_of, found_at, said_of

__all__ = [
    "COUNTS_AS",
    "OWNER",
    "AskedAfterVenting",
    "CalledFor",
    "Found",
    "Grader",
    "Met",
    "Nearly",
    "Reading",
    "Spot",
    "Venting",
    "Waited",
    "answers_of",
    "asked_after_venting",
    "called_for",
    "found_at",
    "grader",
    "nearly_met",
    "reading_of",
    "said_of",
    "venting_of",
    "waited",
]
