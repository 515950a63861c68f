"""The list of instruments, those first whose calibration is due first."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any
from uuid import UUID

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.instruments_listed import ListedInstrument, WantedInstruments, instruments_listed
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.admin.people_filter import as_of, looked_at_on
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Asked, Box, asked, chosen, of_area
from repairlog.web.frame.listing import Column, Listing, Way, by_day, listed
from repairlog.words import _
from repairlog.words import instruments as words
from repairlog.words.codes import word
from repairlog.words.days import day

STANDINGS = ("out", "never", "ends_soon", "valid")

routes = room("instruments", __name__)


@routes.get("/instruments")
def page() -> ResponseReturnValue:
    """The instruments that fit the filter in the address; with `as=csv` all as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        of = _asked(within)
        wanted = _wanted(of)

        def rows(tx: Tx, edge: tuple[date, UUID] | None, *, most: int) -> Sequence[ListedInstrument]:
            return instruments_listed(asker().scope, tx, asked=wanted, after=edge, most=most)

        may_add = any(asker().may("instrument_added", area=area.id) for area in within)
        return listed(
            tx,
            Listing(
                title=_("Instruments"),
                name=_("instruments"),
                of=of,
                columns=_columns(wanted, within),
                shown=_shown(wanted, within),
                rows=rows,
                order=by_day(lambda row: (row.due.isoformat(), row.id), make=lambda on, id: (on, id)),
                does=[(_("Add an instrument"), url_for("instrument_said.new"))] if may_add else [],
                counted=words.number_of,
                as_of=wanted.on.isoformat(),
                nothing_fits=_("No instrument fits this."),
                nothing_yet=_("No instrument is on the books yet."),
                empty=_(
                    "Each will stand here with its calibration and its last check, the one that is due first at the"
                    " top. A reading with an instrument that is not here is kept all the same, and raised as a gap."
                ),
            ),
        )


def _asked(within: Sequence[Area]) -> Asked:
    boxes = [
        Box(name="text", label=_("Mark, number or maker"), hint=_("part of it")),
        Box(name="what", label=_("What it is"), hint=_("part of it")),
        *of_area(within),
        chosen("standing", _("Calibration"), choices={code: words.standing_word(code) for code in STANDINGS}),
        *as_of(),
        chosen("retired", _("Which"), choices={"yes": _("retired")}, any=_("in use")),
    ]
    return asked(boxes, within=within)


def _wanted(of: Asked) -> WantedInstruments:
    on, soon_until = looked_at_on(of, today=date.fromisoformat(asker().on))
    return WantedInstruments(
        on=on,
        soon_until=soon_until,
        area=of.area,
        text=of.text("text"),
        what=of.text("what"),
        standing=of.text("standing"),
        retired=bool(of.text("retired")),
    )


def _shown(wanted: WantedInstruments, within: Sequence[Area]) -> Sequence[Column]:
    names = {area.id: area.name for area in within}

    def what(row: ListedInstrument) -> Sequence[str]:
        retired = _("retired {day}").format(day=day(row.retired_on)) if row.retired_on else ""
        return row.what, ", ".join(filter(None, (row.maker, row.model, row.serial_number))), retired

    def stands(row: ListedInstrument) -> tuple[str, str]:
        standing = _standing(row, wanted)
        weight = {"valid": "", "ends_soon": "soon"}.get(standing, "wants")
        return words.standing_told(standing, until_on=row.until_on, result=row.result), weight

    def checked(row: ListedInstrument) -> Any:
        if not row.checked_on:
            return None
        return day(row.checked_on), word(row.check) if row.check != "good" else ""

    area = [Column(head=_("Area"), cell=lambda row: names.get(row.area, ""), kind="small")] if len(within) > 1 else []
    return (
        Column(
            head=_("Mark"),
            cell=lambda row: Way(text=row.mark, address=url_for("instrument.page", instrument=row.id)),
            draw="way",
            kind="where",
        ),
        Column(head=_("What it is"), cell=what, draw="beside"),
        Column(head=_("Calibration"), cell=stands, draw="standing"),
        Column(head=_("Last checked"), cell=checked, draw="and_strong", kind=("small", "day"), phone=_("checked")),
        *area,
    )


def _standing(row: ListedInstrument, wanted: WantedInstruments) -> str:
    return row.standing(on=wanted.on.isoformat(), soon_until=wanted.soon_until.isoformat())


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
