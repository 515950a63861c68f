"""`grade`: visits of six readings graded, against a bare loop of comparisons over ready numbers."""

from __future__ import annotations

from decimal import Decimal
from random import Random

from repairlog.trade.grading import Found, Reading, Spot, called_for, grader
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, taking_turns, turns_on
from tests.makers.rulebooks import RULEBOOK

AIM = 5.0
PLACES = ("confined_space", "sidewalk", "outside_wall", "street", "bar_hole")
READINGS = 6


def run(_at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: visits."""
    visits = _visits(rows)
    numbers = [[(each.value, next(iter(each.spot.counts_as))) for each in visit.readings] for visit in visits]
    by = grader(RULEBOOK)
    limits = _limits()
    ours = [called.grade.rank if called.grade else 9 for called in (called_for(by, visit) for visit in visits)]
    assert ours == [bare(visit, limits) for visit in numbers]
    taken = taking_turns(
        {
            "ours": lambda _: [called_for(by, visit) for visit in visits],
            "bare": lambda _: [bare(visit, limits) for visit in numbers],
        },
        turns=turns_on(rows),
    )
    return Figure(
        name="grade",
        database=database,
        rows=rows,
        unit="visits/s",
        ours=rows / taken["ours"],
        baseline=rows / taken["bare"],
        ratio=taken["ours"] / taken["bare"],
        aim=AIM,
        what="each reading against each limit of the rulebook, as ready numbers of one unit, and the least rank",
        same_rows=None,
    )


def _visits(how_many: int) -> list[Found]:
    chance = Random(7)  # the same visits each time
    spots = {place: Spot(counts_as=frozenset({place})) for place in PLACES}
    return [
        Found(
            readings=tuple(
                Reading(
                    key=str(number),
                    value=Decimal(chance.choice((0, 0, 5, 15, 45, 85, 120))),
                    unit="%LEL",
                    spot=spots[chance.choice(PLACES)],
                )
                for number in range(READINGS)
            ),
            said=frozenset({"paved_wall_to_wall"}),
        )
        for _ in range(how_many)
    ]


Limit = tuple[str, Decimal, Decimal, int]
"""Place, at least, below, rank of the grade."""


def _limits() -> list[Limit]:
    """The limits of the rulebook on one reading, by hand, in %LEL."""
    most, least = Decimal(10**9), Decimal("1E-9")
    return [
        ("outside_wall", least, most, 1),
        ("confined_space", Decimal(80), most, 1),
        ("small_substructure", Decimal(80), most, 1),
        ("confined_space", Decimal(20), Decimal(80), 2),
        ("sidewalk", Decimal(40), most, 2),
        ("small_substructure", Decimal(80), most, 2),
        ("confined_space", least, Decimal(20), 3),
        ("small_substructure", least, Decimal(80), 3),
        ("bar_hole", Decimal(1000), most, 4),
    ]


def bare(readings: list[tuple[Decimal, str]], limits: list[Limit]) -> int:
    """The least rank, and nothing of why."""
    rank = 9
    for value, where in readings:
        for place, least, below, calls_for in limits:
            if place == where and least <= value < below and calls_for < rank:
                rank = calls_for
    return rank
