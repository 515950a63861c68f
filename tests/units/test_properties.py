"""What holds for any reading: one answer, the same again, in the same order, whatever the thread's arithmetic."""

from decimal import Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.units import (
    QUANTITIES,
    Canonical,
    Measure,
    NotUnderstood,
    at_least,
    at_most,
    convert,
    read,
    shown,
    split_canonical,
)
from repairlog.words.measures import sentence

UNITS = {
    "pressure": ("psi", "psia", "in wc", "oz", "kPa", "mbar", "in Hg", "in wc (60F)"),
    "hole": ("in", "mm", "cm", "ft"),
    "distance": ("ft", "m", "yd", "km"),
    "temperature": ("F", "C", "K", "R"),
    "duration": ("s", "min", "h", "d"),
    "area": ("sq ft", "m2", "in2"),
    "gas": ("%LEL", "%LEL (4.4)", "%gas", "ppm", "ppm CO", "ppm-m", "%LEL propane"),
}
NUMBERS = st.decimals(min_value=0, max_value=90, places=6, allow_nan=False, allow_infinity=False)
TYPED = st.text(alphabet="0123456789./,-+ e*%#'\"°½″()psinwcLEgamkPbrofthlu", max_size=30)


@st.composite
def measures(draw: st.DrawFn, quantity: str = "") -> Measure:
    chosen = quantity or draw(st.sampled_from(sorted(UNITS)))
    return read(f"{draw(NUMBERS)} {draw(st.sampled_from(UNITS[chosen]))}", chosen)


@given(measures())
def test_a_canonical_text_splits_and_reads_back_to_itself(measure: Measure) -> None:
    parts = split_canonical(measure.canonical)
    again = f"{parts.value:f} {parts.unit} {parts.qualifier}".rstrip()
    assert (again, read(measure.canonical, measure.quantity).canonical) == (measure.canonical, measure.canonical)


@given(measures())
def test_what_is_shown_back_reads_the_same(measure: Measure) -> None:
    assert read(shown(measure), measure.quantity).canonical == measure.canonical


@given(measures())
def test_a_canonical_number_is_plain_and_has_nine_digits_at_most(measure: Measure) -> None:
    number = measure.canonical.split(" ")[0]
    digits = Decimal(number).normalize().as_tuple().digits
    assert (set(number) <= set("-0123456789."), len(digits) <= 9) == (True, True)
    assert not ("." in number and number.endswith("0"))


@given(st.data(), st.sampled_from(["pressure", "distance", "temperature", "duration", "area"]))
def test_conversion_and_canonical_text_keep_the_order(data: st.DataObject, quantity: str) -> None:
    units = [unit for unit in UNITS[quantity] if unit != "psia"]
    left, right = (
        read(f"{data.draw(NUMBERS)} {data.draw(st.sampled_from(units))}", quantity) for _ in ("left", "right")
    )
    first, second = (split_canonical(it.canonical).value for it in (left, right))
    assert at_most(left, right) == at_least(right, left)
    assert (first < second) <= at_most(left, right)
    assert at_most(left, right) <= (first <= second)


@given(st.data(), st.sampled_from(["distance", "temperature", "duration", "area"]))
def test_there_and_back_is_the_same_reading(data: st.DataObject, quantity: str) -> None:
    measure = data.draw(measures(quantity))
    to = data.draw(st.sampled_from(UNITS[quantity]))
    there = read(f"{convert(measure, to).value:f} {to}", quantity)
    back = convert(there, measure.unit).value
    assert abs(back - measure.value) <= Decimal("1E-8")


@given(st.one_of(TYPED, st.text(max_size=100)), st.sampled_from(sorted(QUANTITIES)))
def test_any_text_is_a_measure_or_a_complaint_with_a_sentence(text: str, quantity: str) -> None:
    try:
        told = (shown(read(text, quantity)), "")
    except NotUnderstood as complaint:
        told = sentence(complaint.code, complaint.facts)
    assert [type(it) for it in told] == [str, str]
    assert told[0]


@given(measures())
def test_the_arithmetic_of_the_thread_has_no_say(measure: Measure) -> None:
    with localcontext() as context:
        context.prec = 2
        context.Emax = 3
        again = read(measure.typed, measure.quantity)
        amounts = (again.canonical, shown(again), at_most(again, measure), at_least(again, measure))
    assert amounts == (measure.canonical, shown(measure), True, True)


@pytest.mark.parametrize(
    "text", ["", "60", "psi", "kPa 60", "1e3 kPa", "60.0 kPa", "-0 kPa", "NaN kPa", "Infinity kPa", "60 kPa gauge now"]
)
def test_what_is_no_canonical_text_does_not_split(text: str) -> None:
    with pytest.raises(ValueError, match="not a canonical measure"):
        split_canonical(text)


def test_a_canonical_text_splits_into_number_unit_and_qualifier() -> None:
    found = [split_canonical(text) for text in ("310.264078 kPa gauge", "1.5875 mm", "-0.5 degC", "3 %gas methane")]
    assert found == [
        Canonical(Decimal("310.264078"), "kPa", "gauge"),
        Canonical(Decimal("1.5875"), "mm", ""),
        Canonical(Decimal("-0.5"), "degC", ""),
        Canonical(Decimal(3), "%gas", "methane"),
    ]
