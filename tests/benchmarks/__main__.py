"""Benchmarks: `python -m tests.benchmarks NAME [--database sqlite|postgresql] [--rows N] [--json]`.

Each compares RepairLog with the barest way of doing the same, in one run, and says what that was. They are no tests:
figures differ from machine to machine, and what counts is the ratio.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence

from tests.benchmarks import (
    curing,
    flowing,
    grading,
    importing,
    intervals,
    leaks_page,
    losing,
    post,
    post_many,
    ready_rows,
    rebuilding,
    verifying,
)
from tests.benchmarks.databases import place
from tests.benchmarks.figure import Figure

BENCHMARKS: dict[str, Callable[..., Figure]] = {
    "post": post.run,
    "post-many": post_many.run,
    "rebuild": rebuilding.run,
    "verify": verifying.run,
    "import": importing.run,
    "leaks-page": leaks_page.run,
    "today-page": ready_rows.run_today,
    "sheet-page": ready_rows.run_sheet,
    "grade": grading.run,
    "intervals": intervals.run,
    "flow": flowing.run,
    "loss": losing.run,
    "cure-log": curing.run,
}
USUAL_ROWS = {
    "today-page": 100,
    "sheet-page": 100,
    "flow": flowing.USUAL,
    "loss": losing.USUAL,
    "cure-log": curing.USUAL,
}
"""Of what each is measured on where nothing is asked; 2,000 for the others."""

DATABASES = ("sqlite", "postgresql")


def main(arguments: Sequence[str] | None = None) -> None:
    """Run what was asked for and print a figure each; with `--json` an object a line."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description="RepairLog against the bare driver")
    parser.add_argument("name", choices=[*BENCHMARKS, "all"])
    parser.add_argument("--database", choices=DATABASES, default="sqlite")
    parser.add_argument("--rows", type=int, help="entries, or what else it counts, to measure on")
    parser.add_argument("--json", action="store_true", help="an object a line")
    asked = parser.parse_args(arguments)
    for name in BENCHMARKS if asked.name == "all" else [asked.name]:
        figure = measured(name, database=asked.database, rows=asked.rows or USUAL_ROWS.get(name, 2000))
        print(json.dumps(figure.as_json()) if asked.json else figure, flush=True)


def measured(name: str, *, database: str, rows: int) -> Figure:
    """One benchmark on databases of its own."""
    with place(database) as at:
        return BENCHMARKS[name](at, database=database, rows=rows)


if __name__ == "__main__":
    main()
