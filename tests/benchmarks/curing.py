"""`cure-log`: a log of temperatures, read from its text and worked out, against a bare loop over the same lines."""

from __future__ import annotations

from math import exp
from random import Random

from repairlog.figures.temperature_log import read_log
from repairlog.trade.cure import checked_log, equivalent_hours
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further, taking_turns

AIM = 2.0
USUAL = 365 * 24 * 60
REFERENCE, Q = 20.0, 5000.0


def run(_at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: readings, one a minute."""
    chance = Random(20260305)
    text = "hours,temperature\n" + "".join(f"{it / 60:.5f},{chance.uniform(-5, 35):.1f}\n" for it in range(rows))
    numbers = read_log(text, zone=None)
    found, bare = ours(text), by_hand(text)
    seconds = taking_turns(
        {
            "ours": lambda _turn: ours(text),
            "bare": lambda _turn: by_hand(text),
            "numbers": lambda _turn: equivalent_hours(numbers.hours, numbers.celsius, reference=REFERENCE, q=Q),
            "bare numbers": lambda _turn: summed(numbers.hours, numbers.celsius),
        },
        turns=5,
    )
    return Figure(
        name="cure-log",
        database=database,
        rows=rows,
        unit="us a reading",
        ours=seconds["ours"] / rows * 1e6,
        baseline=seconds["bare"] / rows * 1e6,
        ratio=seconds["ours"] / seconds["bare"],
        aim=AIM,
        what="each line split and summed in one loop, with nothing looked at",
        same_rows=abs(found - bare) <= 1e-9 * bare,
        further=(
            Further(
                name="numbers",
                value=seconds["numbers"] / rows * 1e6,
                ratio=seconds["numbers"] / seconds["bare numbers"],
                what="from ready numbers, against a bare loop over them",
            ),
        ),
    )


def ours(text: str) -> float:
    """Equivalent hours of the log."""
    log = read_log(text, zone=None)
    checked_log(log.hours, log.celsius)
    return equivalent_hours(log.hours, log.celsius, reference=REFERENCE, q=Q)


def by_hand(text: str) -> float:
    """The same, with nothing looked at."""
    total, at, temperature = 0.0, None, 0.0
    for line in text.splitlines()[1:]:
        hours, _comma, celsius = line.partition(",")
        now = float(hours)
        if at is not None:
            total += exp(-Q * (1 / (temperature + 273.15) - 1 / (REFERENCE + 273.15))) * (now - at)
        at, temperature = now, float(celsius)
    return total


def summed(hours: list[float], celsius: list[float]) -> float:
    """The bare loop over ready numbers."""
    total = 0.0
    for place in range(len(hours) - 1):
        factor = exp(-Q * (1 / (celsius[place] + 273.15) - 1 / (REFERENCE + 273.15)))
        total += factor * (hours[place + 1] - hours[place])
    return total
