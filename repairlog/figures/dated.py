"""Dated data that figures rest on, read from config/: potentials, densities, factors, pipe."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from typing import Any

from repairlog import shipped
from repairlog.trade.unworkable import Unworkable


@dataclass(frozen=True, slots=True, kw_only=True)
class Potential:
    """Tonnes of carbon dioxide that a tonne of methane counts as, and on whose word."""

    value: float
    basis: str
    source: str
    mark: str
    from_year: int


def potential(year: int | None) -> Potential:
    """The global warming potential of methane for reports of that year; the newest for None. Raises `gwp_unknown`."""
    known = [Potential(**{**row, "value": float(row["value"])}) for row in table("emissions/gwp.toml")["gwp"]]
    known.sort(key=lambda it: it.from_year)
    fit = [it for it in known if year is None or it.from_year <= year]
    if not fit:
        raise Unworkable("gwp_unknown", field="year", got=str(year), least=str(known[0].from_year))
    return fit[-1]


def methane_kg_per_ft3() -> float:
    """Mass of a standard cubic foot of methane in the accounting of greenhouse gases."""
    return float(table("emissions/methane.toml")["density"]["kg_per_ft3"])


@cache
def table(name: str) -> dict[str, Any]:
    """A file of config/, as it was when it was first asked for."""
    with (shipped.config() / name).open("rb") as file:
        return tomllib.load(file)
