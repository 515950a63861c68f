"""Records: the leaks that somebody asks for, in a list, as a file, and as stories to print."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from flask import render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.beside.preferred import preferred_units
from repairlog.records.queries.crews import CrewRow, crews_in
from repairlog.records.queries.leaks import Edge, LeakRow, how_many_leaks, leaks
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.records.story import Story, stories_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Asked
from repairlog.web.frame.leak_columns import leak_columns, newest_first
from repairlog.web.frame.leak_filter import asked_of_records, wanted
from repairlog.web.frame.listing import Listing, edge_in, filtered, listed, paged
from repairlog.web.officer.looked_at import may_read
from repairlog.words import _, story
from repairlog.words import leaks as words
from repairlog.words import records as record_words
from repairlog.words.addresses import address_of_leak

MOST_STORIES = 60
"""Stories on one page to be printed; a further page has the next ones."""

routes = room("records", __name__)


@routes.get("/records")
def page() -> ResponseReturnValue:
    """The leaks that fit, a page of them, and how many there are; with `as=csv` all of them as a file, unless some of
    the filter cannot be read: then the page says what."""
    scope = asker().scope
    with store().reading() as tx:
        of, _crews = _question(tx)
        where = wanted(tx, of)

        def rows(tx: Tx, edge: Edge | None, *, most: int) -> Sequence[LeakRow]:
            return leaks(scope, tx, where=where, beyond=edge, most=most)

        def around(tx: Tx, shown: Sequence[LeakRow]) -> Mapping[str, Any]:
            return {"count": record_words.found(len(shown), of=how_many_leaks(scope, tx, where=where))}

        looks = [(_("What inspectors looked at"), url_for("looked_at.page"))]
        return listed(
            tx,
            Listing(
                title=_("Records"),
                name=_("records"),
                of=of,
                columns=words.columns(of.within or ()),
                shown=leak_columns(),
                rows=rows,
                order=newest_first(),
                back=True,
                style="leaks",
                ways=looks if may_read(of.within or ()) else [],
                takes=[(_("Their stories, to print"), filtered(url_for("records.stories"), of.readable))],
                around=around,
                nothing_fits=_("No leak fits this."),
                nothing_yet=_("No record is here that you may see."),
                empty=_(
                    "Every leak of your operating areas will stand here, to be chosen by area, days, street, crew and"
                    " method, taken away as CSV, and printed as its story."
                ),
            ),
        )


@routes.get("/records/stories")
def stories() -> ResponseReturnValue:
    """The stories of the leaks that fit, the newest report first, so many of them as one page takes: each begins on a
    page of its own where they are printed."""
    scope = asker().scope
    order = newest_first()
    edge = edge_in(order, back=True)
    with store().reading() as tx:
        liked = preferred_units(tx, asker().actor.person)
        of, crews = _question(tx)
        where = wanted(tx, of)
        rows = leaks(scope, tx, where=where, beyond=edge, most=MOST_STORIES + 1)
        count = how_many_leaks(scope, tx, where=where)
        shown = paged(rows, order=order, edge=edge, most=MOST_STORIES, typed=of.typed)
        found = stories_of(scope, tx, leaks=[row.id for row in shown.rows])
    return render_template(
        "officer/stories.html",
        stories=[_told(row, found[row.id], liked=liked) for row in shown.rows if row.id in found],
        said=record_words.stories(len(found), of=count),
        page=shown,
        back=filtered(url_for("records.page"), of.typed),
        wrong=of.wrong,
        asked_for=record_words.asked_for(of.typed, crews={str(each.id): each.name for each in crews}),
        words=words,
    )


def _question(tx: Tx) -> tuple[Asked, Sequence[CrewRow]]:
    """What the address asks for, and the crews that it may ask for."""
    crews = crews_in(asker().scope, tx)
    return asked_of_records(areas(asker().scope, tx), crews), crews


def _told(row: LeakRow, found: Story, *, liked: Mapping[str, str]) -> dict[str, object]:
    return {
        "leak": row,
        "address": address_of_leak(row),
        "facts": story.head(found, units=liked),
        "entries": story.tell(found, units=liked),
        "moved_away": story.moved_away(found),
        "times": story.times(found),
    }
