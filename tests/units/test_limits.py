"""A measure against a limit: exactly, below it, at it, above it."""

from decimal import Decimal

import pytest

from repairlog.units import Measure, NotUnderstood, at_least, at_most, read


def both(text: str, limit: Measure) -> tuple[bool, bool]:
    """Whether the text is at most, and at least, the limit."""
    measure = read(text, limit.quantity, gas=limit.gas or None)
    return at_most(measure, limit), at_least(measure, limit)


BELOW, AT, ABOVE = (True, False), (True, True), (False, True)


def test_the_limit_itself_fulfils_it_in_the_unit_it_was_typed_in() -> None:
    limit = read("60 psi", "pressure")
    assert [both(text, limit) for text in ("59.999 psi", "60 psi", "60.001 psi")] == [BELOW, AT, ABOVE]


def test_the_same_pressure_in_other_units_is_neither_above_nor_below() -> None:
    # Source: sixteen ounces are a pound, 1000 Pa a kPa, 12 in wc a ft wc: by definition.
    assert [both("16 oz", read("1 psi", "pressure")), both("12 in wc", read("1 ft wc", "pressure"))] == [AT, AT]


def test_a_canonical_pressure_rounded_up_is_above_the_limit_it_came_from() -> None:
    # 60 psi are 413.68543759... kPa, so nine digits of it stand above: the doubtful case does not fulfil the limit.
    limit = read("60 psi", "pressure")
    found = [both(text, limit) for text in ("413.685437 kPa", "413.685438 kPa", "413.685439 kPa")]
    assert found == [BELOW, ABOVE, ABOVE]


def test_gas_readings_meet_a_limit_on_their_own_limit_of_explosion() -> None:
    limit = read("20 %LEL (5.0)", "gas")
    texts = ("0.99 % gas", "1 % gas", "1.01 % gas", "20 %LEL (4.4)", "22.8 %LEL (4.4)", "10000 ppm")
    assert [both(text, limit) for text in texts] == [BELOW, AT, ABOVE, BELOW, ABOVE, AT]


def test_temperatures_are_compared_across_scales() -> None:
    limit = read("32 F", "temperature")
    assert [both(text, limit) for text in ("-0.01 C", "0 C", "0.01 C", "273.15 K")] == [BELOW, AT, ABOVE, AT]


def test_gauge_and_absolute_are_compared_only_by_an_atmosphere() -> None:
    gauge, absolute = read("0 psig", "pressure"), read("101.325 kPa abs", "pressure")
    with pytest.raises(NotUnderstood, match="atmosphere_needed"):
        at_most(gauge, absolute)
    found = [at_most(gauge, absolute, atmosphere=Decimal(kpa)) for kpa in ("101.324", "101.325", "101.326")]
    assert found == [True, True, False]


@pytest.mark.parametrize(("text", "gas"), [("35 ppm", "carbon_monoxide"), ("250 ppm-m", None), ("1 %gas", "propane")])
def test_another_gas_or_a_path_is_not_comparable_with_a_concentration(text: str, gas: str | None) -> None:
    with pytest.raises(NotUnderstood, match="not_comparable"):
        at_least(read(text, "gas", gas=gas), read("20 %LEL", "gas"))
