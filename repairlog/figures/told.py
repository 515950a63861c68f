"""A figure, told: as JSON with every digit, or in lines with as many digits as are honest."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from repairlog.figures.declared import Answer, Figure, Value
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _, figures


def caution() -> str:
    """What stands under every figure."""
    return _(
        "Figures are aids. The operator's procedures, the maker's instructions, the law and qualified people govern."
    )


def as_plain(figure: Figure, answer: Answer) -> dict[str, Any]:
    """The answer as a plain object: its own keys first; what is not known is left out."""
    return {
        **{it.key: _in_json(it.worth) for it in answer.values if it.worth is not None},
        **{
            key: [{name: _in_json(it) for name, it in row.items()} for row in rows]
            for key, rows in answer.parts.items()
        },
        "formula": answer.formula,
        "source": answer.source,
        "version": figure.version,
        "understood": dict(answer.understood),
        "bounds": list(answer.bounds),
        "steps": list(answer.steps),
        "cautions": [*answer.cautions, caution()],
    }


def as_lines(figure: Figure, answer: Answer) -> list[str]:
    """The answer for a person at a command line."""
    told = [it for it in answer.values if it.label and it.worth is not None]
    lines = [f"{it.label}: {for_people(it)}" for it in told]
    lines += ["", _("Understood as")]
    lines += [f"  {label_of(figure, name)}: {text}" for name, text in answer.understood.items()]
    lines += [_("Worked out")] + [f"  {step}" for step in answer.steps] if answer.steps else []
    lines += [_("Formula") + f": {answer.formula}", _("Source") + f": {answer.source}"]
    lines += [_("Holds for") + f": {bound}" for bound in answer.bounds]
    return [*lines, *answer.cautions, caution()]


def for_people(it: Value) -> str:
    """A value with its unit, in as many significant digits as it declares: `1,320 scf/h`."""
    if isinstance(it.worth, str) or it.worth is None:
        return it.worth or ""
    return f"{honest(it.worth, digits=it.digits)} {it.unit}".strip()


def honest(number: float, *, digits: int) -> str:
    """So many significant digits, written out with no exponent; all of them where `digits` is 0."""
    if not digits or number == 0:
        return f"{number:,}" if isinstance(number, int) else f"{number:,.10g}"
    rounded = float(f"{number:.{digits}g}")
    places = max(0, digits - 1 - int(f"{rounded:e}".partition("e")[2]))
    return f"{rounded:,.{places}f}"


def refusals(complaints: Sequence[Unworkable]) -> list[dict[str, str]]:
    """Each complaint with its field, code, message and hint."""
    told = []
    for it in complaints:
        message, hint = figures.sentence(it.code, it.facts)
        told.append({"field": it.field, "code": it.code, "message": message, "hint": hint})
    return told


def _in_json(worth: float | int | str | None) -> float | int | str | None:
    """Twelve significant digits: more would show how binary numbers round, and nothing of the gas."""
    return float(f"{worth:.12g}") if isinstance(worth, float) else worth


def label_of(figure: Figure, name: str) -> str:
    """What stands above an input, and beside what was taken without being asked; the name itself where it has none."""
    return next((it.label for it in figure.inputs if it.name == name), {"gas": _("Gas")}.get(name, name))
