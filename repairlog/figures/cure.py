"""How long a material needs to cure: by its maker's table, or by a log of the temperatures that it had."""

from __future__ import annotations

import re
from dataclasses import replace

from repairlog.figures import temperature_log
from repairlog.figures.asked import amount_in, in_unit, measure, needed, number, read_as
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.figures.loss import COMMA
from repairlog.figures.moments import ZONE, zone_of
from repairlog.figures.temperature_log import TemperatureLog
from repairlog.trade import cure
from repairlog.trade.unworkable import Unworkable, within
from repairlog.units import shown
from repairlog.words import _

TABLE = "40 F: 48 h, 50 F: 24 h, 60 F: 12 h"

BY_LOG = _("By a log of temperatures")
BY_TABLE = _("By the maker's table")
INPUTS = (
    Input(
        name="table",
        kind="text",
        label=_("The maker's table"),
        metavar="TABLE",
        help=_('Temperatures with their times, the coldest first: "{table}".').format(table=TABLE),
        group=BY_TABLE,
    ),
    Input(
        name="temperature",
        kind="temperature",
        label=_("Temperature"),
        help=_("Of the material, not of the air."),
        group=BY_TABLE,
    ),
    Input(
        name="rule",
        kind="choice",
        choices=(cure.LINEAR, cure.LOG, cure.NEXT_LOWER),
        words={
            cure.LINEAR: _("straight"),
            cure.LOG: _("straight in the logarithm"),
            cure.NEXT_LOWER: _("the colder row"),
        },
        label=_("Between two rows"),
        help=_("Straight, straight in the logarithm, or the time of the colder row."),
        default=cure.LINEAR,
        group=BY_TABLE,
    ),
    Input(
        name="log",
        kind="file",
        label=_("Log of temperatures"),
        metavar="FILE",
        help=_("CSV of hours (or moments) and temperatures, a line a reading; a bare number is degrees C."),
        group=BY_LOG,
    ),
    Input(
        name="reference",
        kind="temperature",
        label=_("Reference temperature"),
        help=_('For hours that did as much at that temperature, such as "20 C".'),
        group=BY_LOG,
    ),
    Input(
        name="q",
        kind="number",
        label=_("Q, activation over the gas constant, K"),
        help=_("By tests of the material; 5000 is usual for concrete, and no other material's."),
        group=BY_LOG,
    ),
    Input(
        name="datum",
        kind="temperature",
        label=_("Datum temperature"),
        help=_('For degree hours above it, such as "-10 C".'),
        group=BY_LOG,
    ),
    replace(ZONE, group=BY_LOG),
)
_OF_TABLE, _OF_LOG = ("table", "temperature", "rule"), ("log", "reference", "q", "datum", "zone")


def work(asked: Asked) -> Answer:
    """From a log where one is given, from the table otherwise."""
    of_log = "log" in asked.values
    for name in _OF_TABLE if of_log else _OF_LOG:
        if name in asked.typed:
            raise Unworkable("not_together", field=name, other="log" if of_log else "table")
    return _by_log(asked) if of_log else _by_table(asked)


def _by_table(asked: Asked) -> Answer:
    table = _table(str(needed(asked, "table")))
    rule = str(asked.values["rule"])
    cure.checked(table)
    celsius = amount_in(asked, "temperature", unit="degC")
    try:
        hours = cure.hours_at(celsius, table=table, rule=rule)
    except Unworkable as complaint:
        if complaint.code != "outside_table":
            raise
        first, last = (text.partition(":")[0].strip() for text in (_rows(asked)[0], _rows(asked)[-1]))
        got = measure(asked, "temperature").typed
        raise Unworkable(complaint.code, field="temperature", got=got, least=first, most=last) from None
    return Answer(
        values=(Value(key="hours", label=_("Time to cure"), worth=hours, unit="h"),),
        formula={
            cure.LINEAR: _("straight between two rows of the table"),
            cure.LOG: _("straight between two rows in the logarithm of the time"),
            cure.NEXT_LOWER: _("the time of the next colder row of the table"),
        }[rule],
        source=_("the table as given"),
        bounds=(_("between the table's ends; nothing is said beyond them"),),
        cautions=(_("The maker's own table and the coldest place of the material govern."),),
        understood={name: text for name, text in asked.shown.items() if name in _OF_TABLE},
    )


