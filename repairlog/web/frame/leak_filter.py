"""What lists of leaks may be asked for, and what the address of one asks for, as a question to the book."""

from __future__ import annotations

from collections.abc import Sequence

from flask import request

from repairlog.records.queries.crews import CrewRow
from repairlog.records.queries.leaks import Wanted
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.grade import USUAL_RANKS
from repairlog.web.frame.asking import asker
from repairlog.web.frame.filters import Asked, Box, asked, chosen, days_between, of_area, refused
from repairlog.words import _
from repairlog.words import leaks as words
from repairlog.words import records as record_words

BY = ("reported", "repaired", "ended")
"""Of what the days from and until are."""

A_YEAR = 366
"""Days from the first to the last, both counted in, in which notes are searched at the most: every one is read."""

STATUSES = ("open", "ended", "opened_in_error")


def asked_of_leaks(within: Sequence[Area]) -> Asked:
    """The filter of the list of leaks."""
    boxes = [
        Box(name="number", label=_("Number"), hint=_("or its beginning"), size=14),
        Box(name="street", label=_("Street or town"), hint=_("part of a name")),
        *_how_it_stands(),
        *of_area(within),
        *days_between(_("Reported from")),
    ]
    return asked(boxes, within=within)


def asked_of_records(within: Sequence[Area], crews: Sequence[CrewRow]) -> Asked:
    """The filter of the records. Notes are searched in one area and in a year at the most."""
    taken = _("There is no day “{got}” of a leak; the day of its report is taken.")
    boxes = [
        *of_area(within, always=True),
        chosen("by", _("Day of"), choices={each: record_words.by(each) for each in BY}, any=None, wrong=taken),
        *days_between(_("From")),
        Box(name="street", label=_("Street or town"), hint=_("part of a name")),
        Box(name="number", label=_("Number"), hint=_("ours or of others"), size=14),
        *of_crew(crews),
        Box(name="method", label=_("Method"), hint=_("part of a name"), size=14),
        *_how_it_stands(),
        Box(name="notes", label=_("Words in a note"), hint=_("area, year first")),
    ]
    of = asked(boxes, within=within)
    first, last = of.day("from"), of.day("until")
    if of.text("notes") and not (of.area and first and last and (last - first).days < A_YEAR):
        return refused(
            of,
            "notes",
            said=_(
                "Notes are searched in one area and in days that span a year at most. Choose those; it is left out for"
                " now."
            ),
        )
    return of


def _how_it_stands() -> list[Box]:
    return [
        chosen("status", _("Status"), choices={status: words.status_word(status) for status in STATUSES}),
        Box(name="grade", label=_("Grade"), size=4, offered=list(USUAL_RANKS)),
    ]


def of_crew(crews: Sequence[CrewRow]) -> list[Box]:
    """The box for a crew; none where there is none, unless the address names one all the same."""
    if not crews and not request.args.get("crew"):
        return []
    wrong = _("There is no such crew here; it is left out for now.")
    return [chosen("crew", _("Crew"), choices={str(crew.id): crew.name for crew in crews}, wrong=wrong)]


def wanted(tx: Tx, of: Asked) -> Wanted:
    """The same as a question to the book."""
    street = of.text("street")
    return Wanted(
        area=of.area,
        status=of.text("status"),
        grade=of.text("grade"),
        streets=tuple(streets_named(asker().scope, tx, part=street)) if street else None,
        from_on=of.day("from"),
        until_on=of.day("until"),
        number=of.text("number"),
        by=of.text("by") or BY[0],
        crew=of.id("crew"),
        method=of.text("method"),
        notes=of.text("notes"),
    )
