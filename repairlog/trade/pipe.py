"""Pipe: how it is stressed, what it is designed for, and what it is tested to. Inches and psi throughout."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.unworkable import Unworkable


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """Outside diameter and wall, in inches."""

    od: float
    wall: float

    @property
    def inside(self) -> float:
        """Inside diameter, in inches."""
        return self.od - 2 * self.wall


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """For operating pressures from `from_psig` and above `above_psig`, to `to_psig` and below `below_psig`, where said:
    the test is at least `psig`, and at least `times` the operating pressure."""

    psig: float
    times: float = 0.0
    from_psig: float | None = None
    above_psig: float | None = None
    to_psig: float | None = None
    below_psig: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TestClause:
    """What a clause asks of a test, and of which lines it speaks. Empty `duration`: the clause does not say."""

    id: str
    materials: tuple[str, ...]
    lines: tuple[str, ...]
    source: str
    mark: str
    bands: tuple[Band, ...] = ()
    from_psig: float | None = None
    below_psig: float | None = None
    least_percent_smys: float | None = None
    below_percent_smys: float | None = None
    duration: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line that is to be tested. `percent_smys`: None where it is not known."""

    material: str
    psig: float
    percent_smys: float | None


def sound(pipe: Pipe) -> Pipe:
    """The pipe, if there can be such a one; raises `wall_too_thick`."""
    if pipe.inside <= 0:
        raise Unworkable("wall_too_thick", field="wall", got=f"{pipe.wall:g} in", most=f"{pipe.od:g} in")
    return pipe


def hoop_stress(pipe: Pipe, *, psig: float) -> float:
    """Psi. Source: Barlow's formula with the outside diameter, P D / (2 t)."""
    return psig * pipe.od / (2 * pipe.wall)


def steel_design_pressure(
    pipe: Pipe, *, smys: float, design_factor: float, joint_factor: float, temperature_factor: float
) -> float:
    """Psi gauge. Source: 49 CFR 192.105 (a), P = (2 S t / D) F E T."""
    return 2 * smys * pipe.wall / pipe.od * design_factor * joint_factor * temperature_factor


def plastic_design_pressure(*, hdb: float, sdr: float, design_factor: float) -> float:
    """Psi gauge; `hdb` at the design temperature. Source: 49 CFR 192.121 (a), P = 2 S / (SDR - 1) DF."""
    return 2 * hdb / (sdr - 1) * design_factor


def clause_for(line: Line, kind: str, *, clauses: tuple[TestClause, ...]) -> TestClause:
    """The clause that speaks of such a line; raises `no_clause`."""
    for it in clauses:
        if kind in it.lines and not _why_not(it, line):
            return it
    raise Unworkable("no_clause", field="line", got=f"{line.material} {kind}", most=f"{line.psig:g} psi")


def least_test(clause: TestClause, line: Line) -> float:
    """Psi gauge, at least. Raises `clause_not_for` where the clause speaks of other lines, `no_test_pressure` where it
    gives no number for this one."""
    if reason := _why_not(clause, line):
        raise Unworkable("clause_not_for", field="test_clause", got=clause.id, other=reason)
    for band in clause.bands:
        if _in_band(line.psig, band):
            return max(band.psig, band.times * line.psig)
    raise Unworkable("no_test_pressure", field="test_clause", got=clause.id, most=f"{line.psig:g} psi")


def _why_not(clause: TestClause, line: Line) -> str:
    """What about the line the clause does not speak of; empty where it does."""
    percent = line.percent_smys
    if line.material not in clause.materials:
        return line.material
    if not _in_band(line.psig, Band(psig=0, from_psig=clause.from_psig, below_psig=clause.below_psig)):
        return f"{line.psig:g} psi"
    if clause.least_percent_smys is not None and (percent is None or percent < clause.least_percent_smys):
        return "-" if percent is None else f"{percent:.3g} % SMYS"
    if clause.below_percent_smys is not None and percent is not None and percent >= clause.below_percent_smys:
        return f"{percent:.3g} % SMYS"
    return ""


def _in_band(psig: float, band: Band) -> bool:
    return (
        (band.from_psig is None or psig >= band.from_psig)
        and (band.above_psig is None or psig > band.above_psig)
        and (band.to_psig is None or psig <= band.to_psig)
        and (band.below_psig is None or psig < band.below_psig)
    )
