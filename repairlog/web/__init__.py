"""Pages for people: a room for each of them, a small file a noun, over the frame."""

from __future__ import annotations

from repairlog.web.crew import (
    digs,
    grades,
    notes,
    openings,
    paper,
    repairs,
    sources,
    tests,
    ties,
    unfinished,
    visits,
    works,
)
from repairlog.web.everyone import gaps, leaks, mine, put_right, sheet
from repairlog.web.frame import drawn, first, healthy, sign_in
from repairlog.web.frame.wrong import answer, fault
from repairlog.web.officer import records
from repairlog.web.supervisor import endings, orders, reviews

CREW = (
    openings.routes,
    visits.routes,
    grades.routes,
    sources.routes,
    repairs.routes,
    tests.routes,
    digs.routes,
    ties.routes,
    notes.routes,
    paper.routes,
    works.routes,
    unfinished.routes,
)

OFFICER = (records.routes,)

SUPERVISOR = (reviews.routes, endings.routes, orders.routes)

ROUTES = (
    drawn.routes,
    healthy.routes,
    first.routes,
    sign_in.routes,
    leaks.routes,
    sheet.routes,
    put_right.routes,
    mine.routes,
    gaps.routes,
    *CREW,
    *SUPERVISOR,
    *OFFICER,
)
"""Every noun's routes."""

__all__ = ["ROUTES", "answer", "fault"]
