"""What an area says of its records: how soon an entry is to be typed, whether somebody accepts their own work."""

from __future__ import annotations

from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters
from repairlog.web.frame.there import area_there, hide, people_there
from repairlog.words import _
from repairlog.words.gaps import how_soon, own_work

routes = room("area_says", __name__)


@routes.route("/areas/<uuid:area>/typing-time", methods=["GET", "POST"])
def typing_time(area: UUID) -> ResponseReturnValue:
    """Say how long after the work an entry may be typed in that area before it is raised."""
    return _says(
        area,
        kind="typing_time_set",
        heading=_("How soon an entry is to be typed"),
        save=_("Save how soon"),
        hint=_(
            "It holds for what comes in from then on; what stands is judged by what was said when it came in. Your own"
            " procedures say how soon a record is to be made."
        ),
    )


@routes.route("/areas/<uuid:area>/own-acceptance", methods=["GET", "POST"])
def own_acceptance(area: UUID) -> ResponseReturnValue:
    """Say once whether somebody accepts their own work in that area."""
    return _says(
        area,
        kind="own_acceptance_said",
        heading=_("Who accepts a repair"),
        save=_("Save it"),
        hint=_(
            "Where few people do everything, it is said here once and not on every leak. The reason stands with it."
        ),
    )


def _says(area: UUID, *, kind: str, heading: str, save: str, hint: str) -> ResponseReturnValue:
    with store().reading() as tx:
        here = area_there(tx, area)
        people = people_there(tx, here)
    hide(here)
    told = [
        how_soon(each.typing_hours) if kind == "typing_time_set" else own_work(accepts=each.own_acceptance)
        for each in here
    ]
    back = _back(area)
    return enters(
        Says(
            kind=kind,
            heading=heading,
            save=save,
            called=here[0].name if here else "",
            back=back,
            then=back,
            opens_to=bool(here) and asker().may(kind, area=area),
            areas=here,
            said={"subject": str(area)},
            choices={"did.person": people},
            labels={"happened": _("When this was decided")},
            first=("reason",),
            hint=hint,
            told=told,
        )
    )


def _back(area: UUID) -> str:
    """To the area, or to the repair that is looked over, from which the address says that somebody came."""
    leak, attempt = (as_id(request.args.get(name, "")) for name in ("leak", "attempt"))
    return url_for("reviews.page", leak=leak, attempt=attempt) if leak and attempt else url_for("areas.one", area=area)
