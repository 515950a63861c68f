"""The figure of pipe: which inputs belong to which material, which clause speaks of which line, and refusals."""

import pytest

from repairlog.figures.pipe import PIPE
from tests.makers.figures import refused, worked

STEEL = {"material": "steel", "nps": "2", "schedule": "40", "pressure": "60 psi", "grade": "B"}
PLASTIC = {"material": "plastic", "nps": "2", "sdr": "11", "hdb": "1250 psi", "pressure": "60 psi"}


@pytest.mark.parametrize(
    ("typed", "clause"),
    [
        ({**STEEL, "line": "main"}, "192.509"),
        ({**STEEL, "line": "service"}, "192.511"),
        ({**PLASTIC, "line": "main"}, "192.513"),
        ({**PLASTIC, "line": "service"}, "192.513"),
        ({"material": "copper", "nps": "3/4", "pressure": "10 psi", "line": "service"}, "192.511"),
    ],
)
def test_the_kind_of_line_finds_its_clause(typed: dict[str, str], clause: str) -> None:
    assert worked(PIPE, **typed)["clause"] == clause


@pytest.mark.parametrize(
    ("typed", "key", "value"),
    [
        ({"nps": '1 1/4"'}, "od_in", 1.66),
        ({"nps": "NPS 2"}, "od_in", 2.375),
        ({"nps": "1-1/4 in."}, "od_in", 1.66),
        ({"schedule": "Sch. 80"}, "wall_in", 0.218),
        ({"schedule": "S40"}, "wall_in", 0.154),
        ({"schedule": "std"}, "wall_in", 0.154),
        ({"grade": "Gr. B"}, "percent_smys", 1.32189239332),
        ({"grade": "API 5L X-52"}, "percent_smys", 0.889735264735),
        ({"material": "Steel"}, "od_in", 2.375),
        ({"test_clause": "49 CFR § 192.509 (b)"}, "least_test_psig", 90),
    ],
)
def test_sizes_schedules_grades_and_clauses_are_read_as_people_write_them(
    typed: dict[str, str], key: str, value: float
) -> None:
    assert worked(PIPE, **{**STEEL, **typed})[key] == pytest.approx(value, rel=1e-9)


def test_a_pressure_above_what_the_design_allows_is_told() -> None:
    told = [
        any("above what the design allows" in it for it in worked(PIPE, **{**PLASTIC, "pressure": psi})["cautions"])
        for psi in ("79.9 psi", "80 psi", "80.1 psi")
    ]
    assert told == [False, False, True]


def test_what_was_not_asked_is_left_out() -> None:
    found = worked(PIPE, material="copper", nps="1/2")
    assert {key for key in found if key.endswith(("_in", "_psi", "_psig", "_smys"))} == {"od_in", "wall_in", "id_in"}


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({}, [("material", "missing")]),
        ({"material": "wood"}, [("material", "not_a_choice")]),
        ({"material": "steel"}, [("od", "missing")]),
        ({**STEEL, "schedule": ""}, [("schedule", "missing")]),
        ({**STEEL, "schedule": "41"}, [("schedule", "not_a_choice")]),
        ({**STEEL, "nps": "22", "schedule": "40"}, [("schedule", "not_a_choice")]),
        ({**STEEL, "nps": "2.1"}, [("nps", "not_a_choice")]),
        ({**STEEL, "nps": "two"}, [("nps", "number_unreadable")]),
        ({**STEEL, "nps": "1e400"}, [("nps", "number_unreadable")]),
        ({**STEEL, "od": "2 in"}, [("od", "not_together")]),
        ({**STEEL, "sdr": "11"}, [("sdr", "not_of_material")]),
        ({**STEEL, "grade": "X43"}, [("grade", "not_a_choice")]),
        ({**STEEL, "smys": "35000 psi"}, [("smys", "given_both")]),
        ({**STEEL, "class_location": "5"}, [("class_location", "not_a_choice")]),
        ({**STEEL, "joint_factor": "1.01"}, [("joint_factor", "outside")]),
        ({**STEEL, "joint_factor": "0"}, [("joint_factor", "not_above_zero")]),
        ({**STEEL, "pressure": "-1 psi"}, [("pressure", "negative")]),
        ({**STEEL, "pressure": "60 psia"}, [("pressure", "gauge_asked")]),
        ({"material": "steel", "od": "2 in", "wall": "1 in"}, [("wall", "wall_too_thick")]),
        ({"material": "steel", "od": "2 in", "wall": "-1 in"}, [("wall", "negative")]),
        ({"material": "steel", "od": "2 in", "wall": "0 in"}, [("wall", "not_above_zero")]),
        ({**PLASTIC, "design_factor": "0.41"}, [("design_factor", "outside")]),
        ({**PLASTIC, "nps": "12", "design_factor": "0.40"}, []),
        ({**PLASTIC, "nps": "14", "design_factor": "0.40"}, [("design_factor", "too_wide_for_factor")]),
        ({**PLASTIC, "sdr": "2"}, [("sdr", "outside")]),
        ({**PLASTIC, "grade": "B"}, [("grade", "not_of_material")]),
        ({**PLASTIC, "wall": "0.2 in"}, [("wall", "not_together")]),
        ({"material": "copper", "nps": "1/2", "hdb": "1250 psi"}, [("hdb", "not_of_material")]),
        ({"material": "copper", "nps": "2"}, [("nps", "not_a_choice")]),
        ({**STEEL, "test_clause": "192.513"}, [("test_clause", "clause_not_for")]),
        ({**PLASTIC, "test_clause": "192.509"}, [("test_clause", "clause_not_for")]),
        ({**STEEL, "test_clause": "192.999"}, [("test_clause", "not_a_choice")]),
        ({**STEEL, "test_clause": "192.509", "line": "main"}, [("line", "given_both")]),
        ({**STEEL, "test_clause": "192.509", "pressure": ""}, [("pressure", "missing")]),
        ({**STEEL, "test_clause": "192.509", "pressure": "100 psi"}, [("test_clause", "clause_not_for")]),
        ({**STEEL, "test_clause": "192.511", "pressure": "0.9 psi"}, [("test_clause", "no_test_pressure")]),
        ({**STEEL, "test_clause": "192.507", "pressure": "100 psi"}, [("test_clause", "no_test_pressure")]),
        ({**STEEL, "test_clause": "192.505", "pressure": "1500 psi"}, [("test_clause", "no_test_pressure")]),
        ({**STEEL, "test_clause": "192.511", "pressure": "1000 psi"}, [("test_clause", "clause_not_for")]),
        ({**STEEL, "test_clause": "49 CFR 192.511(b)"}, []),
        ({"material": "copper", "pressure": "10 psi", "line": "transmission"}, [("line", "no_clause")]),
    ],
)
def test_what_does_not_fit_is_refused_in_the_words_of_its_field(
    typed: dict[str, str], complaints: list[tuple[str, str]]
) -> None:
    assert refused(PIPE, **typed) == complaints
