"""The frame of every list: its filter, a page of its rows drawn from its columns, and all of them as a file, by one
question to the book."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from typing import Any, Protocol
from urllib.parse import urlencode
from uuid import UUID

from flask import render_template, request
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import Edge
from repairlog.records.store import Tx
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.filters import Asked, day_in
from repairlog.words import _, of_number, times
from repairlog.words.days import day

A_PAGE = 50
"""Rows on a page."""

TOLD_ON_A_PHONE = ("small", "number", "clause", "whom")
"""The kinds of cells that a phone, which shows no heads, tells with the head before them."""

File = Mapping[str, Callable[[Any], str | int]]
"""The columns of a list as a file: by the word at the head, what a row has in it."""


class Rows(Protocol):
    """The rows after that edge, from the first where it is None; at most so many, in the asker's scope."""

    def __call__(self, tx: Tx, edge: Any | None, /, *, most: int) -> Sequence[Any]: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Where a page ends and the next one begins. `edge`: that of a row, as the question to the book takes it; `text`:
    the same as it stands in an address; `read`: that text read back, None for any other."""

    edge: Callable[[Any], Any]
    text: Callable[[Any], str]
    read: Callable[[str], Any | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of the page. `cell`: what a row has in it, as the macro `draw` of `frame/cells.html` takes it; empty
    means text. `kind`: of its cells, as the style knows them. `phone`: what a phone tells before the cell; None: its
    head, where the kind is one that is told. `aloud`: the head is for those who listen alone. `timed`: the cell tells a
    time of day, and is asked for `named=`, whether it names the zone with it. `spare`: the column is left out where no
    row of the page has anything in it."""

    head: str
    cell: Callable[..., Any]
    draw: str = ""
    kind: str | tuple[str, ...] = ()
    phone: str | None = None
    aloud: bool = False
    timed: bool = False
    spare: bool = False

    @property
    def marks(self) -> Markup:
        """The attributes of its cells."""
        kinds = (self.kind,) if isinstance(self.kind, str) else self.kind
        told = self.phone if self.phone is not None else self.head.lower()
        told = told if self.phone or set(kinds) & set(TOLD_ON_A_PHONE) else ""
        kind = Markup(' class="{}"').format(" ".join(kinds)) if kinds else Markup()
        return kind + (Markup(' data-head="{}"').format(told) if told else Markup())


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Text that leads to `address`; to nowhere where that is empty. `before`: what is above it; `small`: beside it."""

    text: str
    address: str = ""
    before: str = ""
    small: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """A list. `name`: of its file. `of`: what the address asks for. `columns`: those of the file, and of the page where
    `shown` has none; of those, `days` and `moments` (as `times.iso` writes them) are heads, and `leads` is where the
    first leads. `rows`: those after an edge; `order`: where pages end; `back`: whether the book can be asked for the
    page before, too. `group`: a row's heading, told where it changes. `looks`: a row's class. `zone`: of the time of
    day that a row tells, empty where it tells none. `style`: the table's class.

    `does`: what may be entered, by name and address, the first the foremost; `ways`: what else the list leads to;
    `takes`: what else can be done with what is shown. `counted`: so many in words; `as_of`: the day that is looked at.
    `about`: what the list is; `nothing_fits`, `nothing_yet`: that nothing stands here; `empty`: what would.
    `live`: whether the list follows what is typed. `around`: what a template that draws more than the list needs, asked
    for where a page is drawn alone; `template`: its name."""

    title: str
    name: str
    columns: File
    rows: Rows
    order: Order
    shown: Sequence[Column] = ()
    of: Asked = field(default_factory=Asked)
    leads: Callable[[Any], str] = lambda _row: ""
    days: Sequence[str] = ()
    moments: Sequence[str] = ()
    back: bool = False
    group: Callable[[Any], str] | None = None
    looks: Callable[[Any], str] | None = None
    zone: Callable[[Any], str] | None = None
    style: str = ""
    does: list[tuple[str, str]] = field(default_factory=list)
    ways: list[tuple[str, str]] = field(default_factory=list)
    takes: Sequence[tuple[str, str]] = ()
    counted: Callable[[int], str] | None = None
    as_of: str = ""
    about: str = ""
    nothing_fits: str = ""
    nothing_yet: str = ""
    empty: str = ""
    live: bool = True
    around: Callable[[Tx, Sequence[Any]], Mapping[str, Any]] | None = None
    template: str = "frame/listing.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page of rows. `first`, `before`, `further`: addresses of the first page and of those beside this one, empty
    where there is none."""

    rows: Sequence[Any]
    first: str
    before: str
    further: str


