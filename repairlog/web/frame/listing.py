"""A plain list: its columns drawn from their heads, one page of its rows, and all of them as a file, by one filter."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from flask import render_template, request
from flask.typing import ResponseReturnValue

from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import store
from repairlog.web.frame.leak_filter import filtered
from repairlog.words import _, of_number
from repairlog.words.days import day
from repairlog.words.times import moment_told

A_PAGE = 50
"""Rows on a page."""


class Rows(Protocol):
    """The rows after that one, or after what stands for it in an address; at most so many, in the asker's scope."""

    def __call__(self, tx: Tx, last: Any | None, /, *, most: int) -> Sequence[Any]: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Filter:
    """What the address of the list asks for. `typed`: what stands in each field, empty ones left out; `wrong`: by
    field, what is said of what could not be read. `texts`: by name of a field to type in, its label and a hint;
    `choices`: by name of a field to choose in, its label and, by code, what is shown."""

    typed: Mapping[str, str] = field(default_factory=dict)
    wrong: Mapping[str, str] = field(default_factory=dict)
    texts: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    choices: Mapping[str, tuple[str, Mapping[str, str]]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """`name`: of the file. `columns`: by the word at its head, what a row has in it; a day as it is stored. `days`:
    heads of those that hold days; `moments`: of those that hold moments, as `times.iso` writes them. `leads`: where the
    first column of a row leads. `rows`: those after that row, at most so many, in the asker's scope. `edge`: how a row
    is named in the address of the page after it; `after`: the row that the address names so, or what stands for it.
    `about`: what the list is; `empty`: what would stand in it."""

    title: str
    name: str
    areas: Sequence[Area]
    columns: Mapping[str, Callable[[Any], str | int]]
    leads: Callable[[Any], str]
    rows: Rows
    edge: Callable[[Any], str] = str
    after: Any = None
    days: Sequence[str] = ()
    moments: Sequence[str] = ()
    of: Filter = field(default_factory=Filter)
    about: str = ""
    empty: str = ""
    ways: Sequence[tuple[str, str]] = ()


def listed(of: Listing) -> ResponseReturnValue:
    """The page of that list; with `as=csv` all its rows as a file, unless some of the filter cannot be read."""
    if csv_wanted() and not of.of.wrong:
        return as_csv(
            name=of.name,
            areas=of.areas,
            columns=of.columns,
            after=lambda tx, last: of.rows(tx, last, most=AT_ONCE),
        )
    with store().reading() as tx:
        found = of.rows(tx, of.after, most=A_PAGE + 1)
    shown, more, at = found[:A_PAGE], len(found) > A_PAGE, request.path
    return render_template(
        "frame/listing.html",
        of=of,
        heads=list(of.columns),
        lines=[(of.leads(row), [_cell(of, head, row) for head in of.columns]) for row in shown],
        count=_count(len(shown), more=more),
        older=filtered(at, of.of.typed, older=of.edge(shown[-1])) if more else "",
        first=filtered(at, of.of.typed) if of.after is not None else "",
        every=at,
        file=csv_address(without=of.of.wrong),
        typed=of.of.typed,
        wrong=of.of.wrong,
    )


def _cell(of: Listing, head: str, row: Any) -> str | int:
    found = of.columns[head](row)
    if not isinstance(found, str) or not found:
        return found
    if head in of.moments:
        return moment_told(found)
    return day(found) if head in of.days else found


def _count(number: int, *, more: bool) -> str:
    if more:
        return _("{number} shown, more follow").format(number=number)
    return of_number("{number} in all", "{number} in all", number=number).format(number=number)
