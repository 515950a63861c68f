"""A worked figure is kept on a leak: worked out once more from what was typed, and said to be no measurement."""

from __future__ import annotations

from uuid import UUID

from flask import abort, redirect, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS
from repairlog.figures.kept import as_kept, typed_in
from repairlog.figures.shelf import FIGURES
from repairlog.web.everyone.figures import address_of, shown_on_page, typed_in_address, worked_out
from repairlog.web.frame.again import opened_again
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import where_of
from repairlog.words import _

routes = room("figures_kept", __name__)


@routes.route("/leaks/<uuid:leak>/figures/<figure>/keep", methods=["GET", "POST"])
def page(leak: UUID, figure: str) -> ResponseReturnValue:
    """Keep that figure, of what the address says, on that leak. Where it cannot be worked out, go to its own page."""
    if figure not in FIGURES:
        abort(404)
    where, said = where_of(leak), _said()
    typed = typed_in_address(FIGURES[figure], said)
    answer, _complaints = worked_out(FIGURES[figure], typed)
    if answer is None:
        return redirect(url_for("figures.one", figure=figure, leak=leak, **address_of(typed)), 303)
    from_entry = as_id(said.get("from_entry", ""))
    kept = {"subject": str(leak), **as_kept(FIGURES[figure], answer, typed=typed)}
    keep = Part(
        name="keep",
        kind="figure_kept",
        said=kept | ({"from_entry": str(from_entry)} if from_entry else {}),
        without=() if from_entry else ("from_entry",),
        choices={"did.person": where.people},
        labels={"happened": _("When it was worked out")},
    )
    return on_leak(
        where,
        leak,
        template="everyone/keep_figure.html",
        parts=[keep],
        around={
            "figure": FIGURES[figure],
            "answer": shown_on_page(FIGURES[figure], answer),
            "address": address_of(typed),
            "from_entry": from_entry,
        },
    )


def _said() -> MultiDict[str, str]:
    """What the form or the address says; of what was left unfinished, what was typed for it then."""
    if request.method == "POST":
        return request.form
    again = opened_again(store(), asker())
    if again is None:
        return request.args
    raw = next((each for each in again.raw if each.get("kind") == KINDS["figure_kept"].name), {})
    found = MultiDict[str, str](typed_in(raw))
    return MultiDict([*found.items(multi=True), ("from_entry", str(raw.get("from_entry", "")))])
