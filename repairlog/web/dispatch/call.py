"""The page of one call: how it stands, its whole story, what is near it, and what the asker may add."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from uuid import UUID

from flask import render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.entry import Standing
from repairlog.entries.ids import new_uuid7
from repairlog.entries.told import WHOM
from repairlog.records.beside.preferred import preferred_units
from repairlog.records.queries.calls import CallRow, call_with_id
from repairlog.records.queries.settings import areas
from repairlog.records.story import Story, story_of_call
from repairlog.web.dispatch.near import near
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import just_saved, page_to_picture, ways_beside, ways_on
from repairlog.web.frame.files import files_told
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.frame.of_any import linked_here, way_to_link
from repairlog.web.frame.tapping import can_undo
from repairlog.words import _, story
from repairlog.words import calls as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

routes = room("call", __name__)


@routes.get("/calls/<uuid:call>")
def page(call: UUID) -> ResponseReturnValue:
    """The story of that call; there is none for whoever may not see it."""
    scope = asker().scope
    with store().reading() as tx:
        row = call_with_id(scope, tx, call=call)
        told = story_of_call(scope, tx, call=call)
        if row is None or told is None:
            not_here(tx, call)
        zone = next((area.zone for area in areas(scope, tx) if area.id == row.area), "UTC")
        links = linked_here(tx, call)
        around = near(tx, street=row.street, town=row.town, without=call)
        liked = preferred_units(tx, asker().actor.person)
    entries = story.tell(told, units=liked)
    to_right = ways_on(call, told, area=row.area)
    return render_template(
        "dispatch/call.html",
        call=row,
        zone=zone,
        times=story.times(told),
        entries=entries,
        moved_away=story.moved_away(told),
        saved=just_saved(told, entries),
        to_picture=page_to_picture(told, subject=call, area=row.area),
        taps=[(*each, str(new_uuid7(asker().at))) for each in _taps(row)],
        sends_first=_sends_first(row),
        actions=[*_actions(row), *ways_beside(call, area=row.area)],
        files=files_told(told),
        whom=[(code, word(code), str(new_uuid7(asker().at))) for code in WHOM if asker().may("told", area=row.area)],
        set_aside=_ways_to_set_aside(call, told) if asker().may("gap_set_aside", area=row.area) else {},
        of_entry=to_right.of_entry,
        of_righting=to_right.of_righting,
        undo=_ways_to_undo(row, [each.entry for each in told.told]),
        near=around,
        links=links,
        at_the_truck=asker().holds("crew"),
        at=asker().at,
        address=address_of_leak,
        words=words,
        word=word,
    )


def _ways_to_set_aside(call: UUID, told: Story) -> dict[tuple[UUID, str, str], str]:
    """By entry, code and row of a gap that stands, where it is set aside."""
    return {
        (gap.entry, gap.code, gap.row): url_for(
            "call_gaps.set_aside", call=call, entry=gap.entry, gap=gap.code, row=gap.row
        )
        for gap in told.gaps
        if gap.set_aside is None
    }


def _ways_to_undo(row: CallRow, told: Sequence[Standing]) -> dict[UUID, tuple[str, str]]:
    """By entry that the asker touched a short while ago, where it is undone and the id of the void that does it. The
    opening of the call is no touch."""
    address = url_for("call_steps.undo", call=row.id)
    return {entry: (address, id) for entry, id in can_undo(told).items() if entry != row.id}


def _sends_first(row: CallRow) -> bool:
    """Whether nobody is sent yet and the asker may send somebody: that comes before all else."""
    return row.status == "received" and asker().may("call_sent", area=row.area)


def _taps(row: CallRow) -> Iterator[tuple[str, str]]:
    """The steps of one tap that come next: the word in the address, and what the button says."""
    if row.status in ("received", "sent") and asker().may("call_on_way", area=row.area):
        yield "on-way", _("On the way now")
    if row.status in ("received", "sent", "on_way") and asker().may("call_on_site", area=row.area):
        yield "on-site", _("On site now")


def _actions(row: CallRow) -> Iterator[tuple[str, str]]:
    """What the asker may add to the call, with the address of the page for it."""
    ended, in_error = row.status == "ended", row.status == "received_in_error"
    send = ("send", ("call_sent",), _("Send somebody again") if ended else _("Send somebody"), not in_error)
    outcome = ("outcome", ("call_outcome",), _("Say how it came out"), not ended and not in_error)
    offered = [
        *((outcome, send) if row.status in ("on_way", "on_site") else (send, outcome)),
        ("review", ("call_reviewed",), _("Review it"), ended and not row.reviewed),
        ("told", ("told",), _("Say whom you told"), True),
        ("decided", ("decided",), _("To be reported or not"), True),
        ("on-way", ("call_on_way",), _("On the way, at another time"), not ended and not in_error),
        ("on-site", ("call_on_site",), _("On site, at another time"), not ended and not in_error),
    ]
    if _sends_first(row):
        yield offered.pop(0)[2], url_for("call_steps.page", call=row.id, at="send")
    if row.leak and asker().may("moment_noted", area=row.area):
        yield _("First hour at the leak"), url_for("first_hour.page", leak=row.leak)
    opens = asker().may("leak_opened", "call_outcome", area=row.area)
    if opens and not ended and not in_error:
        yield _("Our leak: open it"), url_for("opens_leak.page", call=row.id)
    for step, kinds, says, offer in offered:
        if offer and asker().may(*kinds, area=row.area):
            yield says, url_for("call_steps.page", call=row.id, at=step)
    yield from way_to_link("call", row.id, area=row.area)
    yield from way_to_move("call", row.id, area=row.area)
