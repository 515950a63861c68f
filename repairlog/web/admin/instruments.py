"""The list of instruments, those first whose calibration is due first."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import urlencode
from uuid import UUID

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.instruments_listed import ListedInstrument, WantedInstruments, instruments_listed
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.admin.people_filter import SOON
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import day_in
from repairlog.words import _
from repairlog.words import instruments as words
from repairlog.words.codes import word
from repairlog.words.days import day

A_PAGE = 50
"""Instruments on a page."""

NAMES = ("text", "what", "area", "standing", "on", "soon", "retired")
"""The filters, as the address names them."""

STANDINGS = ("out", "never", "ends_soon", "valid")

routes = room("instruments", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field of the filter. `wrong`: by field, the code of what is wrong with it."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    wanted: WantedInstruments


@routes.get("/instruments")
def page() -> ResponseReturnValue:
    """The instruments that fit the filter in the address; with `as=csv` all as a file."""
    scope, after = asker().scope, _edge(request.args.get("older", ""))
    with store().reading() as tx:
        within = areas(scope, tx)
        of = _asked(request.args, within)
        if csv_wanted() and not of.wrong:
            return _file(of.wanted, within)
        found = instruments_listed(scope, tx, asked=of.wanted, after=after, most=A_PAGE + 1)
    rows = found[:A_PAGE]
    return render_template(
        "admin/instruments.html",
        rows=[(row, _standing(row, of.wanted)) for row in rows],
        count=words.shown(len(rows), more=len(found) > A_PAGE),
        older=_address({**of.typed, "older": f"{rows[-1].due}.{rows[-1].id}"}) if len(found) > A_PAGE else "",
        first=_address(of.typed) if after else "",
        file=csv_address(without=of.wrong),
        typed=of.typed,
        wrong={name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()},
        areas=within,
        names={area.id: area.name for area in within},
        choices={
            "area": {area.code: area.name for area in within},
            "standing": {code: words.standing_word(code) for code in STANDINGS},
            "soon": {days: _("{days} days").format(days=days) for days in SOON},
            "retired": {"yes": _("retired")},
        },
        words=words,
        word=word,
        day=day,
        on=day(of.wanted.on.isoformat()),
        may_add=any(asker().may("instrument_added", area=area.id) for area in within),
    )


def _asked(arguments: Mapping[str, str], within: Sequence[Area]) -> Asked:
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in within if area.code.casefold() == typed.get("area", "").casefold()), None)
    given = day_in(typed.get("on", ""))
    found = {"area": "no_such_area"} if area is None else {}
    found |= {"on": "not_a_day"} if given is None else {}
    choices = {"standing": STANDINGS, "soon": SOON}
    found |= {name: "not_one_of_these" for name, of in choices.items() if typed.get(name, "") not in of}
    wrong = {name: code for name, code in found.items() if name in typed}
    good = {name: text for name, text in typed.items() if name not in wrong}
    on, soon = given or date.fromisoformat(asker().on), timedelta(days=int(good.get("soon", SOON[0])))
    wanted = WantedInstruments(
        on=on,
        soon_until=min(on, date.max - soon) + soon,
        area=area,
        text=good.get("text", ""),
        what=good.get("what", ""),
        standing=good.get("standing", ""),
        retired="retired" in good,
    )
    return Asked(typed=typed, wrong=wrong, wanted=wanted)


def _standing(row: ListedInstrument, wanted: WantedInstruments) -> str:
    return row.standing(on=wanted.on.isoformat(), soon_until=wanted.soon_until.isoformat())


def _file(wanted: WantedInstruments, within: Sequence[Area]) -> ResponseReturnValue:
    def after(tx: Tx, last: ListedInstrument | None) -> Sequence[ListedInstrument]:
        edge = (last.due, last.id) if last else None
        return instruments_listed(asker().scope, tx, asked=wanted, after=edge, most=AT_ONCE)

    of = [area for area in within if wanted.area in (None, area.id)]
    return as_csv(name=_("instruments"), areas=of, columns=_columns(wanted, within), after=after)


def _columns(
    wanted: WantedInstruments, within: Sequence[Area]
) -> Mapping[str, Callable[[ListedInstrument], str | int]]:
    names = {area.id: area.name for area in within}
    return {
        _("Mark"): lambda row: row.mark,
        _("What it is"): lambda row: row.what,
        _("Maker"): lambda row: row.maker,
        _("Model"): lambda row: row.model,
        _("Serial number"): lambda row: row.serial_number,
        _("Area"): lambda row: names.get(row.area, ""),
        _("How it stands"): lambda row: words.standing_word(_standing(row, wanted)),
        _("Calibrated on"): lambda row: row.calibrated_on,
        _("Result"): lambda row: word(row.result) if row.result else "",
        _("Last day on which it holds"): lambda row: row.until_on,
        _("Last checked on"): lambda row: row.checked_on,
        _("Check"): lambda row: word(row.check) if row.check else "",
        _("Retired on"): lambda row: row.retired_on,
        _("As of"): lambda _row: wanted.on.isoformat(),
    }


def _edge(text: str) -> tuple[date, UUID] | None:
    """Where the page before ended, `DAY.ID`; None for any other text."""
    day_text, _dot, id_text = text.partition(".")
    due, id = day_in(day_text), as_id(id_text)
    return (due, id) if due and id else None


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('instruments.page')}?{urlencode(arguments)}".removesuffix("?")
