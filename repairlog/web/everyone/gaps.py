"""What in the records does not hold up, a list to work through; an officer sets aside what needs nobody."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode
from uuid import UUID

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.gaps import GapEdge, GapRow, WantedGaps, gaps, gaps_by_code
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.records.story import story_of
from repairlog.trade.area import Area
from repairlog.web.everyone.gaps_of_areas import unsettled
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import day_in
from repairlog.web.frame.plain import plain
from repairlog.web.frame.where import where_of
from repairlog.words import _, times
from repairlog.words import gaps as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day
from repairlog.words.leaks import filter_wrong

A_PAGE = 50
"""Gaps on a page."""

NAMES = ("code", "area", "from", "until", "aside")
"""The filters, as the address names them."""

routes = room("gaps", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field of the filter. `wrong`: by field, the code of what is wrong with it."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    wanted: WantedGaps


@routes.get("/gaps")
def page() -> ResponseReturnValue:
    """The gaps that fit the filter in the address, those of the newest entries first; with `as=csv` all as a file."""
    scope, after = asker().scope, _edge(request.args.get("older", ""))
    with store().reading() as tx:
        within = areas(scope, tx)
        asked = _asked(request.args, within)
        to_file = csv_wanted() and not asked.wrong
        rows = [] if to_file else gaps(scope, tx, asked=asked.wanted, after=after, most=A_PAGE + 1)
        counts = {} if to_file else gaps_by_code(scope, tx, asked=asked.wanted)
        of_areas = [] if asked.typed or to_file or after else unsettled(tx, within, on=asker().on)
    if to_file:
        return _file(asked.wanted, within)
    zones = _zones(within)
    timed = {zones.get(row.area, "UTC") for row in rows[:A_PAGE] if times.tells_a_time(_told(row))}
    return render_template(
        "everyone/gaps.html",
        rows=rows[:A_PAGE],
        times=times.said_once(timed),
        zone=lambda row: times.said_once([zones.get(row.area, "UTC")] if times.tells_a_time(_told(row)) else []),
        several=len(timed) > 1,
        of_areas=of_areas,
        older=_address({**asked.typed, "older": _edge_text(rows[A_PAGE - 1])}) if len(rows) > A_PAGE else "",
        newest=_address(asked.typed) if after else "",
        file=csv_address(without=asked.wrong),
        codes=[(code, words.name(code), number) for code, number in sorted(counts.items())],
        typed=asked.typed,
        wrong={name: filter_wrong(code, got=asked.typed[name]) for name, code in asked.wrong.items()},
        areas=within,
        told=_told,
        name=words.name,
        day=day,
        address=address_of_leak,
        says=[area for area in within if asker().may("typing_time_set", area=area.id)],
        how_soon=words.how_soon,
        own_work=words.own_work,
        sheet_of=_sheet_of,
        aside_of=_aside_of,
        may_set_aside={area.id for area in within if asker().may("gap_set_aside", area=area.id)},
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


def _asked(arguments: Mapping[str, str], within: Sequence[Area]) -> Asked:
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in within if area.code.casefold() == typed.get("area", "").casefold()), None)
    days = {name: day_in(typed.get(name, "")) for name in ("from", "until")}
    wrong = {name: "not_a_day" for name, on in days.items() if name in typed and on is None}
    wrong |= {"area": "no_such_area"} if "area" in typed and area is None else {}
    if days["from"] and days["until"] and days["until"] < days["from"]:
        wrong["until"], days["until"] = "until_before_from", None
    wanted = WantedGaps(
        code=typed.get("code", ""), area=area, from_on=days["from"], until_on=days["until"], aside="aside" in typed
    )
    return Asked(typed=typed, wrong=wrong, wanted=wanted)


def _file(wanted: WantedGaps, within: Sequence[Area]) -> ResponseReturnValue:
    def after(tx: Tx, last: GapRow | None) -> Sequence[GapRow]:
        edge = _edge_of(last) if last else None
        return gaps(asker().scope, tx, asked=wanted, after=edge, most=AT_ONCE)

    of = [area for area in within if wanted.area in (None, area.id)]
    return as_csv(name=_("gaps"), areas=of, columns=_columns(within), after=after)


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


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('gaps.page')}?{urlencode(arguments)}".removesuffix("?")
