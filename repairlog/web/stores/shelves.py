"""The list of shelves and trucks where material lies."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.settings import areas
from repairlog.records.queries.stores import ListedShelf, shelves_listed
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.listing import Listing, listed
from repairlog.words import _
from repairlog.words.codes import word

routes = room("shelves", __name__)


@routes.get("/stores/shelves")
def page() -> ResponseReturnValue:
    """The shelves and trucks of the asker's areas, by name; with `as=csv` all as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
    names = {area.id: area.name for area in within}

    def rows(tx: Tx, last: object, *, most: int) -> Sequence[ListedShelf]:
        edge = (last.name, last.id) if isinstance(last, ListedShelf) else last
        return shelves_listed(asker().scope, tx, after=edge if isinstance(edge, tuple) else None, most=most)

    return listed(
        Listing(
            title=_("Shelves and trucks"),
            name=_("shelves"),
            areas=within,
            columns={
                _("Name"): lambda shelf: shelf.name,
                _("What it is"): lambda shelf: word(shelf.what),
                _("Lots that lie there"): lambda shelf: shelf.lots,
                _("Area"): lambda shelf: names.get(shelf.area, ""),
            },
            leads=lambda shelf: url_for("lots.page", shelf=shelf.name),
            rows=rows,
            edge=lambda shelf: f"{shelf.id}.{shelf.name}",
            after=edge_of(request.args.get("older", "")),
            about=_("Where material lies: a lot is brought there as a whole or in part."),
            empty=_("A shelf or truck is named on the page of the stores."),
            ways=[(_("Stores"), url_for("lots.page"))],
        )
    )


def edge_of(text: str) -> tuple[str, UUID] | None:
    """Where the page before ended, `ID.NAME`; None for any other text."""
    id_text, _dot, name = text.partition(".")
    id = as_id(id_text)
    return (name, id) if id else None
