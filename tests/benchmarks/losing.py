"""`loss`: what each of many leaks lost over its life, against a bare loop over the same rates and hours."""

from __future__ import annotations

from random import Random

from repairlog.trade.loss import Segment, volume_scf
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, taking_turns

AIM = 5.0
USUAL = 100_000
KG_PER_SCF = 0.0192


def run(_at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: leaks, of one to five segments each."""
    chance = Random(20260305)
    plain = [
        [(chance.uniform(0.1, 60), chance.uniform(1, 4000)) for _ in range(chance.randint(1, 5))] for _ in range(rows)
    ]
    histories = [[Segment(rate_scfh=rate, hours=hours) for rate, hours in each] for each in plain]
    found, bare = ours(histories), by_hand(plain)
    seconds = taking_turns({"ours": lambda _turn: ours(histories), "bare": lambda _turn: by_hand(plain)}, turns=7)
    return Figure(
        name="loss",
        database=database,
        rows=rows,
        unit="us a leak",
        ours=seconds["ours"] / rows * 1e6,
        baseline=seconds["bare"] / rows * 1e6,
        ratio=seconds["ours"] / seconds["bare"],
        aim=AIM,
        what="the same sums over pairs of numbers, in one loop",
        same_rows=found == bare,
    )


def ours(histories: list[list[Segment]]) -> list[float]:
    """Methane of each leak, kg."""
    return [volume_scf(each) * KG_PER_SCF for each in histories]


def by_hand(histories: list[list[tuple[float, float]]]) -> list[float]:
    """The same from bare pairs."""
    found = []
    for each in histories:
        volume = 0.0
        for rate, hours in each:
            volume += rate * hours
        found.append(volume * KG_PER_SCF)
    return found
