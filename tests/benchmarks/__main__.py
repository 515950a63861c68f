"""Benchmarks: `python -m tests.benchmarks NAME [--database sqlite|postgresql] [--rows N] [--json]`.

Each compares RepairLog with the barest way of doing the same, in one run, and says what that was. They are no tests:
figures differ from machine to machine, and what counts is the ratio.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence

from tests.benchmarks import grading, importing, intervals, leaks_page, post, post_many, rebuilding, verifying
from tests.benchmarks.databases import place
from tests.benchmarks.figure import Figure

BENCHMARKS: dict[str, Callable[..., Figure]] = {
    "post": post.run,
    "post-many": post_many.run,
    "rebuild": rebuilding.run,
    "verify": verifying.run,
    "import": importing.run,
    "leaks-page": leaks_page.run,
    "grade": grading.run,
    "intervals": intervals.run,
}
DATABASES = ("sqlite", "postgresql")


def main(arguments: Sequence[str] | None = None) -> None:
    """Run what was asked for and print a figure each; with `--json` an object a line."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description="RepairLog against the bare driver")
    parser.add_argument("name", choices=[*BENCHMARKS, "all"])
    parser.add_argument("--database", choices=DATABASES, default="sqlite")
    parser.add_argument("--rows", type=int, default=2000, help="entries to measure on (2000)")
    parser.add_argument("--json", action="store_true", help="an object a line")
    asked = parser.parse_args(arguments)
    for name in BENCHMARKS if asked.name == "all" else [asked.name]:
        figure = measured(name, database=asked.database, rows=asked.rows)
        print(json.dumps(figure.as_json()) if asked.json else figure, flush=True)


def measured(name: str, *, database: str, rows: int) -> Figure:
    """One benchmark on databases of its own."""
    with place(database) as at:
        return BENCHMARKS[name](at, database=database, rows=rows)


if __name__ == "__main__":
    main()
