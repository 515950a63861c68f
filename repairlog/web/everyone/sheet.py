"""The sheet of one leak: its whole story on one page, and what the asker may add to it."""

from __future__ import annotations

from collections.abc import Iterator
from uuid import UUID

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.beside.preferred import preferred_units
from repairlog.records.queries.calls import calls_of_leak
from repairlog.records.queries.leaks import LeakRow, leak_with_id
from repairlog.records.story import Story, story_of
from repairlog.trade.dig import Dig
from repairlog.web.everyone.after_work import after_work
from repairlog.web.everyone.figures_offered import offered
from repairlog.web.everyone.goes_on import joined_of
from repairlog.web.everyone.of_sources import of_sources
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import just_saved, page_to_picture
from repairlog.web.frame.files import files_told
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.frame.of_any import linked_here, way_to_link
from repairlog.web.frame.righted import WaysToRight, ways_to_right
from repairlog.words import _, story
from repairlog.words import leaks as words
from repairlog.words.addresses import address_of_leak

routes = room("sheet", __name__)


@routes.get("/leaks/<uuid:leak>")
def page(leak: UUID) -> ResponseReturnValue:
    """The story of that leak; there is none for whoever may not see it."""
    with store().reading() as tx:
        row = leak_with_id(asker().scope, tx, leak=leak)
        told = story_of(asker().scope, tx, leak=leak)
        called = calls_of_leak(asker().scope, tx, leak=leak)
        liked = preferred_units(tx, asker().actor.person)
        joined = joined_of(tx, leak)
        links = linked_here(tx, leak, *(dig.opened.id for dig in told.digs)) if told else []
        if row is None or told is None:
            not_here(tx, leak)
    entries = story.tell(told, units=liked, at=asker().at)
    to_right = _to_right(row, told)
    return render_template(
        "everyone/sheet.html",
        leak=row,
        at_the_truck=asker().holds("crew"),
        calls=called,
        joined=joined,
        links=links,
        address=address_of_leak(row),
        words=words,
        facts=story.head(told, units=liked),
        entries=entries,
        moved_away=story.moved_away(told),
        times=story.times(told),
        saved=just_saved(told, entries),
        comes_next=after_work(row, told, saved=as_id(request.args.get("saved", ""))),
        to_picture=page_to_picture(told, leak=row.id, area=row.area),
        actions=list(_actions(row, told)),
        of_attempt={**_of_attempts(row, told), **_of_digs(row, told), **of_sources(row, told)},
        of_entry=to_right.of_entry,
        of_righting=to_right.of_righting,
        set_aside=_ways_to_set_aside(row, told),
        figures=offered(told),
        files=files_told(told),
        due=story.due_next(told, at=asker().at),
    )


def _actions(row: LeakRow, told: Story) -> Iterator[tuple[str, str]]:
    """What the asker may add to the leak, with the address of the page for it."""
    offered = [
        ("visit", _("Log a visit"), url_for("visits.page", leak=row.id)),
        ("repair_attempted", _("Log a repair"), url_for("repairs.page", leak=row.id)),
        ("grade_set", _("Set the grade"), url_for("grades.page", leak=row.id)),
        ("note", _("Add a note"), url_for("notes.page", leak=row.id)),
        ("attached", _("Attach a picture"), url_for("attachments.page", leak=row.id)),
        ("source_added", _("Add a source"), url_for("sources.page", leak=row.id)),
        ("dig_opened", _("Open a dig"), url_for("digs.opening", leak=row.id)),
        ("outside_number_added", _("Add an outside number"), url_for("ties.number", leak=row.id)),
        ("linked", _("Link to another leak"), url_for("ties.link", leak=row.id)),
    ]
    if row.status == "open":
        offered.insert(2, ("moment_noted", _("First hour"), url_for("first_hour.page", leak=row.id)))
        offered.append(("leak_ended", _("End the leak"), url_for("endings.page", leak=row.id)))
    if row.status == "open" and told.leak.bar_holes:
        again = url_for("visits.page", leak=row.id, purpose="re_evaluation")
        offered.insert(2, ("visit", _("Re-evaluate"), again))
    offered += _further(row, told)
    if any(each.entry.kind == "moment_noted" and each.entry.void is None for each in told.told):
        review = url_for("emergencies.page", leak=row.id)
        offered.append(("emergency_reviewed", _("Review the emergency"), review))
    if row.status == "open" and not told.leak.in_hand:  # nobody has it: whoever may give it to somebody sees that first
        offered.sort(key=lambda each: each[0] not in ("visit", "repair_attempted", "work_given"))
    yield from ((name, address) for kind, name, address in offered if asker().may(kind, area=row.area))
    yield from way_to_move("leak", row.id, area=row.area)


