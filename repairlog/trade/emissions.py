"""Methane in a year by factors, and by what was measured."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.unworkable import Unworkable

HOURS = 8760
"""In every year. Source: 40 CFR 98.233 (r), population and leaker factors."""

BY_VOLUME, BY_MASS = "scf CH4/h/", "kg CH4/"


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """What one of something counts as. `unit`: `scf CH4/h/mile` and the like, or `kg CH4/mile/yr`."""

    group: str
    name: str
    value: float
    unit: str
    mark: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """So many of something by its factor; `methane_kg` in the year."""

    factor: Factor
    count: float
    methane_kg: float


def by_factor(factor: Factor, *, count: float, kg_per_scf: float) -> Part:
    """Methane of so many in a year; ValueError for a unit that no factor may have."""
    if factor.unit.startswith(BY_VOLUME):
        each = factor.value * HOURS * kg_per_scf
    elif factor.unit.startswith(BY_MASS) and factor.unit.endswith("/yr"):
        each = factor.value
    else:
        raise ValueError(factor.unit)
    return Part(factor=factor, count=count, methane_kg=count * each)


def factor_of(factors: tuple[Factor, ...], *, group: str, name: str) -> Factor:
    """The factor of that name, however it is written; raises `no_such_factor`."""
    wanted = _plain(name)
    for it in factors:
        if it.group == group and _plain(it.name) == wanted:
            return it
    known = ", ".join(it.name for it in factors if it.group == group)
    raise Unworkable("no_such_factor", got=name[:80], would_have=known or "-")


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("_", " ").replace("-", " ").split())
