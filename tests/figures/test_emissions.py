"""The figure of a year's methane: parts side by side, cautions, files that operators write, and refusals."""

from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest

from repairlog import shipped
from repairlog.figures import dated
from repairlog.figures.emissions import EMISSIONS
from tests.makers.figures import refused, worked

TABLE = """from_year = 2025
[[factor]]
group = "mains"
name = "plastic"
value = {value}
unit = "{unit}"
mark = "common_practice"
source = "ours"
"""
COUNTED: dict[str, Any] = {"year": "2025", "factors": "subpart-w-2024-ogi", "miles": ["plastic=10"]}


def test_counted_and_measured_stand_side_by_side_and_add_up() -> None:
    found = worked(EMISSIONS, **COUNTED, services=["copper=5"], gas_scf="1000", methane_share="0.9")
    assert [(it["how"], it.get("name", "")) for it in found["parts"]] == [
        ("factor", "plastic"),
        ("factor", "copper"),
        ("measured", ""),
    ]
    assert found["measured_kg"] == pytest.approx(1000 * 0.9 * 0.0192)
    assert found["methane_kg"] == pytest.approx(sum(it["methane_kg"] for it in found["parts"]))
    assert found["methane_kg"] == pytest.approx(found["by_factor_kg"] + found["measured_kg"])


def test_a_factor_from_memory_and_a_table_of_another_year_are_told() -> None:
    def told(**typed: Any) -> list[bool]:
        cautions = " ".join(worked(EMISSIONS, **typed)["cautions"])
        return ["not checked" in cautions, "not the one of" in cautions]

    checked = {"factors": "subpart-w-2024-ogi", "components": ["connector=1"]}
    assert [told(**COUNTED), told(**checked, year="2025"), told(**checked, year="2024")] == [
        [True, False],
        [False, False],
        [False, True],
    ]


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({}, [("year", "missing")]),
        ({"year": "2025"}, [("miles", "missing")]),
        ({"year": "2025", "miles": ["plastic=1"]}, [("factors", "missing")]),
        ({**COUNTED, "factors": "../gwp"}, [("factors", "not_a_choice")]),
        ({**COUNTED, "factors": "gwp"}, [("factors", "not_a_choice")]),
        ({**COUNTED, "miles": ["wood=1"]}, [("miles", "no_such_factor")]),
        ({**COUNTED, "miles": ["copper=1"]}, [("miles", "no_such_factor")]),
        ({**COUNTED, "miles": ["plastic"]}, [("miles", "not_written_so")]),
        ({**COUNTED, "miles": ["plastic=-1"]}, [("miles", "negative")]),
        ({**COUNTED, "miles": ["plastic=1e400"]}, [("miles", "number_unreadable")]),
        ({**COUNTED, "miles": ["plastic=10 mi"]}, [("miles", "number_alone")]),
        ({**COUNTED, "year": "25"}, [("year", "not_a_year")]),
        ({**COUNTED, "year": "2009"}, [("year", "gwp_unknown")]),
        ({**COUNTED, "methane_share": "0.9"}, [("gas_scf", "missing")]),
        ({"year": "2025", "gas_scf": "-1"}, [("gas_scf", "negative")]),
        ({"year": "2025", "gas_scf": "0"}, []),
    ],
)
def test_what_cannot_be_counted_is_refused(typed: dict[str, Any], complaints: list[tuple[str, str]]) -> None:
    assert refused(EMISSIONS, **typed) == complaints


@pytest.fixture
def emissions_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A copy of the shipped tables, in place of them."""
    copytree(shipped.config(), tmp_path / "config")
    monkeypatch.setattr(shipped, "config", lambda: tmp_path / "config")
    dated.table.cache_clear()
    yield tmp_path / "config" / "emissions"
    dated.table.cache_clear()


@pytest.mark.parametrize(
    ("written", "complaint"),
    [
        ("factor = [", "file_unreadable"),
        ("from_year = 2025", "file_unreadable"),
        ('from_year = 2025\n[[factor]]\ngroup = "mains"\nname = "plastic"', "file_unreadable"),
        (TABLE.format(value=1, unit="lb/day"), "file_unreadable"),
        (TABLE.format(value='"two"', unit="kg CH4/mile/yr"), "file_unreadable"),
        (TABLE.format(value=2, unit="kg CH4/mile/yr"), ""),
    ],
)
def test_a_table_of_an_operator_s_own_is_read_or_told_what_is_wrong(
    written: str, complaint: str, emissions_folder: Path
) -> None:
    (emissions_folder / "ours.toml").write_text(written)
    typed = {**COUNTED, "factors": "ours"}
    assert refused(EMISSIONS, **typed) == ([("", complaint)] if complaint else [])
    assert complaint or worked(EMISSIONS, **typed)["methane_kg"] == 20


def test_every_table_of_factors_is_named_as_its_file() -> None:
    assert {name: dated.table(f"emissions/{name}.toml")["id"] for name in dated.factor_tables()} == {
        name: name for name in dated.factor_tables()
    }
