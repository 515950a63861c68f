"""An administrator's part of Today once the book is in use: who can come in, and what of the books lacks something."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from flask import current_app, url_for

from repairlog.records.beside.ways_in import how_many_in
from repairlog.records.queries.people_listed import WantedPeople, people_listed
from repairlog.records.queries.set_up import set_up
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.frame.asking import IDLE, Asker
from repairlog.web.frame.lines import Line, Way, lines_of
from repairlog.words import _, of_number

AT_MOST = 100
"""People that are counted; the list has them all."""

CREW = "crew"


def looked_after(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What to look over; None for whoever lets nobody in, and while the book is empty."""
    if not who.may("lets_in", area=None):
        return None
    there = set_up(who.scope, tx)
    if there is None or not there.in_use:
        return None
    return lines_of(
        _("Sign-ins and what the books lack"),
        [_let_in(tx, who), *_without_rulebook(tx, who), *_never_evaluated(tx, who)],
        none="",
        ways=[Way(name=_("Areas"), address=url_for("areas.page"))],
    )


def _let_in(tx: Tx, who: Asker) -> Line:
    ways = how_many_in(tx, since=who.at - current_app.config[IDLE])
    browsers = of_number(
        "signed in now in {number} browser", "signed in now in {number} browsers", number=ways.browsers
    )
    programs = of_number("{number} program sends", "{number} programs send", number=ways.programs)
    beside = (browsers.format(number=ways.browsers), programs.format(number=ways.programs))
    title = of_number("sign-in that is not closed", "sign-ins that are not closed", number=ways.sign_ins)
    at = url_for("every_sign_in.page")
    return Line(lead=str(ways.sign_ins), title=title, address=at, beside=", ".join(beside))


def _without_rulebook(tx: Tx, who: Asker) -> Iterator[Line]:
    bare = [area.name for area in areas(who.scope, tx) if not area.adoptions]
    if bare:
        title = of_number("area without a rulebook", "areas without a rulebook", number=len(bare))
        at = url_for("rulebooks.page")
        yield Line(lead=str(len(bare)), title=title, address=at, beside=", ".join(bare), wants=True)


def _never_evaluated(tx: Tx, who: Asker) -> Iterator[Line]:
    on = date.fromisoformat(who.on)
    wanted = WantedPeople(on=on, soon_until=on, role=CREW, qualified="none")
    names = [row.name for row in people_listed(who.scope, tx, asked=wanted, after=None, most=AT_MOST)]
    if names:
        title = of_number(
            "person of a crew without any qualification",
            "people of a crew without any qualification",
            number=len(names),
        )
        at = url_for("people.page", role=CREW, qualified="none")
        yield Line(lead=str(len(names)), title=title, address=at, beside=", ".join(names[:3]))
