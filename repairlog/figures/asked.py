"""Reading what was typed for a figure, field by field, by its declaration."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from decimal import Context, Decimal
from fractions import Fraction
from typing import cast

from repairlog.figures.declared import Asked, Figure, Input, Worth
from repairlog.trade.unworkable import Unworkable
from repairlog.units import QUANTITIES, STANDARD_ATMOSPHERE, Measure, NotUnderstood, atmosphere_at, convert, read, shown
from repairlog.units.conversion import on_basis
from repairlog.units.exact import plain
from repairlog.units.measure import amount
from repairlog.units.numbers import number_first
from repairlog.units.quantities import unit_of
from repairlog.units.signs import as_typed, plainly
from repairlog.words import _

Typed = Mapping[str, str | bool | Sequence[str] | None]
MOST_GIVEN = 1000  # times that one input is given again
_FRACTION = re.compile(r"(-?[0-9]{1,4}) ?/ ?([1-9][0-9]{0,3})")
_PER_CENT = re.compile(r" ?(?:%|per ?cent|pct\.?)$", re.IGNORECASE)
_WIDE = Context(prec=40)


def asked(figure: Figure, typed: Typed) -> tuple[Asked | None, tuple[Unworkable, ...]]:
    """What was typed, as read, or every complaint about it; the first of the two is None where there is one."""
    complaints: list[Unworkable] = []
    given = {it.name: typed[it.name] for it in figure.inputs if _is_given(typed.get(it.name))}
    atmosphere = STANDARD_ATMOSPHERE
    try:
        atmosphere = _atmosphere(given)
    except Unworkable as complaint:
        complaints.append(complaint)
    values: dict[str, Worth] = {}
    said: dict[str, str] = {}
    for it in figure.inputs:
        raw = given.get(it.name, it.default or None)
        if raw is None or (it.name in ("atmosphere", "elevation") and complaints):
            continue
        try:
            values[it.name], said[it.name] = _one_or_many(it, raw, atmosphere=atmosphere)
        except Unworkable as complaint:
            complaints.append(complaint)
    if complaints:
        return None, tuple(complaints)
    return Asked(values=values, typed=frozenset(given), shown=said, atmosphere_kpa=atmosphere), ()


def measure(of: Asked, name: str) -> Measure:
    """The measure that was given; raises `missing`."""
    return cast(Measure, needed(of, name))


def needed(of: Asked, name: str) -> Worth:
    """What was given or stands as the default; raises `missing`."""
    if name not in of.values:
        raise Unworkable("missing", field=name)
    return of.values[name]


def amount_in(of: Asked, name: str, *, unit: str) -> float:
    """The measure in a unit of ours of its family (`m`, `Pa`, `K`), correctly rounded; raises `missing`."""
    return in_unit(measure(of, name), unit=unit)


def in_unit(it: Measure, *, unit: str) -> float:
    """A measure in a unit of ours of its family, correctly rounded; a pressure keeps its basis."""
    return float(in_unit_exact(it, unit=unit))


def in_unit_exact(it: Measure, *, unit: str) -> Fraction:
    """The same, exactly."""
    found = amount(it)
    here, there = unit_of(found.unit), unit_of(unit)
    return (found.exact - Fraction(here.zero)) * here.size / there.size + Fraction(there.zero)


def absolute_pa(of: Asked, name: str, *, atmosphere_kpa: Decimal | None = None) -> float:
    """The pressure, absolute, in Pa, on the atmosphere that was given or on another."""
    it = measure(of, name)
    on = of.atmosphere_kpa if atmosphere_kpa is None else atmosphere_kpa
    return float(on_basis(amount(it), it, basis="absolute", atmosphere=on).exact * 1000)


def number(of: Asked, name: str) -> float:
    """The bare number that was given; raises `missing`."""
    return float(cast(Decimal, needed(of, name)))


def difference_k(of: Asked, name: str) -> float:
    """So many degrees as a difference, in K."""
    it = measure(of, name)
    return float(Fraction(it.value) * unit_of(it.unit).size)


def positive(of: Asked, name: str, *, unit: str) -> float:
    """The measure in that unit, which must be above zero."""
    value = amount_in(of, name, unit=unit)
    if value <= 0:
        raise Unworkable("not_above_zero", field=name, got=measure(of, name).typed)
    return value


def read_as(text: str, quantity: str, *, field: str, atmosphere: Decimal = STANDARD_ATMOSPHERE) -> Measure:
    """A measure inside a longer text; raises `Unworkable` in the words of the field."""
    try:
        return read(text, quantity, atmosphere=atmosphere)
    except NotUnderstood as complaint:
        raise in_words(complaint, field) from None


def bare_number(text: str, *, field: str) -> Decimal:
    """A number without a unit: digits or any fraction, `2/3` or `7/9`; raises `Unworkable`."""
    try:
        said = plainly(as_typed(text))
        if over := _FRACTION.fullmatch(said):
            return _WIDE.divide(Decimal(over[1]), Decimal(over[2]))
        head = number_first(said, got=text[:80])
    except NotUnderstood as complaint:
        raise in_words(complaint, field) from None
    if head.rest:
        raise Unworkable("number_alone", field=field, got=text[:80])
    return head.value


def _is_given(raw: object) -> bool:
    return raw not in (None, "", False, (), [])


def _atmosphere(given: Mapping[str, object]) -> Decimal:
    if "atmosphere" in given and "elevation" in given:
        raise Unworkable("given_both", field="elevation", other="atmosphere")
    if "atmosphere" in given:
        text = str(given["atmosphere"])
        return convert(read_as(text, "atmosphere", field="atmosphere"), "kPa").value
    if "elevation" in given:
        return atmosphere_at(convert(read_as(str(given["elevation"]), "elevation", field="elevation"), "m").value)
    return STANDARD_ATMOSPHERE


def _one_or_many(it: Input, raw: object, *, atmosphere: Decimal) -> tuple[Worth, str]:
    if not it.many:
        return _read(it, raw, atmosphere=atmosphere)
    texts = [raw] if isinstance(raw, str) else list(cast(Sequence[str], raw))
    if len(texts) > MOST_GIVEN:
        raise Unworkable("too_many", field=it.name, most=str(MOST_GIVEN))
    pairs = [_read(it, each, atmosphere=atmosphere) for each in texts]
    return tuple(value for value, _shown in pairs), "; ".join(said for _value, said in pairs)


def _read(it: Input, raw: object, *, atmosphere: Decimal) -> tuple[Worth, str]:
    if it.kind == "yes":
        return True, _("yes")
    if it.kind == "file":
        return str(raw), _("{lines:,} lines").format(lines=len(str(raw).splitlines()))
    text = str(raw).strip()
    if it.kind in QUANTITIES:
        found = read_as(text, it.kind, field=it.name, atmosphere=atmosphere)
        return found, shown(found)
    if it.kind == "difference":
        found = read_as(text, "temperature", field=it.name)
        if found.value < 0:
            raise Unworkable("negative", field=it.name, got=text[:80])
        return found, shown(found)
    if it.kind == "choice":
        return _chosen(it, text)
    if it.kind == "hours":
        return _hours(it, text)
    if it.kind in ("number", "share", "year"):
        return _number(it, text)
    return text, text


def _chosen(it: Input, text: str) -> tuple[str, str]:
    code = next((each for each in it.choices if each.casefold() == text.casefold()), None)
    if code is None:
        raise Unworkable("not_a_choice", field=it.name, got=text[:80], would_have=", ".join(it.choices))
    return code, it.words.get(code, code)


def _hours(it: Input, text: str) -> tuple[Decimal, str]:
    """So many hours, bare or with a unit of time."""
    try:
        value = bare_number(text, field=it.name)
    except Unworkable as complaint:
        if complaint.code != "number_alone":
            raise
        value = Decimal(str(in_unit(read_as(text, "duration", field=it.name), unit="h")))
    return value, plain(value)


def _number(it: Input, text: str) -> tuple[Decimal, str]:
    share = _PER_CENT.sub("", text) if it.kind == "share" else text
    per_cent = share != text
    value = bare_number(share, field=it.name)
    value = value / 100 if per_cent else value
    if it.kind == "share" and not 0 <= value <= 1:
        raise Unworkable("not_a_share", field=it.name, got=text[:80])
    if it.kind == "year" and (value != value.to_integral_value() or not 1900 <= value <= 2200):
        raise Unworkable("not_a_year", field=it.name, got=text[:80])
    return value, plain(value)


def in_words(complaint: NotUnderstood, field: str) -> Unworkable:
    """What could not be read, as a complaint about that input."""
    facts = {name: value if isinstance(value, str) else ", ".join(value) for name, value in complaint.facts.items()}
    return Unworkable(complaint.code, field=field, **facts)
