"""A measure on a page: as typed with gauge or absolute, and in another unit beside it."""

from decimal import Decimal

import pytest

from repairlog import units
from repairlog.words.story.measured import as_typed, beside


@pytest.mark.parametrize(
    ("typed", "quantity", "said", "also"),
    [
        ("45 psi", "pressure", "45 psi gauge", "310 kPa"),
        ("59.7 psi absolute", "pressure", "59.7 psi absolute", "412 kPa absolute"),
        ("60 psig", "pressure", "60 psig", "414 kPa"),
        ("60 psia", "pressure", "60 psia", "414 kPa absolute"),
        ("310 kPa", "pressure", "310 kPa gauge", "45 psi"),
        ("412 kPa absolute", "pressure", "412 kPa absolute", "59.8 psi absolute"),
        ("3 in wc", "pressure", "3 in wc gauge", "0.747 kPa"),
        ("0 psi", "pressure", "0 psi gauge", ""),
        ("1,000 psi", "pressure", "1,000 psi gauge", "6895 kPa"),
        ("57 F", "temperature", "57 F", "13.9 °C"),
        ("-2 C", "temperature", "-2 C", "28.4 °F"),
        ("0 C", "temperature", "0 C", "32 °F"),
        ("1/16 in", "hole", "1/16 in", "1.59 mm"),
        ("5 mm", "hole", "5 mm", "0.197 in"),
        ("6 ft 3 in", "distance", "6 ft 3 in", "1.9 m"),
        ("40 sq ft", "area", "40 sq ft", "3.72 m²"),
        ("15 min", "duration", "15 min", ""),
        ("60 %LEL", "gas", "60 %LEL", "3 % gas"),
        ("2.5 %gas", "gas", "2.5 %gas", ""),
        ("400 ppm", "gas", "400 ppm", "0.04 % gas"),
        ("0 %LEL", "gas", "0 %LEL", ""),
        ("35 ppm CO", "gas", "35 ppm CO", ""),
        ("60 ppm-m", "gas", "60 ppm-m", ""),
    ],
)
def test_a_measure_stands_as_typed_with_the_same_in_another_unit(typed, quantity, said, also):
    canonical = units.read(typed, quantity).canonical
    assert (as_typed(typed, canonical), beside(typed, canonical, quantity=quantity, lel_basis="")) == (said, also)


def test_a_reading_on_another_explosive_limit_says_so():
    canonical = units.read("60 %LEL", "gas", lel_basis=Decimal("4.4")).canonical
    assert beside("60 %LEL", canonical, quantity="gas", lel_basis="4.4") == "2.64 % gas, LEL 4.4 %"
    assert beside("2.64 %gas", canonical, quantity="gas", lel_basis="4.4") == "60 %LEL, LEL 4.4 %"
    assert beside("2.64 %gas", canonical, quantity="gas", lel_basis="5.0") == "52.8 %LEL"
    assert beside("2.64 %gas", canonical, quantity="gas", lel_basis="") == ""


def test_a_gas_with_one_explosive_limit_needs_none_said():
    canonical = units.read("0.42 %gas", "gas", gas="propane").canonical
    assert beside("0.42 %gas", canonical, quantity="gas", lel_basis="4.4") == "20 %LEL"


def test_what_was_kept_as_text_stands_as_it_was_written_and_nothing_beside_it():
    assert as_typed("as usual", "") == "as usual"
    assert beside("as usual", "", quantity="pressure", lel_basis="") == ""


@pytest.mark.parametrize(
    ("typed", "quantity", "liked", "also"),
    [
        ("45 psi", "pressure", "in wc", "1246 in wc"),  # 45 x 27.68 (60 F); NIST SP 811: 1 psi = 6894.757 Pa
        ("45 psi", "pressure", "psi", ""),
        ("59.7 psi absolute", "pressure", "bar", "4.12 bar absolute"),
        ("7 in wc", "pressure", "psi", "0.253 psi"),
        ("57 F", "temperature", "°C", "13.9 °C"),
        ("57 F", "temperature", "°F", ""),
        ("1/16 in", "hole", "in", ""),
        ("0 psi", "pressure", "bar", ""),
        ("15 min", "duration", "h", ""),
    ],
)
def test_a_measure_is_said_in_the_unit_that_the_reader_likes(typed, quantity, liked, also):
    canonical = units.read(typed, quantity).canonical
    assert beside(typed, canonical, quantity=quantity, lel_basis="", liked=liked) == also


def test_a_reading_is_said_in_per_cent_only_where_it_is_known_what_counts_as_100_lel():
    canonical = units.read("60 %LEL", "gas", gas="methane", lel_basis=Decimal("5.0")).canonical
    assert beside("60 %LEL", canonical, quantity="gas", lel_basis="5.0", liked="%gas") == "3 % gas"
    assert beside("60 %LEL", canonical, quantity="gas", lel_basis="5.0", liked="ppm") == "30000 ppm"
    assert beside("60 %LEL", canonical, quantity="gas", lel_basis="5.0", liked="%LEL") == ""
    assert beside("3 %gas", canonical, quantity="gas", lel_basis="", liked="%LEL") == ""


@pytest.mark.parametrize(("typed", "also"), [("4.99 %gas", "99.8 %LEL"), ("5 %gas", "100 %LEL"), ("5.01 %gas", "")])
def test_beyond_the_lower_limit_gas_is_not_said_in_per_cent_of_it(typed, also):
    canonical = units.read(typed, "gas", gas="methane").canonical
    assert beside(typed, canonical, quantity="gas", lel_basis="5.0") == also
