"""The list of leaks."""

from __future__ import annotations

from collections.abc import Sequence

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.leaks import Edge, LeakRow, leaks
from repairlog.records.queries.moved_away import moved_away
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.leak_columns import leak_columns, newest_first
from repairlog.web.frame.leak_filter import asked_of_leaks, wanted
from repairlog.web.frame.listing import Listing, listed
from repairlog.web.frame.moved_away import sentence
from repairlog.words import _
from repairlog.words import leaks as words

AWAY = 5
"""Leaks moved to another area that are told of where a number is looked up."""

routes = room("leaks", __name__)


@routes.get("/leaks")
def page() -> ResponseReturnValue:
    """The leaks that the asker may see and that fit the filter in the address, the newest report first; with `as=csv`
    all of them as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        of = asked_of_leaks(within)
        where = wanted(tx, of)

        def rows(tx: Tx, edge: Edge | None, *, most: int) -> Sequence[LeakRow]:
            return leaks(asker().scope, tx, where=where, beyond=edge, most=most)

        may_open = any(asker().may("leak_opened", area=area.id) for area in within)
        return listed(
            tx,
            Listing(
                title=_("Leaks"),
                name=_("leaks"),
                of=of,
                columns=words.columns(within),
                shown=leak_columns(),
                rows=rows,
                order=newest_first(),
                back=True,
                style="leaks",
                does=[(_("Open a leak"), url_for("openings.page"))] if may_open else [],
                counted=words.number_of,
                nothing_fits=_("No leak fits this."),
                nothing_yet=_("No leak that you may see is in the book yet."),
                empty=_(
                    "Each leak will stand here in a line, the newest report first: its grade, where it is, how it"
                    " stands, and what in its record does not hold up."
                ),
                around=lambda tx, _rows: {"gone": _gone(tx, where.number)},
                template="everyone/leaks.html",
            ),
        )


def _gone(tx: Tx, number: str) -> list[str]:
    """What is said of the leaks of that number that answer to an area which the asker does not see."""
    away = moved_away(asker().scope, tx, after=None, most=AWAY, number=number) if number else []
    return [sentence(each) for each in away if each.kind == "leak" and not each.seen]
