"""A repair is logged: its attempt, its materials by lot, who did it, and its test, all or none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from uuid import UUID

from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.ids import as_id
from repairlog.intake import Complaint
from repairlog.intake.form import Choices, offer
from repairlog.records.queries.lots import lots_numbered, lots_of, lots_with
from repairlog.records.queries.sources import attempts_of, sources_of
from repairlog.trade.lot import Lot
from repairlog.web.crew import materials
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.told import Told
from repairlog.web.frame.where import Where, where_of
from repairlog.words import _
from repairlog.words import lots as lot_words
from repairlog.words.sources import source

routes = room("repairs", __name__)


@routes.route("/leaks/<uuid:leak>/repair", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Log a repair on that leak, and its test where one was made."""
    where = where_of(leak)
    with store().reading() as tx:
        found = sources_of(asker().scope, tx, leak=leak)
        number = len(attempts_of(asker().scope, tx, leak=leak)) + 1
        offered = [lot for area in where.areas for lot in lots_of(asker().scope, tx, area=area.id)]
    to_choose = [(str(each.id), source(each.number, **each.said)) for each in found]
    return on_leak(
        where,
        leak,
        template="crew/repair.html",
        parts=[_attempt(leak, where, to_choose), _test(leak, where)],
        means=lambda call: _means(call, where),
        shows=_shows,
        ready=lambda forms, told: _ready(forms, told, where),
        around={"number": number, "lots": [(each, lot_words.choice(each)) for each in offered]},
    )


def _attempt(leak: UUID, where: Where, to_choose: Choices) -> Part:
    choices = {
        "source": to_choose,
        "authorised_by": where.people,
        "watched_by": where.people,
        "people.observed_by": where.people,
        "materials.lot": [],
        "people.person": where.people,
        "did.person": where.people,
    }
    begins = {"source": to_choose[0][0]} if len(to_choose) == 1 else {}
    labels = {
        "happened": _("When it was made"),
        "outcome": _("Is it tight?"),
        "materials.named": _("Lot number"),
        "materials.lot": _("Which of them"),
        "materials.used": _("How much"),
        "authorised_by_named": _("Their name, where not on the books"),
        "watched_by_named": _("Their name, where not on the books"),
        "people.observed_by": _("Observed by, where this person is not qualified for it"),
        "people.observed_by_named": _("The observer's name, where not on the books"),
    }
    return Part(
        name="repair",
        kind="repair_attempted",
        said={"leak": str(leak)},
        choices=choices,
        begins=begins,
        labels=labels,
    )


def _test(leak: UUID, where: Where) -> Part:
    return Part(
        name="test",
        kind="tested",
        said={"leak": str(leak)},
        names={"attempt": "repair"},
        choices={"instrument_used": where.instruments},
        without=("did",),
        labels={"happened": _("When it was tested")},
        optional=True,
    )


def _means(call: Call, where: Where) -> tuple[Call, list[Complaint]]:
    """The call with its lots named, and its test at the time of the repair where none of its own was typed."""
    if "repair" not in call:
        return call, []
    repair = call["repair"]
    typed = _looked_up(repair.get("materials", ()), where)
    meant = {**call, "repair": materials.with_lots(repair, typed)}
    if "test" in call and "happened" in repair:
        meant["test"] = {"happened": repair["happened"], **call["test"]}
    if "test" in call and repair.get("did"):
        meant["test"] = {**meant["test"], "did": repair["did"]}
    return meant, list(materials.open_choices(typed, entry=0))


def _looked_up(rows: Sequence[Mapping[str, str]], where: Where) -> list[materials.LotTyped]:
    numbers = materials.numbers_typed(rows)
    found: list[Lot] = []
    if numbers and where.areas:
        with store().reading() as tx:
            found = lots_numbered(asker().scope, tx, area=where.areas[0].id, numbers=numbers)
    return materials.looked_up(rows, found)


def _shows(call: Call) -> Call:
    """The call as the boxes show it: lots by their numbers."""
    if "repair" not in call:
        return call
    repair = call["repair"]
    rows = repair.get("materials", ())
    named = {id for row in rows if isinstance(row, dict) and (id := as_id(row.get("lot")))}
    with store().reading() as tx:
        lots = lots_with(asker().scope, tx, ids=named)
    return {**call, "repair": materials.with_numbers(repair, lots)}


def _ready(forms: Mapping[str, Form], told: Told, where: Where) -> None:
    """Say back what each number is, and ask which where several lots bear it; say once what is wrong with the time of
    a repair that is its test's, too."""
    repair, tested = forms["repair"], forms["test"]["happened"]
    if not tested.data and told.of(repair["happened"].id):
        told.wrongs = [wrong for wrong in told.wrongs if wrong.id != tested.id]
    rows: Any = repair["materials"]
    by_key = {row.form["key"].data: row.form for row in rows}
    typed = [{name: row.form[name].data or "" for name in ("key", "named", "lot")} for row in rows]
    on = str(repair["happened"].data or where.on)[:10]
    for each in _looked_up(typed, where):
        row = by_key[each.key]
        told.heard[row["named"].id] = each.heard(on=on)
        if len(each.lots) > 1:
            none = (materials.NONE_OF_THEM, _("None of these, or nobody knows: keep the number as read"))
            offer(row["lot"], [*((str(lot.id), lot_words.choice(lot)) for lot in each.lots), none])
