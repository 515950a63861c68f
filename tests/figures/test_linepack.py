"""The figure of line pack: its properties, and what it refuses."""

import pytest

from repairlog.figures.linepack import LINEPACK
from tests.makers.figures import refused, worked

LINE = {"id": "4.026 in", "length": "2640 ft", "from": "60 psi"}


def test_what_is_let_out_in_two_falls_is_what_is_let_out_in_one() -> None:
    whole = worked(LINEPACK, **LINE)
    first, second = worked(LINEPACK, **LINE, to="20 psi"), worked(LINEPACK, **{**LINE, "from": "20 psi"})
    assert first["vented_scf"] + second["vented_scf"] == pytest.approx(whole["vented_scf"], rel=1e-9)
    assert whole["contents_scf"] == pytest.approx(whole["vented_scf"] + whole["left_scf"], rel=1e-9)


def test_no_fall_lets_nothing_out() -> None:
    assert worked(LINEPACK, **LINE, to="60 psi")["vented_scf"] == 0


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({}, []),
        ({"id": ""}, [("id", "missing")]),
        ({"id": "0 in"}, [("id", "not_above_zero")]),
        ({"length": "-1 ft"}, [("length", "negative")]),
        ({"to": "61 psi"}, [("to", "rises")]),
        ({"to": "-1 psi"}, [("to", "below_atmosphere")]),
        ({"to": "-15 psi"}, [("to", "below_vacuum")]),
        ({"from": "1001 psi"}, [("from", "outside")]),
        ({"from": "1000 psi"}, []),
        ({"from": "500 psi", "temperature": "0 F"}, []),
        ({"from": "501 psi", "temperature": "49 F"}, [("temperature", "outside")]),
        ({"temperature": "-4.1 F"}, [("temperature", "outside")]),
        ({"temperature": "104 F"}, []),
        ({"temperature": "104.1 F"}, [("temperature", "outside")]),
        ({"gravity": "0"}, [("gravity", "not_above_zero")]),
        ({"gravity": "0.71"}, [("gravity", "outside")]),
        ({"length": "1e400 ft"}, [("length", "number_unreadable")]),
    ],
)
def test_outside_its_bounds_there_is_no_number(typed: dict[str, str], complaints: list[tuple[str, str]]) -> None:
    assert refused(LINEPACK, **{**LINE, **typed}) == complaints
