"""Every complaint about a measure has its sentence and says what to do."""

import re
from pathlib import Path

import pytest

import repairlog.units
from repairlog.units import NotUnderstood, read
from repairlog.words.measures import sentence

SOURCES = sorted(Path(repairlog.units.__file__).parent.glob("*.py"))
CODES = sorted({code for file in SOURCES for code in re.findall(r'complaint\(\s*"(\w+)"', file.read_text())})
PLAIN = ("got", "unit", "other", "wanted", "longest", "most", "least", "basis", "limit", "atmosphere", "named")
FACTS: dict[str, str | list[str]] = {**dict.fromkeys(PLAIN, "it"), "would_have": ["this", "that"]}


@pytest.mark.parametrize("code", CODES)
def test_a_complaint_of_units_is_a_sentence_with_something_to_do(code: str) -> None:
    message, hint = sentence(code, FACTS)
    assert (message[-1], hint[-1], "{" in message + hint, len(CODES) > 20) == (".", ".", False, True)


def told(text: str, quantity: str, *, gas: str | None = None) -> tuple[str, str]:
    with pytest.raises(NotUnderstood) as refused:
        read(text, quantity, gas=gas)
    return sentence(refused.value.code, refused.value.facts)


def test_an_unknown_unit_is_told_with_one_that_is_known() -> None:
    assert told("45 psy", "pressure") == ("The unit “psy” is not known here.", "Write one that is, such as: 45 psi.")


def test_a_unit_of_something_else_is_told_with_what_it_measures() -> None:
    assert told("5 psi", "hole") == (
        "“psi” measures a pressure; this asks for a size.",
        "Write one of its units, such as: 5 in, 5 mm.",
    )


def test_a_decimal_comma_is_told_with_both_ways_out() -> None:
    assert told("1,5 psi", "pressure") == (
        "The comma in “1,5 psi” can be read in two ways.",
        "Write a point for decimals (1.5), and a comma only before each group of three digits (1,500).",
    )


def test_a_gas_that_is_not_the_one_asked_for_is_told_by_name() -> None:
    assert told("35 ppm CO", "gas", gas="methane") == (
        "“35 ppm CO” speaks of carbon monoxide; methane is asked for.",
        "Choose the gas that the instrument read.",
    )


def test_braces_that_a_person_typed_are_told_as_they_are() -> None:
    assert told("{0} {got}", "pressure")[0] == "No single number can be read in “{0} {got}”."
