"""What a benchmark says, and how it is measured: the ways of doing one thing take turns, and medians are compared."""

from __future__ import annotations

import gc
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from statistics import median
from time import perf_counter
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Further:
    """Another figure of the same run. `ratio`: ours to it, or it to the baseline, as `what` says."""

    name: str
    value: float
    ratio: float
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """Ours against a baseline, both in `unit`. `ratio`: how many times the baseline's time ours takes. `aim`: the
    ratio it should not be above. `rows`: the entries it was measured on, as many as were asked for or a few more.
    `same_rows`: both wrote the same rows; None where they only read."""

    name: str
    database: str
    rows: int
    unit: str
    ours: float
    baseline: float
    ratio: float
    aim: float
    what: str
    same_rows: bool | None
    further: tuple[Further, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The same as a plain object."""
        return asdict(self)

    def __str__(self) -> str:
        lines = [
            f"{self.name}, {self.database}, {self.rows} rows",
            f"  ours      {self.ours:12.6g} {self.unit}",
            f"  baseline  {self.baseline:12.6g} {self.unit}: {self.what}",
            f"  ratio     {self.ratio:12.2f} (aim: at most {self.aim:g})",
        ]
        lines += [
            f"  {each.name:9} {each.value:12.6g} {self.unit}, ratio {each.ratio:.2f}: {each.what}"
            for each in self.further
        ]
        if self.same_rows is not None:
            lines.append(f"  the same rows: {'yes' if self.same_rows else 'NO'}")
        return "\n".join(lines)


def turns_on(rows: int) -> int:
    """How many turns make a steady median: many on a small journal, which is done in a moment, few on a large one."""
    return max(3, min(21, 40_000 // rows))


def taking_turns(ways: Mapping[str, Callable[[int], object]], *, turns: int) -> dict[str, float]:
    """Median seconds of each way over its turns; a turn runs every way once, each time another one first.

    What was made before is kept out of the garbage collector's way, so that none of them pays for it.
    """
    names = list(ways)
    seconds: dict[str, list[float]] = {name: [] for name in names}
    gc.collect()
    gc.freeze()
    try:
        for turn in range(turns):
            first = turn % len(names)
            for name in (*names[first:], *names[:first]):
                began = perf_counter()
                ways[name](turn)
                seconds[name].append(perf_counter() - began)
    finally:
        gc.unfreeze()
    return {name: median(taken) for name, taken in seconds.items()}
