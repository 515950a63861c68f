"""A reading in another unit, as a figure with a page: what was read, in its canonical unit, in the unit asked for."""

from __future__ import annotations

from decimal import Decimal

from repairlog.figures import converted, inputs
from repairlog.figures.asked import in_words, needed
from repairlog.figures.converted import Base, Found
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.trade.unworkable import Unworkable
from repairlog.units import QUANTITIES, NotUnderstood, shown
from repairlog.words import _

INPUTS = (
    Input(name="reading", kind="text", label=_("Reading"), help=_("Such as 7 in wc, 45 %LEL or 1000 scf.")),
    Input(
        name="to",
        kind="text",
        label=_("In which unit"),
        metavar="UNIT",
        help=_("Such as kPa, psia, mm, % gas or kg/h; of gas at another base it may be left out."),
    ),
    Input(
        name="from_base",
        kind="text",
        label=_("Gas counted at"),
        metavar="BASE",
        help=_("Of a volume or rate of gas, such as 60 F, 14.73 psia."),
    ),
    Input(
        name="to_base",
        kind="text",
        label=_("To be counted at"),
        metavar="BASE",
        help=_("With the one before, such as 15 C, 101.325 kPa."),
    ),
    inputs.ATMOSPHERE,
    inputs.ELEVATION,
    Input(
        name="lel_basis",
        kind="choice",
        choices=("5.0", "4.4"),
        label=_("LEL of methane, per cent"),
        help=_("What 100 %LEL is in per cent of gas; 5.0 where nothing is said."),
        default="5.0",
    ),
    Input(
        name="quantity",
        kind="choice",
        choices=tuple(sorted(QUANTITIES)),
        label=_("What the reading is"),
        help=_("Where its unit alone does not say."),
    ),
)


def work(asked: Asked) -> Answer:
    """The reading in that unit, with what was taken beside it."""
    reading, bases = str(needed(asked, "reading")), _bases(asked)
    if "to" not in asked.values and bases is None:
        raise Unworkable("missing", field="to")
    try:
        found = converted.found(
            reading,
            str(asked.values["to"]) if "to" in asked.values else converted.own_unit(reading),
            quantity=str(asked.values["quantity"]) if "quantity" in asked.values else None,
            atmosphere=asked.atmosphere_kpa,
            lel_basis=Decimal(str(asked.values["lel_basis"])),
            bases=bases,
        )
    except NotUnderstood as complaint:
        raise in_words(complaint, _blamed(complaint, asked)) from None
    return _answer(asked, found)


def _answer(asked: Asked, found: Found) -> Answer:
    return Answer(
        values=(
            Value(key="value", label=_("That is"), worth=float(found.value), unit=found.asked, digits=0),
            Value(key="canonical", label=_("In the unit that is kept"), worth=found.canonical),
        ),
        formula=_("value x the unit's size / the size of the unit asked for"),
        source=_("exact definitions of the units; conventional columns of water and mercury, 0.0192 kg/ft3 of methane"),
        steps=(
            _("{typed} is read as {shown}").format(typed=found.measure.typed, shown=shown(found.measure)),
            _("{shown} is {canonical}").format(shown=shown(found.measure), canonical=found.measure.canonical),
            *found.taken,
        ),
        bounds=(_("as exact as what was typed; a gauge pressure becomes absolute by the atmosphere around"),),
        cautions=(_("A reading in %LEL means what its instrument was set to: look at its basis."),)
        if found.measure.gas
        else (),
        understood=_understood(asked, found),
    )


def _understood(asked: Asked, found: Found) -> dict[str, str]:
    of_gas, of_pressure = found.measure.quantity == "gas", found.measure.quantity == "pressure"
    told = {
        name: text
        for name, text in asked.shown.items()
        if name in asked.typed or (name == "lel_basis" and of_gas and found.measure.gas == "methane")
    }
    told["reading"] = shown(found.measure)
    return told | ({"atmosphere": f"{asked.atmosphere_kpa} kPa absolute"} if of_pressure else {})


def _bases(asked: Asked) -> tuple[Base, Base] | None:
    given = [name for name in ("from_base", "to_base") if name in asked.values]
    if not given:
        return None
    was, now = (converted.base(str(needed(asked, name)), field=name) for name in ("from_base", "to_base"))
    return was, now


def _blamed(complaint: NotUnderstood, asked: Asked) -> str:
    """The box that is to blame: that of the unit, where it is the unit asked for that nobody knows."""
    return "to" if str(complaint.facts.get("got", "")).strip() == str(asked.values.get("to", "")).strip() else "reading"


CONVERT = Figure(
    name="convert",
    version="1",
    title=_("Another unit"),
    help=_("Give a reading in another unit, and say how it was understood."),
    inputs=INPUTS,
    work=work,
)
