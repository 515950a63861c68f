"""Something is moved to another area, and what was moved away: whoever sees the area that it left is told where it
went."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.moved import MOVABLE
from repairlog.records.queries.links import sheets_of_digs
from repairlog.records.queries.moved_away import MovedAway, MoveEdge, moved_away
from repairlog.records.queries.named import named
from repairlog.records.queries.settings import SubjectRow, areas, subjects
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters
from repairlog.web.frame.filters import Asked
from repairlog.web.frame.listing import Listing, by_day, listed
from repairlog.web.frame.of_any import page_at, page_of_any
from repairlog.web.frame.there import area_choices, hide, people_to_choose
from repairlog.words import _
from repairlog.words import moved as words

routes = room("moves", __name__)


@routes.get("/moved")
def page() -> ResponseReturnValue:
    """What was moved out of the asker's areas, the newest first; with `as=csv` all as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        sheets: dict[UUID, UUID] = {}

        def rows(tx: Tx, edge: MoveEdge | None, *, most: int) -> Sequence[MovedAway]:
            found = moved_away(asker().scope, tx, after=edge, most=most)
            digs = [row.subject for row in found if row.kind == "dig" and row.seen]
            sheets.update(sheets_of_digs(asker().scope, tx, ids=digs))
            return found

        def page_of(row: MovedAway) -> str:
            return page_at(row.kind, row.subject, sheet=sheets.get(row.subject)) if row.seen else ""

        return listed(
            tx,
            Listing(
                title=_("Moved to another area"),
                name=_("moved"),
                of=Asked(within=within),
                columns={
                    _("What"): lambda row: words.named(row.kind, row.called),
                    _("Day"): lambda row: row.on,
                    _("From"): lambda row: row.from_area,
                    _("To"): lambda row: row.to_area,
                    _("Why"): lambda row: row.reason,
                },
                days=(_("Day"),),
                leads=page_of,
                rows=rows,
                order=by_day(lambda row: (row.on, row.entry), make=lambda on, id: MoveEdge(on=on, entry=id)),
                about=_("What left one of your areas, the newest first. From then on it answers to another."),
                empty=_("Whatever is moved out of one of your areas will stand here in a line, with where it went."),
            ),
        )


@routes.route("/moved/<uuid:subject>", methods=["GET", "POST"])
def move(subject: UUID) -> ResponseReturnValue:
    """Move that thing to another area."""
    scope = asker().scope
    with store().reading() as tx:
        row = next((each for each in subjects(scope, tx, ids=[subject]) if each.kind in MOVABLE), None)
        within = areas(scope, tx)
        people = people_to_choose(tx)
        called = _called(tx, row) if row else ""
        back = page_of_any(tx, kind=row.kind, subject=subject) if row else url_for("moves.page")
    hide(row)
    here = [area for area in within if row and area.id == row.area]
    to = _may_go(row, within) if row else []
    return enters(
        Says(
            kind="subject_moved",
            heading=_("Move to another area"),
            save=_("Move it"),
            called=called,
            back=back,
            then=back.partition("#")[0],
            opens_to=bool(row and here and asker().may("subject_moved", area=row.area, subject=row.kind)),
            areas=here,
            said={"subject": str(subject)},
            choices={"to_area": area_choices(to), "did.person": people},
            labels={
                "happened": _("From when it answers there"),
                "to_area": _("The area to which it goes"),
                "reason": _("Why it goes there"),
            },
            told=words.means(row.kind) if row else (),
            hint="" if to else _("There is no other area in which you may take it over."),
        )
    )


def _called(tx: Tx, row: SubjectRow) -> str:
    if row.kind == "dig":
        return words.what("dig")
    found = named(asker().scope, tx, ids=[row.id]).get(row.id)
    return words.named(row.kind, (found.itself or found.called) if found else "")


def _may_go(row: SubjectRow, within: Sequence[Area]) -> list[Area]:
    """The areas to which the asker may move it."""
    others = [area for area in within if area.id != row.area]
    return [area for area in others if asker().may("subject_moved", area=area.id, subject=row.kind)]
