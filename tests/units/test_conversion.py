"""A reading in another unit: gauge and absolute, and the ways of writing a gas reading."""

from decimal import Decimal

import pytest

from repairlog.units import NotUnderstood, atmosphere_at, convert, quantities_of, read


def test_gauge_becomes_absolute_by_the_local_atmosphere_and_back() -> None:
    # Source: definition of gauge pressure; 1 psi = 6.894757293... kPa (NIST SP 811, 2008).
    gauge, local = read("60 psi", "pressure"), Decimal("83.4317691")
    absolute = convert(gauge, "psia", atmosphere=local)
    back = convert(read(f"{absolute.value} psia", "pressure"), "psig", atmosphere=local)
    assert (absolute.value, absolute.unit, absolute.basis, absolute.canonical, back.value, back.basis) == (
        Decimal("72.1007550451"),
        "psi",
        "absolute",
        "497.117207 kPa absolute",
        Decimal("60.0000000000"),
        "gauge",
    )


def test_a_unit_that_says_no_basis_keeps_that_of_the_reading() -> None:
    found = [convert(read(text, "pressure"), "psi").basis for text in ("4 bar", "4 bar abs")]
    assert found == ["gauge", "absolute"]


def test_a_reading_in_lel_keeps_its_own_limit_unless_another_is_asked_for() -> None:
    reading = read("20 %LEL (4.4)", "gas")
    found = [convert(reading, "%LEL", lel_basis=basis).value for basis in (None, Decimal("4.4"), Decimal("5.0"))]
    assert (found, convert(reading, "%LEL (5.0)").value) == (
        [Decimal(20), Decimal(20), Decimal("17.6")],
        Decimal("17.6"),
    )


def code_of(text: str, to: str, quantity: str = "gas") -> str:
    with pytest.raises(NotUnderstood) as refused:
        convert(read(text, quantity), to)
    return refused.value.code


@pytest.mark.parametrize(
    ("text", "to", "code"),
    [
        ("250 ppm-m", "ppm", "not_convertible"),
        ("250 ppm", "ppm-m", "not_convertible"),
        ("35 ppm CO", "%gas", "not_convertible"),
        ("35 ppm CO", "ppm methane", "gas_mismatch"),
        ("35 ppm", "%", "unit_unknown"),
        ("35 ppm", "psi", "unit_of_other_quantity"),
    ],
)
def test_a_path_or_carbon_monoxide_is_never_made_a_concentration_of_gas(text: str, to: str, code: str) -> None:
    assert code_of(text, to) == code


def test_what_cannot_be_in_the_unit_asked_for_is_refused() -> None:
    found = [code_of("7 in wc", to, "pressure") for to in ("mm", "furlong", "%LEL", "")]
    assert found == ["unit_of_other_quantity", "unit_unknown", "unit_of_other_quantity", "empty"]


def test_the_standard_atmosphere_ends_where_its_lowest_layer_does() -> None:
    def at(metres: str) -> str:
        try:
            return str(atmosphere_at(Decimal(metres)))
        except NotUnderstood as complaint:
            return complaint.code

    # Source of the figures: the library fluids, its own code of the U.S. Standard Atmosphere 1976.
    outside = "elevation_out_of_range"
    found = [at(it) for it in ("-1001", "-1000", "-999", "10999", "11000", "11001", "NaN", "Infinity")]
    assert found == [outside, "113.931161", "113.917948", "22.7035261", "22.6999607", outside, outside, outside]


@pytest.mark.parametrize(
    ("unit", "names"),
    [
        ("kPa", ("pressure",)),
        ("psia", ("pressure",)),
        ("mm", ("hole", "distance", "thickness")),
        ("in", ("pressure", "hole", "distance", "thickness")),
        ("mil", ("thickness",)),
        ("F", ("temperature",)),
        ("%gas", ("gas",)),
        ("m2", ("area",)),
        ("furlong", ()),
    ],
)
def test_a_unit_names_the_quantities_that_have_it(unit: str, names: tuple[str, ...]) -> None:
    assert quantities_of(unit) == names