def _to_right(row: LeakRow, told: Story) -> WaysToRight:
    return ways_to_right(
        told,
        area=row.area,
        right=lambda entry: url_for("put_right.page", leak=row.id, entry=entry),
        void=lambda entry: url_for("put_right.void", leak=row.id, entry=entry),
    )


def _further(row: LeakRow, told: Story) -> list[tuple[str, str, str]]:
    """What is said of an open leak's further work, and of an ended one's: kind, name, address."""
    give = ("work_given", _("Give work"), url_for("orders.give", leak=row.id))
    if row.status == "ended":
        return [give, ("leak_reopened", _("Open it again"), url_for("orders.reopen", leak=row.id))]
    if row.status != "open":
        return []
    if told.leak.waits is not None:
        waits = ("work_goes_on", _("The work goes on"), url_for("works.goes_on", leak=row.id))
    else:
        waits = ("work_waiting", _("The work waits"), url_for("works.waiting", leak=row.id))
    return [
        give,
        ("scheduled_for_repair", _("Schedule the repair"), url_for("orders.schedule", leak=row.id)),
        ("briefing_given", _("Talk the work over"), url_for("works.briefing", leak=row.id)),
        waits,
    ]


def _ways_to_set_aside(row: LeakRow, told: Story) -> dict[tuple[UUID, str, str], str]:
    """By entry, code and row of a gap, where an officer sets it aside."""
    if not asker().may("gap_set_aside", area=row.area):
        return {}
    return {
        (gap.entry, gap.code, gap.row): url_for(
            "gaps.set_aside", leak=row.id, entry=gap.entry, gap=gap.code, row=gap.row or None
        )
        for gap in told.gaps
        if gap.set_aside is None
    }


LOWER = ("downgrade_not_reviewed", "graded_lower_than_called_for")
"""Gaps of a grade that a supervisor looks over."""


def _of_attempts(row: LeakRow, told: Story) -> dict[UUID, list[tuple[str, str]]]:
    """By attempt, lower grade and work that was given, what the asker may add to it."""
    offered = [
        ("tests.page", "tested", _("Log a test of it")),
        ("reviews.page", "repair_reviewed", _("Accept or return it")),
    ]
    may = [(endpoint, name) for endpoint, kind, name in offered if asker().may(kind, area=row.area)]
    found = {
        attempt.id: [(name, url_for(endpoint, leak=row.id, attempt=attempt.id)) for endpoint, name in may]
        for attempt in told.leak.attempts
    }
    if asker().may("downgrade_reviewed", area=row.area):
        for gap in (each for each in told.leak.gaps if each.code in LOWER):
            address = url_for("orders.review", leak=row.id, grade_set=gap.entry)
            found[gap.entry] = [(_("Review the lower grade"), address)]
    if asker().may("work_settled", area=row.area):
        for given in told.leak.in_hand:
            found[given.id] = [(_("Say that it is done"), url_for("works.settle", leak=row.id, given=given.id))]
    return found


def _of_digs(row: LeakRow, told: Story) -> dict[UUID, list[tuple[str, str]]]:
    """By dig, under the entry that opened it, what the asker may add to it as it stands."""
    return {
        dig.opened.id: [
            (name, url_for("digs.page", leak=row.id, dig=dig.opened.id, step=step))
            for step, kind, name in _steps(dig)
            if asker().may(kind, area=dig.area)
        ]
        + list(way_to_link("dig", dig.opened.id, area=dig.area, leak=row.id))
        + way_to_move("dig", dig.opened.id, area=dig.area, leak=row.id)
        for dig in told.digs
    }


def _steps(dig: Dig) -> Iterator[tuple[str, str, str]]:
    yield "found", "dig_found", _("Say what it found")
    yield "pipe", "pipe_exposed", _("Look at exposed pipe")
    if dig.status == "open":
        yield "backfill", "dig_backfilled", _("Backfill it")
    yield "owed", "restoration_owed", _("Say what restoration is owed")
    if dig.still_owed:
        yield "restored", "restored", _("Say what was restored")
    yield "note", "note", _("Add a note")
    yield "number", "outside_number_added", _("Add an outside number")
