"""What a columns file declares: which column of a list means what, on which day, and what its words mean."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

KINDS_OF_LIST = ("leaks", "repairs")
ORDERS = ("month day year", "day month year", "year month day")

OPENED = ("house_number", "street", "cross_street", "town", "postal_code", "location", "detected_by")
"""Columns whose cells stand in the entry that opens the leak, under the names of its fields."""

SOURCE = ("part", "component", "material", "size", "pressure", "installed_year", "coating", "defect")
"""Columns about what leaks: with a cell in one of them, the leak gets a source."""

REPAIR = ("lasting", "outcome", "method", "cause", "hole_size", "coating_put_back", "remarks")
"""Columns about the repair. An attempt is made of them where both `lasting` and `outcome` are known."""

FIELD_OF = {"coating_put_back": "coating"}
"""The field of the entry, where a column's role bears another name."""

ROLES = ("number", "address", "reported", "repaired", "grade", "note", *OPENED, *SOURCE, *REPAIR)
"""Everything that a column may mean."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """A column of grades, set on one day (`on`, `YYYY-MM-DD`) or on that of another column (`on_column`); where both
    are empty, on or before the day of the list."""

    column: str
    on: str = ""
    on_column: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """What a cell with that word means. `does`: `nothing` is entered, a `note` is made, `refuse` sends the row back,
    `keep` takes the word as it is, `value` takes another in its place. `rank`: of a grade that has none elsewhere."""

    does: Literal["nothing", "note", "refuse", "keep", "value"]
    value: str = ""
    rank: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """A columns file, read. `of`: the list's column by role. `identity`: the columns that make a leak where the list
    has no number for it. `listed_on`: `YYYY-MM-DD`. `words`: by the word, case folded. `constants`, `repair`: by role,
    what every row of the list says."""

    kind: str
    order: str
    two_digit_years_from: int | None
    listed_on: str
    encoding: str
    separator: str
    identity: tuple[str, ...]
    of: Mapping[str, str]
    grades: tuple[Graded, ...]
    words: Mapping[str, Word]
    constants: Mapping[str, str]
    repair: Mapping[str, str]


def columns_named(of: Columns) -> Iterator[tuple[str, str]]:
    """Every column that the file names, each with the key that names it."""
    yield from ((f"columns.{role}", column) for role, column in of.of.items())
    yield from (("identity", column) for column in of.identity)
    for place, graded in enumerate(of.grades, start=1):
        yield f"grade_on {place}.column", graded.column
        if graded.on_column:
            yield f"grade_on {place}.on_column", graded.on_column