def listed(tx: Tx, of: Listing) -> ResponseReturnValue:
    """The page of that list; with `as=csv` all its rows as a file, unless some of the filter cannot be read."""
    if csv_wanted() and not of.of.wrong:

        def after(last: Any | None) -> Sequence[Any]:
            return of.rows(tx, of.order.edge(last) if last is not None else None, most=AT_ONCE)

        return as_csv(name=of.name, areas=of.of.areas, columns=of.columns, after=after)
    edge = edge_in(of.order, back=of.back)
    page = paged(of.rows(tx, edge, most=A_PAGE + 1), order=of.order, edge=edge, most=A_PAGE, typed=of.of.typed)
    around = of.around(tx, page.rows) if of.around else {}
    zones = {of.zone(row) for row in page.rows} - {""} if of.zone else set()
    columns = [each for each in of.shown or _plain(of) if not each.spare or any(map(each.cell, page.rows))]
    shown = {
        "of": of,
        "page": page,
        "rows": page.rows,
        "columns": drawn(columns, named=len(zones) > 1),
        "times": times.said_once(zones),
        "count": _count(of, len(page.rows), more=bool(page.further)),
        "at": request.path,
        "file": csv_address(without=of.of.wrong),
    }
    return render_template(of.template, **{**shown, **around})


def drawn(columns: Sequence[Column], *, named: bool = False) -> list[tuple[Column, Callable[[Any], Any], Markup]]:
    """The columns as `frame/table.html` takes them. `named`: whether times of day name their zone."""
    return [(each, partial(each.cell, named=named) if each.timed else each.cell, each.marks) for each in columns]


def paged(rows: Sequence[Any], *, order: Order, edge: Any | None, most: int, typed: Mapping[str, str]) -> Page:
    """The page of these rows, of which one more than `most` was asked for. `typed`: the filter, which stays."""
    more = len(rows) > most
    upwards = getattr(edge, "towards", "") == "newer"
    on_page = rows[-most:] if upwards else rows[:most]
    before, further = (more, True) if upwards else (edge is not None and hasattr(edge, "towards"), more)

    def beside(towards: str, row: Any) -> str:
        return filtered(request.path, typed, **{towards: order.text(row)})

    return Page(
        rows=on_page,
        first=filtered(request.path, typed) if edge is not None else "",
        before=beside("newer", on_page[0]) if before and on_page else "",
        further=beside("older", on_page[-1]) if further and on_page else "",
    )


def edge_in(order: Order, *, back: bool = False) -> Any | None:
    """Where the page of this address begins, `older=` or, with `back`, `newer=`; None on the first page, and for any
    text that is none."""
    if (edge := order.read(request.args.get("older", ""))) is not None or not back:
        return edge
    edge = order.read(request.args.get("newer", ""))
    return replace(edge, towards="newer") if edge is not None else None


def by_day(of: Callable[[Any], tuple[str, UUID]], *, make: Callable[[date, UUID], Any] = Edge) -> Order:
    """In the order of days, `DAY.ID` in an address. `of`: the day and the id of a row; `make`: the edge of both."""

    def read(text: str) -> Any | None:
        day_text, _dot, id_text = text.partition(".")
        on, id = day_in(day_text), as_id(id_text)
        return make(on, id) if on and id else None

    def edge(row: Any) -> Any:
        on, id = of(row)
        return make(date.fromisoformat(on), id)

    return Order(edge=edge, text=lambda row: "{}.{}".format(*of(row)), read=read)


def by_name(of: Callable[[Any], tuple[str, UUID]]) -> Order:
    """In the order of names, `ID.NAME` in an address. `of`: the name and the id of a row."""

    def read(text: str) -> tuple[str, UUID] | None:
        id_text, dot, name = text.partition(".")
        id = as_id(id_text)
        return (name, id) if dot and id else None

    return Order(edge=of, text=lambda row: "{1}.{0}".format(*of(row)), read=read)


def by_id(of: Callable[[Any], UUID]) -> Order:
    """In an order that the row of an id tells. `of`: the id of a row."""
    return Order(edge=of, text=lambda row: str(of(row)), read=as_id)


def all_at_once(rows: Callable[[Tx], Sequence[Any]], *, order: Order) -> Rows:
    """The rows of a list of which an operator has few, all read at once and shown in pages all the same."""

    def after(tx: Tx, edge: Any | None, *, most: int) -> Sequence[Any]:
        found = rows(tx)
        past = next((place for place, row in enumerate(found, start=1) if order.edge(row) == edge), 0)
        return found[past : past + most]

    return after


def filtered(at: str, typed: Mapping[str, str], **edge: str) -> str:
    """The address `at` with that filter, and where a page begins."""
    return f"{at}?{urlencode({**typed, **edge})}".removesuffix("?")


def _plain(of: Listing) -> list[Column]:
    """The columns of the page where it shows those of the file as they are."""
    told = dict.fromkeys(of.days, day) | dict.fromkeys(of.moments, times.moment_told)
    first, *others = of.columns

    def shown(row: Any, *, head: str) -> str | int:
        found = of.columns[head](row)
        return told[head](found) if head in told and isinstance(found, str) and found else found

    return [
        Column(
            head=first,
            cell=lambda row: Way(text=str(shown(row, head=first)), address=of.leads(row)),
            draw="way",
            kind="where",
        ),
        *(
            Column(head=head, cell=partial(shown, head=head), kind=("small", "day") if head in told else "small")
            for head in others
        ),
    ]


def _count(of: Listing, number: int, *, more: bool) -> str:
    if more:
        told = _("{number} shown, more follow").format(number=number)
    elif of.counted:
        told = of.counted(number)
    else:
        told = of_number("{number} in all", "{number} in all", number=number).format(number=number)
    return _("{count}, as of {day}").format(count=told, day=day(of.as_of)) if of.as_of else told
