"""Every sign-in that is not closed, with where it is used: what an administrator looks over."""

from __future__ import annotations

from collections.abc import Sequence

from flask import abort, current_app, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.access import EVERYTHING
from repairlog.entries.ids import as_id
from repairlog.records.beside.ways_in import WayIn, every_way_in
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import Tx
from repairlog.web.frame.asking import IDLE, asker, room, store
from repairlog.web.frame.listing import Listing, listed
from repairlog.words import _, times

routes = room("every_sign_in", __name__)


@routes.get("/sign-ins")
def page() -> ResponseReturnValue:
    """All of them by name; with `as=csv` as a file. 403 for who lets nobody in."""
    if not asker().may("lets_in", area=None):
        abort(403)
    with store().reading() as tx:
        zone = operator_zone(EVERYTHING, tx) or "UTC"
    since = asker().at - current_app.config[IDLE]
    id_text, _dot, name = request.args.get("older", "").partition(".")
    id = as_id(id_text)

    def rows(tx: Tx, last: object, *, most: int) -> Sequence[WayIn]:
        edge = (last.name, last.person) if isinstance(last, WayIn) else last
        return every_way_in(tx, since=since, after=edge if isinstance(edge, tuple) else None, most=most)

    return listed(
        Listing(
            title=_("Sign-ins"),
            name=_("sign-ins"),
            areas=(),
            columns={
                _("Signs in as"): lambda each: each.name,
                _("Made"): lambda each: times.iso(each.made_at, zone=zone),
                _("Signed in, browsers"): lambda each: each.browsers,
                _("Last used"): lambda each: times.iso(each.seen_at, zone=zone),
                _("Programs that send"): lambda each: each.programs,
            },
            moments=(_("Made"), _("Last used")),
            leads=lambda each: url_for("sign_ins.page", person=each.person),
            rows=rows,
            edge=lambda each: f"{each.person}.{each.name}",
            after=(name, id) if id else None,
            about=" ".join((_("Who can come in, and where they are in now."), times.said_once([zone]))),
            empty=_("A sign-in is made on the page of a person."),
        )
    )
