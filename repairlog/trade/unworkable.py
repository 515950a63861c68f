"""A figure that cannot be worked out from what was given."""

from __future__ import annotations


class Unworkable(Exception):
    """Refused, because a number would be wrong: `field` names the input, `code` and `facts` (texts) say why.

    `field` is empty where no single input is at fault. The sentence of a code stands in `repairlog.words.figures`.
    """

    def __init__(self, code: str, *, field: str = "", **facts: str) -> None:
        super().__init__(code, field, facts)
        self.code = code
        self.field = field
        self.facts = facts

    def __str__(self) -> str:
        told = ", ".join(f"{name} {value!r}" for name, value in self.facts.items())
        return ": ".join(filter(None, (self.field, self.code, told)))


def within(value: float, *, field: str, least: float, most: float, unit: str = "") -> float:
    """The value, if it lies between the ends, which count; else raises `outside`."""
    if not least <= value <= most:
        raise Unworkable(
            "outside",
            field=field,
            got=f"{value:.6g} {unit}".strip(),
            least=f"{least:g} {unit}".strip(),
            most=f"{most:g} {unit}".strip(),
        )
    return value


def above_zero(value: float, *, field: str) -> float:
    """The value, if it is above zero; else raises `not_above_zero`."""
    if not value > 0:
        raise Unworkable("not_above_zero", field=field, got=f"{value:g}")
    return value