def _by_log(asked: Asked) -> Answer:
    if "reference" not in asked.values and "datum" not in asked.values:
        raise Unworkable("missing", field="reference")
    it = temperature_log.read_log(str(asked.values["log"]), zone=zone_of(asked))
    cure.checked_log(it.hours, it.celsius)
    values = (*_equivalent(asked, it), *_degree_hours(asked, it))
    return Answer(
        values=values,
        formula=" ; ".join(
            {
                "equivalent_hours": "sum of exp(-Q (1/T - 1/Ts)) dt",
                "degree_hours_c": "sum of (T - T0, not below zero) dt",
            }[value.key]
            for value in values
        ),
        source=_("equivalent age by Arrhenius; temperature-time factor of Nurse and Saul"),
        steps=(
            _("{count:,} readings over {hours:.6g} h, {coldest:.4g} to {warmest:.4g} °C").format(
                count=len(it.hours),
                hours=it.hours[-1] - it.hours[0],
                coldest=min(it.celsius),
                warmest=max(it.celsius),
            ),
        ),
        bounds=(_("-60 to 200 °C; a reading counts until the next; no gap over three times the usual spacing"),),
        cautions=(
            _("Q and datum are the material's own, by test; another material's give a figure that means nothing."),
            *((_("Moments without an offset were taken as UTC; name the zone where clocks change."),) * it.moments),
        ),
        understood={name: text for name, text in asked.shown.items() if name in _OF_LOG},
    )


def _equivalent(asked: Asked, it: TemperatureLog) -> tuple[Value, ...]:
    if "reference" not in asked.values:
        if "q" in asked.typed:
            raise Unworkable("missing", field="reference")
        return ()
    reference = within(amount_in(asked, "reference", unit="degC"), field="reference", least=-60, most=200, unit="°C")
    q = within(number(asked, "q"), field="q", least=500, most=20_000, unit="K")
    hours = cure.equivalent_hours(it.hours, it.celsius, reference=reference, q=q)
    at = _("h at {reference}").format(reference=shown(measure(asked, "reference")))
    return (Value(key="equivalent_hours", label=_("Counts as"), worth=hours, unit=at),)


def _degree_hours(asked: Asked, it: TemperatureLog) -> tuple[Value, ...]:
    if "datum" not in asked.values:
        return ()
    datum = within(amount_in(asked, "datum", unit="degC"), field="datum", least=-60, most=200, unit="°C")
    found = cure.degree_hours(it.hours, it.celsius, datum=datum)
    return (Value(key="degree_hours_c", label=_("Degree hours"), worth=found, unit="°C h"),)


def _rows(asked: Asked) -> list[str]:
    return _parted(str(asked.values["table"]))


def _parted(text: str) -> list[str]:
    """The rows of a table, parted by commas, semicolons or lines."""
    return [row.strip() for part in re.split(r"[;\n]", text) for row in COMMA.split(part) if row.strip()]


def _table(text: str) -> list[tuple[float, float]]:
    """Rows of degC and hours; raises `not_written_so`, and what a measure raises."""
    found = []
    for row in _parted(text):
        temperature, colon, hours = row.partition(":")
        if not colon or not hours.strip() or not temperature.strip():
            raise Unworkable("not_written_so", field="table", got=row[:80], would_have=TABLE)
        found.append(
            (
                in_unit(read_as(temperature, "temperature", field="table"), unit="degC"),
                in_unit(read_as(hours, "duration", field="table"), unit="h"),
            )
        )
    return found


CURE = Figure(
    name="cure",
    version="1",
    title=_("Cure"),
    help=_("Say how long a material cures, by its table or by a log of its temperatures."),
    inputs=INPUTS,
    work=work,
)
