"""Converted rates, bases of gas and units, and the printed conversions that must not come out.

Sources: 0.0192 kg/ft3 of 40 CFR 98.233 (u); gas law between bases; real gas by CoolProp 8.0.0; NIST SP 811 for columns.
"""

import json
from decimal import Decimal

import pint
import pytest
from CoolProp.CoolProp import PropsSI

from repairlog import cli
from repairlog.units import atmosphere_at, convert, read
from tests.makers.published import table

RATES = table("rate_conversions.csv")
COLUMNS = {
    "kg_h": "kg/h",
    "g_min": "g/min",
    "scfh_0_0192": "scfh",
    "scfd_0_0192": "scfd",
    "Mcf_yr_8760": "Mcf/yr",
    "kg_yr_8760": "kg/yr",
}


def converted(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, object]:
    assert cli.run(["figure", "convert", *words, "--json"]) == 0
    return dict(json.loads(capsys.readouterr().out))


@pytest.mark.parametrize("row", RATES, ids=lambda row: f"{row['value']} {row['unit']}")
def test_a_rate_is_given_in_every_unit_of_the_table(row: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    for column, unit in COLUMNS.items():
        found = converted(capsys, f"{row['value']} {row['unit']}", "--to", unit)
        assert found["value"] == pytest.approx(float(row[column]), abs=6e-10, rel=1e-9)
        by_mass = {unit, row["unit"]} & {"scfh", "scfd", "Mcf/yr"} and {unit, row["unit"]} - {"scfh", "scfd", "Mcf/yr"}
        assert ("methane at 0.0192 kg/ft3" in str(found["understood"])) == bool(by_mass)


@pytest.mark.parametrize(
    ("was", "now"), [(("60 F", "14.73 psia"), ("15 C", "101.325 kPa")), (("60 F", "14.65 psia"), ("20 C", "1 atm"))]
)
def test_gas_at_another_base_is_as_much_as_the_real_gas_law_has(
    was: tuple[str, str], now: tuple[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    # Methane by its reference equation; without Z the conversion is within two parts in ten thousand.
    found = converted(capsys, "1000 scf", "--from-base", ", ".join(was), "--to-base", ", ".join(now))

    def density(base: tuple[str, str]) -> float:
        kelvins = float(convert(read(base[0], "temperature"), "K").value)
        pascals = float(convert(read(base[1], "atmosphere"), "Pa").value)
        return float(PropsSI("D", "T", kelvins, "P", pascals, "Methane"))

    assert found["value"] == pytest.approx(1000 * density(was) / density(now), rel=2e-4)
    assert found["unit"] == "scf"


@pytest.fixture(scope="module")
def pints_own() -> "pint.UnitRegistry[float]":
    return pint.UnitRegistry(cache_folder=None)


@pytest.mark.parametrize("unit", ["psia", "oz/in2", "mbar", "atm", "kgf/cm2", "kPa", "bar"])
def test_an_independent_list_of_units_agrees(
    unit: str, pints_own: "pint.UnitRegistry[float]", capsys: pytest.CaptureFixture[str]
) -> None:
    # Pint's own list of units. Elsewhere 125 psi is 8.6 bar: common practice, no source.
    names = {"psia": "psi", "oz/in2": "force_ounce / inch ** 2", "kgf/cm2": "kilogram_force / centimeter ** 2"}
    theirs = pints_own.Quantity(125, "psi").to(names.get(unit, unit)).magnitude
    more = 101.325 / 6.894757293168361 if unit == "psia" else 0
    assert converted(capsys, "125 psi", "--to", unit)["value"] == pytest.approx(theirs + more, rel=1e-11)


@pytest.mark.parametrize(
    ("reading", "to", "value", "digits"),
    [
        # Common practice, no source.
        ("125 psi", "bar", 8.6, 1),
        ("1/8 in", "mm", 3.2, 1),
        ("2 in", "cm", 5.1, 1),
        ("110 F", "C", 43.3, 1),
        ("15 F", "C", -9.4, 1),
        ("1 % gas", "%LEL", 20, 9),
        ("20 %LEL", "% gas", 1, 9),
        ("60 F", "K", 288.706, 3),
    ],
)
def test_conversions_that_every_crew_knows(
    reading: str, to: str, value: float, digits: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert round(float(str(converted(capsys, reading, "--to", to)["value"])), digits) == value


@pytest.mark.parametrize(
    ("reading", "to", "named"),
    [
        ("7 in wc", "psi", "conventional inch of water, 249.08891 Pa"),
        ("0.25 psi", "in wc", "conventional inch of water, 249.08891 Pa"),
        ("7 in wc (60F)", "psi", "inch of water at 60 °F, 248.84 Pa"),
        ("0.25 psi", "in wc (4C)", "inch of water at 4 °C, 249.082 Pa"),
        ("14.7 psia", "in Hg", "conventional inch of mercury, 3386.38864034 Pa"),
        ("60 psi", "kPa", ""),
    ],
)
def test_the_inch_that_is_meant_is_named(reading: str, to: str, named: str, capsys: pytest.CaptureFixture[str]) -> None:
    _shown, _semicolon, beside = str(converted(capsys, reading, "--to", to)["understood"]).partition("; ")
    assert beside == named


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("60 psi", "--to", "kg/h"), "unit_of_other_quantity"),
        (("2 scfh", "--to", "kg"), "unit_of_other_quantity"),
        (("-2 scfh", "--to", "kg/h"), "negative"),
        (("1e400 scfh", "--to", "kg/h"), "number_unreadable"),
        (("1 psi", "--to", "kPa", "--from-base", "60 F, 14.73 psia", "--to-base", "15 C, 1 atm"), "base_of_gas_alone"),
        (("1 kg", "--to", "scf", "--from-base", "60 F, 14.73 psia", "--to-base", "15 C, 1 atm"), "base_of_gas_alone"),
        (("1 scf", "--from-base", "60 F", "--to-base", "15 C, 1 atm"), "not_written_so"),
        (("1 scf", "--from-base", "60 F, 14.73 psig", "--to-base", "15 C, 1 atm"), "gauge_not_absolute"),
        (("1 scf", "--from-base", "-500 F, 14.73 psia", "--to-base", "15 C, 1 atm"), "below_absolute_zero"),
    ],
)
def test_what_cannot_be_converted_is_told(
    words: tuple[str, ...], code: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.run(["figure", "convert", *words, "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["error"]["code"] == code


def test_bases_come_in_twos_and_a_unit_is_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["figure", "convert", "1 scf"]
    codes = [cli.run([*words, "--from-base", "60 F, 14.73 psia"]), cli.run(words)]
    told = capsys.readouterr().err
    assert (codes, "together" in told, "Missing option '--to'" in told) == ([2, 2], True, True)


# What must not come out, though it is printed.


@pytest.mark.parametrize(
    ("feet", "printed", "correct"),
    [
        ("4000", "12.682", "12.693"),  # a handbook's table of standard atmospheres
        ("5000", "12.2277", "12.2283"),  # geopotential heights taken for geometric ones
        ("10000", "10.1065", "10.1084"),
    ],
)
def test_a_misprinted_atmosphere_is_not_reproduced(feet: str, printed: str, correct: str) -> None:
    # U.S. Standard Atmosphere 1976 at geometric heights.
    kpa = atmosphere_at(Decimal(feet) * Decimal("0.3048"))
    psia = convert(read(f"{kpa} kPa", "atmosphere"), "psi").value
    places = Decimal(1).scaleb(-len(correct.partition(".")[2]))
    assert (psia.quantize(places), psia.quantize(places) == Decimal(printed)) == (Decimal(correct), False)


def test_a_rounded_inch_of_mercury_of_a_regulation_is_not_used() -> None:
    # 40 CFR part 98, Table A-2: 2.03625 in Hg to a psi; 2.03602 with mercury at 0 C. Elsewhere 3376.8 Pa stands beside
    # 29.92 in Hg, which is mercury at 60 F beside a barometer at 0 C.
    a_psi = convert(read("1 psi", "pressure"), "in Hg").value
    sea_level = convert(read("101.325 kPa", "atmosphere"), "in Hg").value
    assert (a_psi.quantize(Decimal("0.00001")), sea_level.quantize(Decimal("0.001"))) == (
        Decimal("2.03602"),
        Decimal("29.921"),
    )


def test_span_gas_reads_by_the_limit_that_is_named() -> None:
    # 2.5 % and 2.2 % methane are both sold as 50 % LEL: on 5.0 and on 4.4 per cent. Common practice, no source.
    assert [convert(read("50 %LEL", "gas", lel_basis=Decimal(basis)), "%gas").value for basis in ("5.0", "4.4")] == [
        Decimal("2.5"),
        Decimal("2.2"),
    ]
