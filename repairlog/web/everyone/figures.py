"""Figures of the trade: a page each, whose address holds what was asked and whose answer shows its working."""

from __future__ import annotations

from dataclasses import dataclass

from flask import abort, render_template, request
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from repairlog.figures import told
from repairlog.figures.answered import answered
from repairlog.figures.declared import Answer, Figure, Input
from repairlog.figures.shelf import FIGURES
from repairlog.web.frame.asking import room
from repairlog.words import _

MOST_TYPED = 2000
"""Characters of one box that are read; an address holds no more in any case."""

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
    """A figure: its form as it was filled in, and the answer, or why there is none."""
    if figure not in FIGURES:
        abort(404)
    asked_for = FIGURES[figure]
    typed = _typed(asked_for, request.args)
    answer, complaints = answered(asked_for, typed) if typed else (None, ())
    wrongs = {it["field"]: it for it in reversed(told.refusals(complaints))}
    boxes = [_box(it, typed, wrongs) for it in asked_for.inputs if it.on_page]
    return render_template(
        "everyone/figure.html",
        figure=asked_for,
        boxes=boxes,
        usual=[it for it in boxes if not _is_rare(it)],
        rare=[it for it in boxes if _is_rare(it)],
        rare_open=any(it.typed or it.wrong for it in boxes if _is_rare(it)),
        wrongs=[{**it, "label": _label(asked_for, it["field"])} for it in wrongs.values()],
        answer=_shown(asked_for, answer) if answer else None,
        caution=told.caution(),
    )


def _typed(figure: Figure, args: MultiDict[str, str]) -> dict[str, str | bool | list[str]]:
    """What the address says of the figure's inputs; of one that may be given again, a line or a key each."""
    typed: dict[str, str | bool | list[str]] = {}
    for it in figure.inputs:
        given = [text[:MOST_TYPED].strip() for text in args.getlist(it.name) if text.strip()]
        if not given or not it.on_page:
            continue
        if it.many:
            typed[it.name] = [line.strip() for text in given for line in text.splitlines() if line.strip()]
        else:
            typed[it.name] = True if it.kind == "yes" else given[0]
    return typed


def _box(it: Input, typed: dict[str, str | bool | list[str]], wrongs: dict[str, dict[str, str]]) -> Box:
    value = typed.get(it.name, "")
    shown = "\n".join(value) if isinstance(value, list) else "yes" if value is True else str(value)
    wrong = wrongs.get(it.name, {"message": "", "hint": ""})
    return Box(of=it, typed=shown, wrong=wrong["message"], hint=wrong["hint"])


def _is_rare(box: Box) -> bool:
    """Whether the box has a usual value, or is left empty by most: it stands behind one fold."""
    return bool(box.of.default) or box.of.name in {"elevation", "zone", "year", "cd"} or "atmosphere" in box.of.name


def _label(figure: Figure, name: str) -> str:
    return next((it.label for it in figure.inputs if it.name == name), "")


def _shown(figure: Figure, answer: Answer) -> dict[str, object]:
    first, *rest = [it for it in answer.values if it.label and it.worth is not None]
    return {
        "first": (first.label, told.for_people(first)),
        "rest": [(it.label, told.for_people(it)) for it in rest],
        "understood": [(_label(figure, name) or name, text) for name, text in answer.understood.items()],
        "steps": answer.steps,
        "formula": answer.formula,
        "source": answer.source,
        "bounds": answer.bounds,
        "cautions": answer.cautions,
        "version": _("Formula version {version}").format(version=figure.version),
    }
