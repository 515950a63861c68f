"""What cannot be read: which complaint, with which facts, and at once."""

import time
from decimal import Decimal

import pytest

from repairlog.units import NotUnderstood, read

REFUSED = [
    ("pressure", "", "empty"),
    ("pressure", " \u200b\t", "empty"),
    ("pressure", "6" * 81, "too_long"),
    ("pressure", "psi", "number_unreadable"),
    ("pressure", "psi 60", "number_unreadable"),
    ("pressure", "inf psi", "number_unreadable"),
    ("pressure", "nan psi", "number_unreadable"),
    ("pressure", "Infinity psi", "number_unreadable"),
    ("pressure", "1e400 psi", "number_unreadable"),
    ("pressure", "1e5 psi", "number_unreadable"),
    ("pressure", "0x10 psi", "number_unreadable"),
    ("pressure", "9**9**9", "number_unreadable"),
    ("pressure", "9**9**9 psi", "number_unreadable"),
    ("pressure", "1.2.3 psi", "number_unreadable"),
    ("pressure", "1 000 psi", "number_unreadable"),
    ("pressure", "40-60 psi", "number_unreadable"),
    ("pressure", "40 to 60 psi", "number_unreadable"),
    ("pressure", "<5 psi", "number_unreadable"),
    ("pressure", "60/10 psi", "number_unreadable"),
    ("hole", "11/4 in", "number_unreadable"),  # 2 3/4, or 1 1/4 with its blank left out
    ("hole", "21/2 in", "number_unreadable"),
    ("hole", "113/16 in", "number_unreadable"),
    ("hole", "10/8 in", "number_unreadable"),
    ("pressure", "1/7 psi", "number_unreadable"),
    ("pressure", "\u0661 psi", "number_unreadable"),
    ("hole", "3/0 in", "number_unreadable"),
    ("hole", "1 9/8 in", "number_unreadable"),
    ("hole", "2 \u00d7 3 in", "number_unreadable"),
    ("pressure", "1,5 psi", "comma_unclear"),
    ("pressure", "1,00 psi", "comma_unclear"),
    ("pressure", "1,0000 psi", "comma_unclear"),
    ("pressure", "0,250 psi", "comma_unclear"),
    ("pressure", "1234,567 psi", "comma_unclear"),
    ("pressure", "60", "unit_missing"),
    ("temperature", "57°", "unit_missing"),
    ("distance", "6 ft 3", "unit_missing"),
    ("gas", "20", "unit_missing"),
    ("gas", "20 %", "unit_missing"),
    ("pressure", "45 psy", "unit_unknown"),
    ("pressure", "0.4 mPa", "unit_unknown"),
    ("pressure", "75 Mbar", "unit_unknown"),
    ("pressure", "60 psig abs", "unit_unknown"),
    ("pressure", "60 psi psi", "unit_unknown"),
    ("hole", "5 m", "unit_unknown"),
    ("gas", "5 ppm m", "unit_unknown"),
    ("gas", "3 % gas (4.4)", "unit_unknown"),
    ("pressure", "20 C", "unit_of_other_quantity"),
    ("pressure", "20 %LEL", "unit_of_other_quantity"),
    ("gas", "5 psi", "unit_of_other_quantity"),
    ("area", "10 ft", "unit_of_other_quantity"),
    ("atmosphere", "12.1 psig", "gauge_not_absolute"),
    ("duration", "2:30", "duration_unclear"),
    ("duration", "1:30 min", "duration_unclear"),
    ("distance", "6 ft 14 in", "parts_unclear"),
    ("distance", "6.5 ft 3 in", "parts_unclear"),
    ("distance", "3 in 6 ft", "parts_unclear"),
    ("distance", "-3 ft", "negative"),
    ("hole", "-1/16 in", "negative"),
    ("duration", "-5 min", "negative"),
    ("area", "-1 m2", "negative"),
    ("gas", "-1 ppm", "negative"),
    ("gas", "20 % LEL CO", "gas_mismatch"),
    ("gas", "3 % CO", "gas_mismatch"),
    ("gas", "45 %LEL (4.5)", "lel_unknown"),
    ("gas", "20 %LEL propane (5.0)", "lel_unknown"),
    ("pressure", "9999999999999999 psi", "too_large"),
    ("pressure", "101 MPa", "too_large"),
]


@pytest.mark.parametrize(("quantity", "text", "code"), REFUSED)
def test_what_cannot_be_read_is_refused_for_its_own_reason_and_at_once(quantity: str, text: str, code: str) -> None:
    begun = time.monotonic()
    with pytest.raises(NotUnderstood) as refused:
        read(text, quantity)
    assert (refused.value.code, time.monotonic() - begun < 1) == (code, True)


