"""Tape and sheets around pipe: how many layers, how long, how thick. Inches throughout."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import asin, ceil, cos, floor, pi

from repairlog.trade.unworkable import Unworkable

BODY, COVERED, TURNS = "body", "covered", "turns"
"""How far a pass goes: over the length alone; until both ends are fully covered; with a plain turn at each end."""

_LOST = Fraction(1, 10**30)  # of a fraction such as 5/6 written in forty decimals
_SLACK = 1e-9  # of a roll or a band, lost to binary numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass of the helix, at the diameter of its middle line. Inches."""

    across: float
    pitch: float
    turn_length: float
    turns: float

    @property
    def tape_length(self) -> float:
        """Tape in its helical turns."""
        return self.turns * self.turn_length


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrap:
    """Tape wound in passes. `layers_*` and `turns`: over all passes; `plain_turns`: those of them at the ends, on bare
    pipe. `tape_length` and `final_od` in inches."""

    layers_least: int
    layers_mean: float
    passes: tuple[Pass, ...]
    plain_turns: int
    turns: float
    tape_length: float
    final_od: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """Sheets laid around in bands. Inches."""

    bands: int
    length_per_band: float
    length: float
    final_od: float


def layers_at_least(overlap: Fraction) -> int:
    """Layers that every point of the pipe has after one pass: 2 at one half, 3 at two thirds, and still 2 at 55 %."""
    return floor(1 / (1 - overlap) + _LOST)


def helical(
    *, od: float, width: float, overlap: Fraction, length: float, passes: int, thickness: float, ends: str
) -> Wrap:
    """Tape of `width` wound over `length` of pipe, `overlap` of its width over the turn before, square to its edge.

    `thickness` lets each pass lie on the one before. `ends`: BODY, COVERED or TURNS. Raises `tape_too_wide`,
    `too_short_to_cover`. Source: geometry of the helix: sin a = w (1-o) / (pi D), pitch w (1-o) / cos a, so that a pass
    takes pi D L / (w (1-o)) exactly; a pass is t / (1-o) thick on the average.
    """
    open_share = float(1 - overlap)
    advance, growth = width * open_share, thickness / open_share
    if advance >= pi * od:
        raise Unworkable("tape_too_wide", field="tape_width", got=f"{width:g} in", most=f"{od:g} in")
    if ends == COVERED and length < width:
        raise Unworkable("too_short_to_cover", field="length", got=f"{length:g} in", least=f"{width:g} in")
    beyond = 2 - 1 / open_share if ends == COVERED else 0.0
    wound = tuple(
        _pass(od + (2 * done + 1) * growth, advance=advance, length=length, beyond=beyond) for done in range(passes)
    )
    plain = 2 * passes if ends == TURNS else 0
    return Wrap(
        layers_least=layers_at_least(overlap) * passes,
        layers_mean=passes / open_share,
        passes=wound,
        plain_turns=plain,
        turns=sum(it.turns for it in wound) + plain,
        tape_length=sum(it.tape_length for it in wound) + plain * pi * od,
        final_od=od + 2 * passes * growth,
    )


def sheets(*, od: float, width: float, lap: float, layers: int, length: float, thickness: float) -> Sheets:
    """Sheets of `width` around the pipe, `layers` of them in a band, bands lapping by `lap` along the pipe.

    Raises `outside` for a lap as wide as the sheet. Source: circles of growing diameter, pi n (D + n t) a band.
    """
    if lap >= width:
        raise Unworkable("lap_too_wide", field="lap", got=f"{lap:g} in", most=f"{width:g} in")
    bands = max(1, ceil((length - lap) / (width - lap) - _SLACK))
    around = pi * layers * (od + layers * thickness)
    return Sheets(bands=bands, length_per_band=around, length=bands * around, final_od=od + 2 * layers * thickness)


def roll_length(*, od: float, core_od: float, thickness: float) -> float:
    """Inches of tape on a roll; raises `core_too_wide`. Source: area of the ring over the thickness."""
    if core_od >= od:
        raise Unworkable("core_too_wide", field="roll_core_od", got=f"{core_od:g} in", most=f"{od:g} in")
    return pi * (od**2 - core_od**2) / (4 * thickness)


def rolls(need: float, *, roll: float, splice: float) -> int:
    """Rolls of that length for so much tape, each after the first losing a splice; raises `splice_too_long`."""
    if splice >= roll:
        raise Unworkable("splice_too_long", field="splice", got=f"{splice:g} in", most=f"{roll:g} in")
    return max(1, ceil((need - splice) / (roll - splice) - _SLACK))


def _pass(across: float, *, advance: float, length: float, beyond: float) -> Pass:
    slope = cos(asin(advance / (pi * across)))
    return Pass(
        across=across, pitch=advance / slope, turn_length=pi * across / slope, turns=length * slope / advance + beyond
    )
