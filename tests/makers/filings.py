"""Lists that nobody here invented, where REPAIRLOG_FILINGS names a folder that holds them.

Nothing of them stands here: a columns file is made from the header of each, by the place of its columns.
"""

from __future__ import annotations

import csv
import json
import os
import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.house.demanded import NOBODY_INSTALLS

FILINGS = "REPAIRLOG_FILINGS"


@dataclass(frozen=True, kw_only=True)
class Filing:
    """A real list: how many rows it has, the roles of its columns by place, and which of them are classes on days."""

    name: str
    rows: int
    kind: str
    listed_on: str
    roles: dict[str, int]
    identity: tuple[int, ...] = ()
    classes: tuple[int, ...] = ()
    graded_on: tuple[tuple[int, int], ...] = ()
    order: str = "month day year"


A = {"number": 0, "address": 1, "cross_street": 2, "town": 3, "reported": 4}
B = {"address": 1, "town": 2, "cross_street": 3}
REPAIRED = Filing(
    name="a-2016-repaired.csv",
    rows=5855,
    kind="repairs",
    listed_on="2016-12-31",
    roles={**A, "repaired": 8},
    classes=(5, 6),
    graded_on=((7, 8),),
)
OTHERS = (
    Filing(
        name="a-2016-open.csv",
        rows=8788,
        kind="leaks",
        listed_on="2016-12-31",
        roles={**A, "note": 8},
        classes=(5, 6, 7),
    ),
    *(
        Filing(
            name=f"b-{year}-open.csv",
            rows=rows,
            kind="leaks",
            listed_on=f"{year}-12-31",
            roles=B,
            identity=(1, 2, 3, 4),
            graded_on=((5, 4),),
            order=order,
        )
        for year, rows, order in ((2014, 3921, "month day year"), (2015, 3618, "day month year"))
    ),
    *(
        Filing(
            name=f"b-{year}-repaired.csv",
            rows=rows,
            kind="repairs",
            listed_on=f"{year}-12-31",
            roles={**B, "repaired": 4, "grade": 5},
            identity=(1, 2, 3, 4, 5),
            order=order,
        )
        for year, rows, order in ((2014, 2063, "month day year"), (2015, 2029, "day month year"))
    ),
)


def folder() -> Path:
    if FILINGS not in os.environ:
        pytest.skip(NOBODY_INSTALLS)
    return Path(os.environ[FILINGS])


def columns_of(filing: Filing) -> str:
    """A columns file for it. The word that most rows have in place of a class says that there was no leak yet."""
    with (folder() / filing.name).open(encoding="utf-8-sig", newline="") as file:
        header, *rows = csv.reader(file)
    words = Counter(
        row[place] for row in rows for place in filing.classes if not re.fullmatch(r"\d[A-Z]?|", row[place])
    )
    lines = [
        f'kind = "{filing.kind}"',
        f"identity = {json.dumps([header[place] for place in filing.identity] or 'number')}",
        f'dates = {{ order = "{filing.order}", two_digit_years_from = 1950 }}',
        f"listed_on = {filing.listed_on}",
        "[columns]",
        *(f"{role} = {json.dumps(header[place])}" for role, place in filing.roles.items()),
    ]
    for place, year in zip(filing.classes, (2015, 2016, 2017), strict=False):
        lines += ["[[grade_on]]", f"column = {json.dumps(header[place])}", f"on = {year}-05-15"]
    for place, day in filing.graded_on:
        lines += ["[[grade_on]]", f"column = {json.dumps(header[place])}", f"on_column = {json.dumps(header[day])}"]
    lines += ["[words]", '"2A" = { keep = true, rank = 2 }']
    lines += [f'{json.dumps(word)} = "no entry"' for word, _count in words.most_common(1)]
    return "\n".join(lines)
