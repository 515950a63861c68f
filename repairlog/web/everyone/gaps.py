"""What in the records does not hold up, a list to work through; an officer sets aside what needs nobody."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any
from uuid import UUID

from flask import abort, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.gaps import GapEdge, GapRow, WantedGaps, gaps, gaps_by_code
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.records.story import story_of
from repairlog.trade.area import Area
from repairlog.web.everyone.gaps_of_areas import unsettled
from repairlog.web.everyone.gaps_of_companies import of_the_companies
from repairlog.web.frame.as_csv import csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Asked, Box, asked, chosen, day_in, days_between, of_area
from repairlog.web.frame.listing import Column, Listing, Order, Way, listed
from repairlog.web.frame.plain import plain
from repairlog.web.frame.where import where_of
from repairlog.words import _, times
from repairlog.words import gaps as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day

routes = room("gaps", __name__)


@routes.get("/gaps")
def page() -> ResponseReturnValue:
    """The gaps that fit the filter in the address, those of the newest entries first; with `as=csv` all as a file."""
    scope = asker().scope
    with store().reading() as tx:
        within = areas(scope, tx)
        of = _asked(within)
        wanted = WantedGaps(
            code=of.text("code"),
            area=of.area,
            from_on=of.day("from"),
            until_on=of.day("until"),
            aside=bool(of.text("aside")),
        )
        counts = {} if csv_wanted() and not of.wrong else gaps_by_code(scope, tx, asked=wanted)
        of = _with_codes(of, counts)

        def rows(tx: Tx, edge: GapEdge | None, *, most: int) -> Sequence[GapRow]:
            return gaps(scope, tx, asked=wanted, after=edge, most=most)

        return listed(
            tx,
            Listing(
                title=_("Gaps"),
                name=_("gaps"),
                of=of,
                columns=_columns(within),
                shown=_shown(within, aside=wanted.aside),
                rows=rows,
                order=Order(edge=_edge_of, text=_edge_text, read=_edge),
                zone=lambda row: _zones(within).get(row.area, "UTC") if times.tells_a_time(_told(row)) else "",
                about=_(
                    "What in the records does not hold up. Nothing was refused for it, and nothing was changed: each"
                    " gap says what would settle it."
                ),
                nothing_fits=_("No gap fits this."),
                nothing_yet=_("No gap stands in the records that you see."),
                empty=_(
                    "Whatever does not hold up, such as a lot used after its last day or a repair that nobody accepted,"
                    " will stand here with what settles it."
                ),
                live=False,
                around=lambda tx, _rows: _around(tx, of),
                template="everyone/gaps.html",
            ),
        )


@routes.route("/leaks/<uuid:leak>/entries/<uuid:entry>/gaps/<gap>", methods=["GET", "POST"])
def set_aside(leak: UUID, entry: UUID, *, gap: str) -> ResponseReturnValue:
    """Set that gap aside; `?row=` names the row that it is about."""
    where, row = where_of(leak), request.values.get("row", "")
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=leak)
    stands = story.gaps if story else ()
    found = next((each for each in stands if (each.code, each.entry, each.row) == (gap, entry, row)), None)
    of_dig = next((each.opened.id for each in story.digs if found in each.gaps), leak) if story else leak
    kind = next((each.entry.kind for each in story.told if each.entry.id == entry), "") if story else ""
    if where.leak is not None and found is None and request.method == "GET" and "unfinished" not in request.args:
        abort(404)
    said = {"subject": str(of_dig), "about": str(entry), "gap": gap} | ({"row": row} if row else {})
    return plain(
        where,
        leak,
        kind="gap_set_aside",
        heading=_("Set a gap aside"),
        save=_("Set it aside"),
        said=said,
        hint=_("The gap still stands, marked as set aside with your reason. To take that back, make the entry void."),
        told=[words.told(found.code, found.facts, kind=kind)] if found and kind else [],
        names_leak=False,
    )


def _sheet_of(row: GapRow) -> str:
    """Where the entry that the gap is about is told."""
    at = url_for("sheet.page", leak=row.leak) if row.leak else url_for("call.page", call=row.call)
    return f"{at}#e-{row.entry}"


def _aside_of(row: GapRow) -> str:
    """Where it is set aside."""
    if row.leak:
        return url_for("gaps.set_aside", leak=row.leak, entry=row.entry, gap=row.code, row=row.row or None)
    return url_for("call_gaps.set_aside", call=row.call, entry=row.entry, gap=row.code, row=row.row)


def _asked(within: Sequence[Area]) -> Asked:
    boxes = [
        Box(name="code", label=_("Gap")),
        *of_area(within),
        *days_between(_("Happened from")),
        chosen("aside", _("Which"), choices={"yes": _("set aside")}, any=_("not set aside")),
    ]
    return asked(boxes, within=within)


def _with_codes(of: Asked, counts: Mapping[str, int]) -> Asked:
    """The same filter, each kind of gap offered with how many there are of it."""
    offered = {code: f"{words.name(code)} ({number})" for code, number in sorted(counts.items())}
    if (code := of.text("code")) and code not in offered:
        offered[code] = words.name(code)
    return replace(of, boxes=[chosen("code", _("Gap"), choices=offered), *of.boxes[1:]])


def _around(tx: Tx, of: Asked) -> Mapping[str, Any]:
    within, first = of.within or (), not of.typed and "older" not in request.args
    return {
        "of_areas": unsettled(tx, within, on=asker().on) if first else [],
        "of_companies": of_the_companies(tx) if first else [],
        "says": [area for area in within if asker().may("typing_time_set", area=area.id)],
        "how_soon": words.how_soon,
        "own_work": words.own_work,
    }


def _shown(within: Sequence[Area], *, aside: bool) -> Sequence[Column]:
    zones = _zones(within)
    may = {area.id for area in within if asker().may("gap_set_aside", area=area.id)}

    def told(row: GapRow, *, named: bool) -> tuple[str, str, str]:
        zone = [zones.get(row.area, "UTC")] if named and times.tells_a_time(_told(row)) else []
        return words.name(row.code), _told(row), times.said_once(zone)

    def where(row: GapRow) -> Way:
        return Way(text=row.number, address=_sheet_of(row), small=address_of_leak(row))

    def set_aside(row: GapRow) -> Any:
        return row.why_aside or ([(_("Set aside"), _aside_of(row))] if row.area in may else None)

    last = [Column(head=_("Set aside"), cell=set_aside, draw="does", aloud=True)] if may or aside else []
    return (
        Column(head=_("What does not hold up"), cell=told, draw="gap", timed=True),
        Column(head=_("Where"), cell=where, draw="way", kind="where"),
        Column(head=_("Day"), cell=lambda row: day(row.on), kind=("small", "day"), phone=_("happened")),
        *last,
    )


def _columns(within: Sequence[Area]) -> Mapping[str, Callable[[GapRow], str | int]]:
    names, zones = {area.id: area.name for area in within}, _zones(within)
    return {
        _("Day"): lambda row: row.on,
        _("Gap"): lambda row: words.name(row.code),
        _("What does not hold up"): _told,
        _("Number"): lambda row: row.number,
        _("Area"): lambda row: names.get(row.area, ""),
        _("Where"): address_of_leak,
        _("Set aside because"): lambda row: row.why_aside,
        _("Time zone"): lambda row: zones.get(row.area, "UTC"),
    }


def _zones(within: Sequence[Area]) -> dict[UUID, str]:
    return {area.id: area.zone for area in within}


def _told(row: GapRow) -> str:
    return words.told(row.code, row.facts, kind=row.kind)


def _edge_of(row: GapRow) -> GapEdge:
    return GapEdge(on=date.fromisoformat(row.on), entry=row.entry, code=row.code, row=row.row)


def _edge_text(row: GapRow) -> str:
    return f"{row.on}~{row.entry}~{row.code}~{row.row}"


def _edge(text: str) -> GapEdge | None:
    """Where the page before ended, as `_edge_text` writes it; None for any other text."""
    on, entry, code, row = (*text.split("~", 3), "", "", "", "")[:4]
    read, id = day_in(on), as_id(entry)
    return GapEdge(on=read, entry=id, code=code, row=row) if read and id else None