def facts(text: str, quantity: str, *, gas: str | None = None) -> dict[str, str | list[str]]:
    with pytest.raises(NotUnderstood) as refused:
        read(text, quantity, gas=gas)
    return refused.value.facts


def test_an_unknown_unit_names_what_came_and_what_is_a_slip_away() -> None:
    assert facts("45 psy", "pressure") == {"got": "45 psy", "unit": "psy", "would_have": ["45 psi"]}


def test_a_bare_number_is_asked_which_unit_is_meant() -> None:
    assert facts("3/16", "hole") == {"got": "3/16", "would_have": ["3/16 in", "3/16 mm"]}


def test_a_bare_per_cent_is_asked_of_what() -> None:
    assert facts("20 %", "gas") == {"got": "20 %", "would_have": ["20 %LEL", "20 %gas"]}


def test_a_bare_number_under_carbon_monoxide_is_asked_for_ppm_alone() -> None:
    assert facts("35", "gas", gas="carbon_monoxide") == {"got": "35", "would_have": ["35 ppm CO"]}


def test_a_gas_in_the_text_that_is_not_the_one_of_the_field_is_told_with_both() -> None:
    assert facts("35 ppm CO", "gas", gas="methane") == {
        "got": "35 ppm CO",
        "named": "carbon_monoxide",
        "expected": "methane",
    }


def test_hours_and_minutes_with_a_colon_are_asked_which() -> None:
    assert facts("2:30", "duration") == {"got": "2:30", "would_have": ["2 h 30 min", "2 min 30 s"]}


def taken(text: str, quantity: str, **given: Decimal) -> str:
    """The canonical text, or the code of the complaint."""
    try:
        return read(text, quantity, **given).canonical
    except NotUnderstood as complaint:
        return complaint.code


def test_a_gauge_pressure_ends_at_the_atmosphere_below_nothing() -> None:
    found = [taken(f"{kpa} kPa", "pressure") for kpa in ("-101.324", "-101.325", "-101.326")]
    assert found == ["-101.324 kPa gauge", "-101.325 kPa gauge", "below_vacuum"]


def test_the_local_atmosphere_sets_where_a_vacuum_is() -> None:
    found = [taken(f"{kpa} kPa", "pressure", atmosphere=Decimal("83.4")) for kpa in ("-83.3", "-83.4", "-83.5")]
    assert found == ["-83.3 kPa gauge", "-83.4 kPa gauge", "below_vacuum"]


def test_an_absolute_pressure_ends_at_zero() -> None:
    found = [taken(text, "pressure") for text in ("0.001 psia", "0 psia", "-0.001 psia")]
    assert found == ["0.00689475729 kPa absolute", "0 kPa absolute", "below_vacuum"]


def test_a_height_above_the_sea_ends_where_the_standard_atmosphere_is_worked_out_no_more() -> None:
    high = [taken(f"{metres} m", "elevation") for metres in ("10999.9", "11000", "11000.1")]
    low = [taken(f"{metres} m", "elevation") for metres in ("-999.9", "-1000", "-1000.1")]
    assert high == ["10999.9 m", "11000 m", "elevation_out_of_range"]
    assert low == ["-999.9 m", "-1000 m", "elevation_out_of_range"]


def test_temperature_ends_at_absolute_zero_on_every_scale() -> None:
    # Source: definition of the degree Celsius; -459.67 F and 0 K are the same.
    found = [
        taken(text, "temperature") for text in ("-273.15 C", "-459.67 F", "0 K", "-273.151 C", "-459.671 F", "-1 K")
    ]
    assert found == ["-273.15 degC"] * 3 + ["below_absolute_zero"] * 3


def test_a_gas_reading_ends_at_the_whole_of_the_air() -> None:
    texts = ("99.9 % gas", "100 % gas", "100.1 % gas", "1000000 ppm CO", "1000001 ppm CO", "2001 %LEL", "100 %LEL")
    assert [taken(text, "gas") for text in texts] == [
        "99.9 %gas methane",
        "100 %gas methane",
        "above_hundred_percent",
        "1000000 ppm carbon_monoxide",
        "above_hundred_percent",
        "above_hundred_percent",
        "5 %gas methane",
    ]


def test_the_longest_text_is_eighty_characters() -> None:
    found = [taken("60" + " " * blanks + "psi", "pressure") for blanks in (74, 75, 76)]
    assert found == ["413.685438 kPa gauge", "413.685438 kPa gauge", "too_long"]
