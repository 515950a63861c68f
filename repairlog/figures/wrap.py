"""Tape or sheets around a pipe: layers, length, thickness and rolls."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import cast

from repairlog.figures.asked import amount_in, needed, number, positive
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.trade import wrapping
from repairlog.trade.unworkable import Unworkable, within
from repairlog.trade.wrapping import BODY, COVERED, TURNS, Sheets, Wrap
from repairlog.words import _

MOST_PASSES = 100

OF_SHEETS = _("Sheets in place of tape")
OF_ROLLS = _("Rolls")
INPUTS = (
    Input(name="od", kind="hole", label=_("Pipe outside"), help=_('The pipe\'s outside diameter, such as "4.5 in".')),
    Input(name="length", kind="distance", label=_("Length to wrap"), help=_("Along the pipe.")),
    Input(name="tape_width", kind="hole", label=_("Width of the tape"), help=_('Such as "4 in".')),
    Input(
        name="overlap",
        kind="share",
        label=_("Overlap"),
        help=_("Of the tape's width, square to its edge: 0.5, 50 % or 2/3; less than 1."),
    ),
    Input(name="passes", kind="number", label=_("Passes"), help=_("How often it goes over the length."), default="1"),
    Input(
        name="thickness",
        kind="thickness",
        label=_("Thickness"),
        help=_('Of one layer, such as "0.035 in" or "35 mil".'),
        default="0 in",
    ),
    Input(
        name="ends",
        kind="choice",
        choices=(COVERED, TURNS),
        words={COVERED: _("covered by the helix"), TURNS: _("a plain turn each")},
        label=_("Ends"),
        help=_("covered: both ends fully covered by the helix; turns: a plain turn at each; else the body alone."),
    ),
    Input(name="roll", kind="distance", label=_("Length of a roll"), help=_('Such as "10 ft".'), group=OF_ROLLS),
    Input(
        name="splice",
        kind="hole",
        label=_("Splice"),
        help=_("Tape that each further roll loses."),
        default="0 in",
        group=OF_ROLLS,
    ),
    Input(
        name="roll_od",
        kind="hole",
        label=_("Roll outside"),
        help=_("In place of a roll's length, with its core."),
        group=OF_ROLLS,
    ),
    Input(name="roll_core_od", kind="hole", label=_("Core outside"), help=_("Of the roll."), group=OF_ROLLS),
    Input(
        name="sheet_width",
        kind="hole",
        label=_("Width of the sheet"),
        help=_("For sheets in place of tape."),
        group=OF_SHEETS,
    ),
    Input(
        name="lap",
        kind="hole",
        label=_("Lap of the bands"),
        help=_("Of sheets, along the pipe."),
        default="0 in",
        group=OF_SHEETS,
    ),
    Input(
        name="layers", kind="number", label=_("Layers"), help=_("Of sheets, in one band."), default="1", group=OF_SHEETS
    ),
)

_TAPE, _SHEETS = ("tape_width", "overlap", "passes", "ends"), ("sheet_width", "lap", "layers")


def work(asked: Asked) -> Answer:
    """Sheets where a sheet's width is given, tape otherwise; a roll alone where there is nothing to wrap."""
    of_sheets = "sheet_width" in asked.values
    for name in _TAPE if of_sheets else _SHEETS:
        if name in asked.typed:
            raise Unworkable("not_together", field=name, other="sheet_width" if of_sheets else "tape_width")
    roll = _roll(asked)
    if roll is not None and not asked.typed & {"od", "length", *_TAPE, *_SHEETS}:
        return _answer(asked, (*_of_roll(asked, roll),), formula=_ROLL_FORMULA, steps=(), cautions=())
    return _laid(asked, roll) if of_sheets else _wound(asked, roll)


_ROLL_FORMULA = "pi (Do^2 - Dc^2) / (4 t)"


def _wound(asked: Asked, roll: float | None) -> Answer:
    overlap = _overlap(asked)
    found = wrapping.helical(
        od=positive(asked, "od", unit="in"),
        width=positive(asked, "tape_width", unit="in"),
        overlap=overlap,
        length=positive(asked, "length", unit="in"),
        passes=_whole(asked, "passes"),
        thickness=amount_in(asked, "thickness", unit="in"),
        ends=str(asked.values.get("ends", BODY)),
    )
    return _answer(
        asked,
        (*_of_wrap(found), *_of_roll(asked, roll, need=found.tape_length)),
        formula="pi D L / (w (1 - o)), D + t / (1 - o) a pass; least layers: 1 / (1 - o) rounded down",
        steps=_steps(found),
        cautions=() if "ends" in asked.values else (_("The ends are not counted: name how they are finished."),),
    )


