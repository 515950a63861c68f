"""A worked figure as the fields of an entry that keeps it, and what was typed for it read back from those."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from repairlog.figures.asked import Typed
from repairlog.figures.declared import Answer, Figure, Value
from repairlog.figures.told import for_people, label_of

Row = dict[str, str]


def as_kept(figure: Figure, answer: Answer, *, typed: Typed) -> dict[str, Any]:
    """What an entry says of the figure: which, by what formula and arithmetic, from what, with what result.

    A number is a decimal text of twelve significant digits, as in the JSON of the command.
    """
    shown = {it.key: for_people(it) for it in answer.values}
    return {
        "figure": figure.name,
        "called": figure.title,
        "formula": answer.formula,
        "formula_source": answer.source,
        "figure_version": figure.version,
        "inputs": _keyed("i", _inputs(figure, answer, typed=typed)),
        "results": _keyed("r", (_result(it, shown[it.key]) for it in answer.values if it.worth is not None)),
        "holds_for": _keyed("h", ({"text": it} for it in answer.bounds)),
        "cautions": _keyed("c", ({"text": it} for it in answer.cautions)),
    }


def typed_in(said: Mapping[str, Any]) -> dict[str, list[str]]:
    """What was typed for a figure that is kept, by the names of its inputs; rows that no page of ours sent are left."""
    found: dict[str, list[str]] = {}
    for row in said.get("inputs", ()):
        name, text = row.get("name"), row.get("typed")
        if isinstance(name, str) and isinstance(text, str):
            found.setdefault(name, []).append(text)
    return found


def _inputs(figure: Figure, answer: Answer, *, typed: Typed) -> Iterator[Row]:
    """Each input that was typed or taken, in the order of the declaration; of one given again a row each."""
    known = [it.name for it in figure.inputs if typed.get(it.name) or it.name in answer.understood]
    for name in dict.fromkeys((*known, *answer.understood)):
        around = {"name": name, "label": label_of(figure, name)}
        given = _texts(typed, name)
        heard = {"heard": answer.understood[name]} if name in answer.understood and len(given) < 2 else {}
        for text in given:
            yield around | {"typed": text} | heard
        if not given:
            yield around | heard


def _texts(typed: Typed, name: str) -> list[str]:
    given = typed.get(name)
    if isinstance(given, bool):
        return ["yes"] if given else []
    return ([given] if given else []) if isinstance(given, str) else list(given or ())


def _result(it: Value, shown: str) -> Row:
    told = {"name": it.key, "label": it.label, "value": _decimal(it.worth), "unit": it.unit, "shown": shown}
    return {name: text for name, text in told.items() if text}


def _decimal(worth: float | int | str | None) -> str:
    return format(Decimal(f"{worth:.12g}"), "f") if isinstance(worth, float) else str(worth)


def _keyed(letter: str, rows: Iterator[Row]) -> list[Row]:
    return [{"key": f"{letter}{number}"} | row for number, row in enumerate(rows, start=1)]
