"""`flow`: gas through holes from ready numbers, against the same formula in a bare loop; and one answer from text."""

from __future__ import annotations

from math import pi, sqrt
from random import Random
from statistics import median
from time import perf_counter

from repairlog.figures.asked import asked
from repairlog.figures.flow import FLOW
from repairlog.trade.flow import mass_flow
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further, taking_turns

AIM = 2.0
MOST_MS = 1.0
USUAL = 100_000
GAS_CONSTANT = 8.31446261815324
OUTSIDE, TEMPERATURE, MOLAR_MASS, K = 101_325.0, 288.15, 0.0160428, 1.3
TEXT = {"hole": "3/16 in", "pressure": "60 psi", "temperature": "59 F", "duration": "6 h"}

Hole = tuple[float, float]
"""Area (m2) and the pressure inside (Pa absolute)."""


def run(_at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: evaluations, three in four of them choked."""
    chance = Random(20260305)
    holes = [(pi / 4 * chance.uniform(0.0005, 0.006) ** 2, OUTSIDE + chance.uniform(0, 4e5)) for _ in range(rows)]
    found, bare = ours(holes), by_hand(holes)
    seconds = taking_turns({"ours": lambda _turn: ours(holes), "bare": lambda _turn: by_hand(holes)}, turns=7)
    from_text = _from_text()
    return Figure(
        name="flow",
        database=database,
        rows=rows,
        unit="us an evaluation",
        ours=seconds["ours"] / rows * 1e6,
        baseline=seconds["bare"] / rows * 1e6,
        ratio=seconds["ours"] / seconds["bare"],
        aim=AIM,
        what="the same two formulas written out in one loop",
        same_rows=all(abs(a - b) <= 1e-12 * b for a, b in zip(found, bare, strict=True)),
        further=(
            Further(
                name="from text",
                value=from_text * 1e6,
                ratio=from_text * 1e3 / MOST_MS,
                what=f"one answer from what a person types, against {MOST_MS:g} ms",
            ),
        ),
    )


def ours(holes: list[Hole]) -> list[float]:
    """kg/s of each hole."""
    return [
        mass_flow(
            area=area,
            inside=inside,
            outside=OUTSIDE,
            temperature=TEMPERATURE,
            molar_mass=MOLAR_MASS,
            k=K,
            discharge=1.0,
            z=1.0,
        )
        for area, inside in holes
    ]


def by_hand(holes: list[Hole]) -> list[float]:
    """The same, with nothing asked and nothing called."""
    found = []
    for area, inside in holes:
        r = OUTSIDE / inside
        if r <= (2 / (K + 1)) ** (K / (K - 1)):
            m = area * inside * sqrt(K * MOLAR_MASS / (GAS_CONSTANT * TEMPERATURE))
            found.append(m * (2 / (K + 1)) ** ((K + 1) / (2 * (K - 1))))
        else:
            m = 2 * MOLAR_MASS / (GAS_CONSTANT * TEMPERATURE) * K / (K - 1) * (r ** (2 / K) - r ** ((K + 1) / K))
            found.append(area * inside * sqrt(m))
    return found


def _from_text() -> float:
    times = []
    for _turn in range(50):
        began = perf_counter()
        read, _complaints = asked(FLOW, TEXT)
        assert read is not None
        FLOW.work(read)
        times.append(perf_counter() - began)
    return median(times)