def _laid(asked: Asked, roll: float | None) -> Answer:
    found = wrapping.sheets(
        od=positive(asked, "od", unit="in"),
        width=positive(asked, "sheet_width", unit="in"),
        lap=amount_in(asked, "lap", unit="in"),
        layers=_whole(asked, "layers"),
        length=positive(asked, "length", unit="in"),
        thickness=amount_in(asked, "thickness", unit="in"),
    )
    return _answer(
        asked,
        (*_of_sheets(found), *_of_roll(asked, roll, need=found.length)),
        formula="pi n (D + n t) a band; bands (L - lap) / (w - lap), rounded up",
        steps=(_("{bands} bands of {around:.6g} in").format(bands=found.bands, around=found.length_per_band),),
        cautions=(_("The lap of a sheet's own end around the pipe comes on top."),),
    )


def _answer(
    asked: Asked, values: tuple[Value, ...], *, formula: str, steps: tuple[str, ...], cautions: tuple[str, ...]
) -> Answer:
    left_out = _TAPE if "sheet_width" in asked.values else _SHEETS
    return Answer(
        values=values,
        formula=formula,
        source=_("geometry of a round, straight pipe"),
        steps=steps,
        bounds=(_("tape square on the pipe and not stretched; no fittings, bends or tees"),),
        cautions=(
            *cautions,
            _("The maker's instructions say how many layers, what overlap and how far past the hole."),
        ),
        understood={name: text for name, text in asked.shown.items() if name not in left_out},
    )


def _of_wrap(found: Wrap) -> tuple[Value, ...]:
    return (
        Value(key="layers_least", label=_("Layers at least"), worth=found.layers_least, digits=0),
        Value(key="layers_mean", label=_("Layers on the average"), worth=found.layers_mean),
        Value(key="tape_length_in", label=_("Tape"), worth=found.tape_length, unit="in"),
        Value(key="turns", label=_("Turns"), worth=found.turns),
        Value(key="final_od_in", label=_("Outside after wrapping"), worth=found.final_od, unit="in", digits=4),
    )


def _of_sheets(found: Sheets) -> tuple[Value, ...]:
    return (
        Value(key="bands", label=_("Bands"), worth=found.bands, digits=0),
        Value(key="length_per_band_in", label=_("A band"), worth=found.length_per_band, unit="in"),
        Value(key="tape_length_in", label=_("In all"), worth=found.length, unit="in"),
        Value(key="final_od_in", label=_("Outside after wrapping"), worth=found.final_od, unit="in", digits=4),
    )


def _of_roll(asked: Asked, roll: float | None, *, need: float | None = None) -> tuple[Value, ...]:
    if roll is None:
        return ()
    length = Value(key="roll_length_ft", label=_("A roll"), worth=roll / 12, unit="ft")
    if need is None:
        return (length,)
    count = wrapping.rolls(need, roll=roll, splice=amount_in(asked, "splice", unit="in"))
    return Value(key="rolls", label=_("Rolls"), worth=count, digits=0), length


def _steps(found: Wrap) -> tuple[str, ...]:
    told = tuple(
        _("pass {number}: {turns:.5g} turns of {turn:.6g} in at {across:.5g} in across = {tape:.6g} in").format(
            number=number, turns=it.turns, turn=it.turn_length, across=it.across, tape=it.tape_length
        )
        for number, it in enumerate(found.passes[:10], start=1)
    )
    return (*told, _("{plain} plain turns on bare pipe").format(plain=found.plain_turns)) if found.plain_turns else told


def _overlap(asked: Asked) -> Fraction:
    overlap = Fraction(cast(Decimal, needed(asked, "overlap")))
    within(float(overlap), field="overlap", least=0, most=0.95)
    return overlap


def _whole(asked: Asked, name: str) -> int:
    value = number(asked, name)
    if value != int(value):
        raise Unworkable("not_whole", field=name, got=f"{value:g}")
    return int(within(value, field=name, least=1, most=MOST_PASSES))


def _roll(asked: Asked) -> float | None:
    """Inches of tape on a roll, as given or by its size; None where neither is."""
    if "roll_od" not in asked.values and "roll_core_od" not in asked.values:
        return positive(asked, "roll", unit="in") if "roll" in asked.values else None
    if "roll" in asked.values:
        raise Unworkable("given_both", field="roll_od", other="roll")
    return wrapping.roll_length(
        od=positive(asked, "roll_od", unit="in"),
        core_od=amount_in(asked, "roll_core_od", unit="in"),
        thickness=positive(asked, "thickness", unit="in"),
    )


WRAP = Figure(
    name="wrap",
    version="1",
    title=_("Tape and sheets"),
    help=_("Say how much tape or sheet goes around a pipe, in how many layers."),
    inputs=INPUTS,
    work=work,
)
