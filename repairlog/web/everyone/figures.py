"""Figures of the trade: a page each, whose address holds what was asked and whose answer shows its working. Whoever
comes from a leak's sheet goes back there, or keeps the figure on that leak."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import Any
from uuid import UUID

from flask import abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from repairlog.entries.ids import as_id
from repairlog.figures import told
from repairlog.figures.answered import answered
from repairlog.figures.declared import Answer, Figure, Input
from repairlog.figures.shelf import FIGURES
from repairlog.records.queries.leaks import LeakRow, leak_with_id
from repairlog.trade.unworkable import Unworkable
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.where import leak_numbered
from repairlog.words import _

MOST_TYPED = 2000
"""Characters of one box; an address holds no more in any case. A box takes one more, by which it is seen that there was
more; so nothing is worked out from a piece of what was typed."""

Typed = dict[str, str | bool | list[str]]

routes = room("figures", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An input as the page draws it: what was typed in it, and what is wrong with that."""

    of: Input
    typed: str
    wrong: str
    hint: str


@routes.get("/figures")
def page() -> ResponseReturnValue:
    """Which figures there are."""
    return render_template("everyone/figures.html", figures=FIGURES.values(), caution=told.caution())


@routes.get("/figures/<figure>")
def one(figure: str) -> ResponseReturnValue:
    """A figure: its form as it was filled in, and the answer, or why there is none. `leak`: on whose sheet the asker
    was; `from_entry`: the entry whose values are filled in; `on_leak`: number of the leak to keep it on."""
    if figure not in FIGURES:
        abort(404)
    asked_for = FIGURES[figure]
    typed = typed_in_address(asked_for, request.args)
    answer, complaints = worked_out(asked_for, typed) if typed else (None, ())
    number = request.args.get("on_leak", "").strip()[:60]
    on_leak = leak_numbered(number) if number and answer else None
    if on_leak is not None:
        return redirect(url_for("figures_kept.page", leak=on_leak, figure=figure, **address_of(typed)), 303)
    leak = leak_of(request.args.get("leak", ""))
    wrongs = {it["field"]: it for it in reversed(told.refusals(complaints))}
    boxes = [box_of(it, typed=typed, wrongs=wrongs) for it in asked_for.inputs]
    return render_template(
        "everyone/figure.html",
        figure=asked_for,
        boxes=boxes,
        most=MOST_TYPED,
        usual=in_groups([it for it in boxes if not _is_rare(it)]),
        rare=[it for it in boxes if _is_rare(it)],
        rare_open=any(it.typed or it.wrong for it in boxes if _is_rare(it)),
        wrongs=[{**it, "label": told.label_of(asked_for, it["field"])} for it in wrongs.values()],
        answer=shown_on_page(asked_for, answer) if answer else None,
        caution=told.caution(),
        leak=leak,
        around=_around(leak),
        keep=_keep(asked_for, typed, leak) if answer else "",
        address=address_of(typed),
        unknown_leak=number,
    )


def leak_of(text: str) -> LeakRow | None:
    """The leak of that id; None where there is none, or not for the asker."""
    id = as_id(text)
    if id is None:
        return None
    with store().reading() as tx:
        return leak_with_id(asker().scope, tx, leak=id)


def _around(leak: LeakRow | None) -> dict[str, str]:
    """What the form passes on beside the figure's own inputs."""
    from_entry = as_id(request.args.get("from_entry", ""))
    if leak is None:
        return {}
    return {"leak": str(leak.id)} | ({"from_entry": str(from_entry)} if from_entry else {})


def _keep(figure: Figure, typed: Typed, leak: LeakRow | None) -> str:
    """Where the figure is kept on that leak; empty where none is known, or the asker may not."""
    if leak is None or not asker().may("figure_kept", area=leak.area):
        return ""
    from_entry: UUID | None = as_id(request.args.get("from_entry", ""))
    return url_for("figures_kept.page", leak=leak.id, figure=figure.name, from_entry=from_entry, **address_of(typed))


def address_of(typed: Typed) -> dict[str, Any]:
    """What was typed, as an address carries it."""
    return {name: "yes" if it is True else it for name, it in typed.items() if it is not False}


def typed_in_address(figure: Figure, args: MultiDict[str, str]) -> Typed:
    """What an address says of the figure's inputs; of one that may be given again, a line or a key each."""
    typed: Typed = {}
    for it in figure.inputs:
        given = [text if len(text) > MOST_TYPED else text.strip() for text in args.getlist(it.name) if text.strip()]
        if not given:
            continue
        if it.many:
            typed[it.name] = [line.strip() for text in given for line in _lines(text) if line.strip()]
        else:
            typed[it.name] = True if it.kind == "yes" else given[0]
    return typed


def worked_out(figure: Figure, typed: Typed) -> tuple[Answer | None, tuple[Unworkable, ...]]:
    """The answer, or why there is none; more than a box holds is refused, for a piece of it means another thing."""
    long = [it.name for it in figure.inputs if any(len(text) > MOST_TYPED for text in _texts(typed.get(it.name)))]
    if long:
        return None, tuple(Unworkable("too_long_for_address", field=name, most=f"{MOST_TYPED:,}") for name in long)
    return answered(figure, typed)


def _lines(text: str) -> list[str]:
    return [text] if len(text) > MOST_TYPED else text.splitlines()


def _texts(given: object) -> list[str]:
    return given if isinstance(given, list) else [given] if isinstance(given, str) else []


def in_groups(boxes: list[Box]) -> list[tuple[str, list[Box]]]:
    """Boxes under the headings of their groups, in their order; those of none under an empty one."""
    return [(title, list(some)) for title, some in groupby(boxes, key=lambda box: box.of.group)]


def box_of(it: Input, *, typed: Typed, wrongs: dict[str, dict[str, str]]) -> Box:
    value = typed.get(it.name, "")
    shown = "\n".join(value) if isinstance(value, list) else "yes" if value is True else str(value)
    wrong = wrongs.get(it.name, {"message": "", "hint": ""})
    return Box(of=it, typed=shown, wrong=wrong["message"], hint=wrong["hint"])


def _is_rare(box: Box) -> bool:
    """Whether the box has a usual value, or is left empty by most: it stands behind one fold."""
    return bool(box.of.default) or box.of.name in {"elevation", "zone", "year", "cd"} or "atmosphere" in box.of.name


def shown_on_page(figure: Figure, answer: Answer) -> dict[str, object]:
    """The answer as `everyone/answer.html` draws it."""
    first, *rest = [it for it in answer.values if it.label and it.worth is not None]
    return {
        "first": (first.label, told.for_people(first)),
        "rest": [(it.label, told.for_people(it)) for it in rest],
        "understood": [(told.label_of(figure, name), text) for name, text in answer.understood.items()],
        "steps": answer.steps,
        "formula": answer.formula,
        "source": answer.source,
        "bounds": answer.bounds,
        "cautions": answer.cautions,
        "version": _("Formula version {version}").format(version=figure.version),
    }
