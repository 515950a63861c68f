"""How long a material needs to cure: by a table of its maker, or by the temperatures that it had."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from math import exp, log
from operator import sub
from statistics import median

from repairlog.trade.unworkable import Unworkable, within

LINEAR, LOG, NEXT_LOWER = "linear", "log", "next-lower"
ZERO_C = 273.15
MOST_GAP = 3  # times the usual spacing of a log

Table = Sequence[tuple[float, float]]
"""Temperatures (degC) with the hours at each, the coldest first."""


def checked(table: Table) -> Table:
    """The table, if it can be read between its rows; raises `table_too_short`, `table_not_in_order`, `table_rises`,
    `not_above_zero`."""
    if len(table) < 2:
        raise Unworkable("table_too_short", field="table")
    for hours in (hours for _temperature, hours in table if not hours > 0):
        raise Unworkable("not_above_zero", field="table", got=f"{hours:g} h")
    for (colder, longer), (warmer, shorter) in pairwise(table):
        if warmer <= colder:
            raise Unworkable("table_not_in_order", field="table")
        if shorter > longer:
            raise Unworkable("table_rises", field="table")
    return table


def hours_at(temperature: float, *, table: Table, rule: str) -> float:
    """Hours to cure at a temperature (degC): straight between two rows, straight in the logarithm, or the hours of the
    colder row. The ends count; beyond them raises `outside_table`. Raises as `checked` does.
    """
    rows = checked(table)
    (coldest, _longest), (warmest, shortest) = rows[0], rows[-1]
    if not coldest <= temperature <= warmest:
        raise Unworkable("outside_table", field="temperature")
    if temperature == warmest:
        return shortest
    place = bisect_right([cold for cold, _hours in rows], temperature)
    (cold, longer), (warm, shorter) = rows[place - 1], rows[place]
    share = (temperature - cold) / (warm - cold)
    if rule == NEXT_LOWER or share == 0:
        return longer
    if rule == LOG:
        return exp(log(longer) + share * (log(shorter) - log(longer)))
    return longer + share * (shorter - longer)


def equivalent_hours(hours: Sequence[float], celsius: Sequence[float], *, reference: float, q: float) -> float:
    """Hours at the reference temperature (degC) that did as much as the log; `q`: activation over the gas constant, K.

    A reading counts until the next. Source: equivalent age by Arrhenius, sum of exp(-Q (1/T - 1/Ts)) dt.
    """
    at_reference = q / (reference + ZERO_C)
    total = 0.0
    for begin, end, temperature in zip(hours, hours[1:], celsius, strict=False):
        total += exp(at_reference - q / (temperature + ZERO_C)) * (end - begin)
    return total


def degree_hours(hours: Sequence[float], celsius: Sequence[float], *, datum: float) -> float:
    """Degree hours (degC h) above the datum, at and below which nothing happens; a reading counts until the next.

    Source: the temperature-time factor of Nurse and Saul.
    """
    total = 0.0
    for begin, end, temperature in zip(hours, hours[1:], celsius, strict=False):
        if temperature > datum:
            total += (temperature - datum) * (end - begin)
    return total


def checked_log(hours: Sequence[float], celsius: Sequence[float]) -> None:
    """Raises `log_too_short`, `log_not_in_order`, `log_with_gap` (over three times the usual spacing), `outside`."""
    if len(hours) < 2:
        raise Unworkable("log_too_short", field="log")
    spacings = list(map(sub, hours[1:], hours))
    if min(spacings) <= 0:
        place = next(place for place, it in enumerate(spacings) if it <= 0)
        raise Unworkable(
            "log_not_in_order", field="log", got=f"{hours[place + 1]:.6g} h", other=f"{hours[place]:.6g} h"
        )
    longest = max(spacings)
    if longest > MOST_GAP * min(spacings):  # else none is, whatever is usual
        most = MOST_GAP * median(spacings)
        if longest > most * (1 + 1e-9):
            begins = hours[spacings.index(longest)]
            raise Unworkable("log_with_gap", field="log", got=f"{begins:.6g} h", most=f"{most:.6g} h")
    for extreme in (min(celsius), max(celsius)):
        within(extreme, field="log", least=-60, most=200, unit="°C")
