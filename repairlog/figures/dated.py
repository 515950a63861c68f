"""Dated data that figures rest on, read from config/: potentials, densities, factors, pipe."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import Any

from repairlog import shipped
from repairlog.trade.emissions import Factor, by_factor
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
    with _told_of("emissions/gwp.toml"):
        known = [Potential(**{**row, "value": float(row["value"])}) for row in table("emissions/gwp.toml")["gwp"]]
        known.sort(key=lambda it: it.from_year)
    fit = [it for it in known if year is None or it.from_year <= year]
    if not fit:
        raise Unworkable("gwp_unknown", field="year", got=str(year), least=str(known[0].from_year))
    return fit[-1]


def methane_kg_per_ft3() -> float:
    """Mass of a standard cubic foot of methane in the accounting of greenhouse gases."""
    return float(table("emissions/methane.toml")["density"]["kg_per_ft3"])


@dataclass(frozen=True, slots=True, kw_only=True)
class Threshold:
    """How much gas lost is to be reported: standard cubic feet, in whose words and clause."""

    cubic_feet: float
    says: str
    clause: str
    source: str
    mark: str


def report_threshold() -> Threshold:
    """From how much gas on a release is an incident; raises `file_unreadable`."""
    with _told_of("reports/gas_lost.toml"):
        told = table("reports/gas_lost.toml")["threshold"]
        return Threshold(**{**told, "cubic_feet": float(told["cubic_feet"])})


def factor_tables() -> tuple[str, ...]:
    """The ids of the factor tables: the names of the files in config/emissions that hold factors."""
    names = sorted(it.stem for it in (shipped.config() / "emissions").glob("*.toml"))
    return tuple(name for name in names if name not in ("gwp", "methane"))


def factors(id_: str) -> tuple[Factor, ...]:
    """The factors of a table; raises `not_a_choice`, `file_unreadable`."""
    with _told_of(f"emissions/{id_}.toml"):
        found = tuple(Factor(**{**row, "value": float(row["value"])}) for row in _named(id_)["factor"])
        for it in found:
            by_factor(it, count=1, kg_per_scf=1)  # a unit that no factor may have is the file's mistake
    return found


def is_for(id_: str, *, year: int) -> bool:
    """Whether a factor table is the one of that year."""
    with _told_of(f"emissions/{id_}.toml"):
        named = _named(id_)
        return bool(named["from_year"] <= year <= named.get("to_year", year))


def _named(id_: str) -> dict[str, Any]:
    known = factor_tables()
    if id_ not in known:
        raise Unworkable("not_a_choice", field="factors", got=id_[:80], would_have=", ".join(known))
    return table(f"emissions/{id_}.toml")


@contextmanager
def _told_of(name: str) -> Iterator[None]:
    """What is missing or wrong in a file that an operator may write becomes `file_unreadable`, which names it."""
    try:
        yield
    except (KeyError, TypeError, ValueError) as error:
        raise Unworkable("file_unreadable", got=f"config/{name}", other=f"{error}"[:200]) from None


@cache
def table(name: str) -> dict[str, Any]:
    """A file of config/, as it was when it was first asked for; raises `file_unreadable`."""
    with _told_of(name), (shipped.config() / name).open("rb") as file:
        return tomllib.load(file)  # a mistake in it is a ValueError
