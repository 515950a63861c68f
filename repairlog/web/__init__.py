"""Pages for people: a room for each of them, a small file a noun, over the frame."""

from __future__ import annotations

from repairlog.web.crew import grades, notes, openings, repairs, sources, unfinished, visits
from repairlog.web.everyone import leaks, sheet
from repairlog.web.frame import drawn, first, healthy, sign_in
from repairlog.web.frame.wrong import answer, fault

CREW = (
    openings.routes,
    visits.routes,
    grades.routes,
    sources.routes,
    repairs.routes,
    notes.routes,
    unfinished.routes,
)

ROUTES = (drawn.routes, healthy.routes, first.routes, sign_in.routes, leaks.routes, sheet.routes, *CREW)
"""Every noun's routes."""

__all__ = ["ROUTES", "answer", "fault"]
