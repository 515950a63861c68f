"""Every sign-in that is not closed, with where it is used: what an administrator looks over."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from flask import abort, current_app, url_for
from flask.typing import ResponseReturnValue

from repairlog.access import EVERYTHING
from repairlog.records.beside.ways_in import WayIn, every_way_in
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import Tx
from repairlog.web.frame.asking import IDLE, asker, room, store
from repairlog.web.frame.listing import Listing, by_name, listed
from repairlog.words import _, times

routes = room("every_sign_in", __name__)


@routes.get("/sign-ins")
def page() -> ResponseReturnValue:
    """All of them by name; with `as=csv` as a file. 403 for who lets nobody in."""
    if not asker().may("lets_in", area=None):
        abort(403)
    since = asker().at - current_app.config[IDLE]

    def rows(tx: Tx, edge: tuple[str, UUID] | None, *, most: int) -> Sequence[WayIn]:
        return every_way_in(tx, since=since, after=edge, most=most)

    with store().reading() as tx:
        zone = operator_zone(EVERYTHING, tx) or "UTC"
        return listed(
            tx,
            Listing(
                title=_("Sign-ins"),
                name=_("sign-ins"),
                columns={
                    _("Signs in as"): lambda each: each.name,
                    _("Made"): lambda each: times.iso(each.made_at, zone=zone),
                    _("Signed in, browsers"): lambda each: each.browsers,
                    _("Last used"): lambda each: times.iso(each.seen_at, zone=zone),
                    _("Programs that send"): lambda each: each.programs,
                },
                moments=(_("Made"), _("Last used")),
                zone=lambda _each: zone,
                leads=lambda each: url_for("sign_ins.page", person=each.person),
                rows=rows,
                order=by_name(lambda each: (each.name, each.person)),
                about=_("Who can come in, and where they are in now."),
                empty=_("A sign-in is made on the page of a person."),
            ),
        )
