"""Pages for people: a room for each of them, a small file a noun, over the frame."""

from __future__ import annotations

from repairlog.web.admin import (
    areas,
    companies,
    company,
    company_said,
    crews,
    every_sign_in,
    instrument,
    instrument_said,
    instruments,
    operator,
    out_of_term,
    people,
    person,
    person_said,
    person_signs_in,
    sign_ins,
)
from repairlog.web.admin.lapses_today import lapses_today
from repairlog.web.admin.looked_after import looked_after
from repairlog.web.admin.to_begin_with import to_begin_with
from repairlog.web.crew import (
    attachments,
    digs,
    first_hour,
    grades,
    links,
    notes,
    on_books,
    openings,
    otherwise,
    paper,
    repairs,
    sources,
    tests,
    ties,
    unfinished,
    visitors,
    visits,
    works,
)
from repairlog.web.crew.in_hand import given_to_you, left_unfinished
from repairlog.web.dispatch import call, calls, new_call, opens_leak, steps
from repairlog.web.dispatch.now import calls_in, who_is_out
from repairlog.web.everyone import (
    call_gaps,
    cure_of_file,
    digs_listed,
    due,
    figures,
    figures_kept,
    files,
    gaps,
    leaks,
    lost,
    mine,
    owed,
    place_said,
    places,
    put_right,
    sheet,
    work_listed,
)
from repairlog.web.everyone.due_today import due_this_week
from repairlog.web.everyone.today import today_of
from repairlog.web.frame import drawn, first, healthy, sign_in
from repairlog.web.frame.wrong import answer, fault
from repairlog.web.officer import adoptions, area_says, looked_at, records, rulebooks
from repairlog.web.officer.gaps_today import gaps_today
from repairlog.web.officer.period_today import period_today
from repairlog.web.stores import forms as stores
from repairlog.web.stores import lots, shelves
from repairlog.web.stores.lots_today import lots_today
from repairlog.web.supervisor import emergencies, endings, made_one, moves, orders, reviews
from repairlog.web.supervisor.before_them import waits_for_you

CREW = (
    openings.routes,
    first_hour.routes,
    visits.routes,
    visitors.routes,
    grades.routes,
    sources.routes,
    otherwise.routes,
    repairs.routes,
    tests.routes,
    digs.routes,
    ties.routes,
    links.routes,
    attachments.routes,
    notes.routes,
    on_books.routes,
    paper.routes,
    works.routes,
    unfinished.routes,
)

DISPATCH = (calls.routes, new_call.routes, call.routes, steps.routes, opens_leak.routes)

OFFICER = (area_says.routes, records.routes, rulebooks.routes, adoptions.routes, looked_at.routes)

STORES = (lots.routes, shelves.routes, stores.routes)

SUPERVISOR = (reviews.routes, emergencies.routes, endings.routes, orders.routes, made_one.routes, moves.routes)

ADMIN = (
    people.routes,
    person.routes,
    person_said.routes,
    person_signs_in.routes,
    sign_ins.routes,
    every_sign_in.routes,
    companies.routes,
    out_of_term.routes,
    company.routes,
    company_said.routes,
    crews.routes,
    instruments.routes,
    instrument.routes,
    instrument_said.routes,
    areas.routes,
    operator.routes,
)

TODAY = (
    to_begin_with,
    period_today,
    given_to_you,
    due_this_week,
    left_unfinished,
    calls_in,
    who_is_out,
    waits_for_you,
    lots_today,
    gaps_today,
    lapses_today,
    looked_after,
)
"""The parts of the page Today, in their order: a function and a template each, in the room of whoever reads it."""

ROUTES = (
    drawn.routes,
    healthy.routes,
    first.routes,
    sign_in.routes,
    today_of(TODAY),
    leaks.routes,
    sheet.routes,
    files.routes,
    put_right.routes,
    owed.routes,
    mine.routes,
    figures.routes,
    figures_kept.routes,
    cure_of_file.routes,
    lost.routes,
    gaps.routes,
    due.routes,
    place_said.routes,
    digs_listed.routes,
    work_listed.routes,
    places.routes,
    call_gaps.routes,
    *DISPATCH,
    *CREW,
    *SUPERVISOR,
    *OFFICER,
    *ADMIN,
    *STORES,
)
"""Every noun's routes."""

__all__ = ["ROUTES", "answer", "fault"]
