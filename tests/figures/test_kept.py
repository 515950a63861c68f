"""A worked figure as an entry keeps it: what went in, what came out, and the way back to what was typed."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from repairlog.entries.fields import Field
from repairlog.entries.kinds import KINDS
from repairlog.figures.answered import answered
from repairlog.figures.flow import FLOW
from repairlog.figures.kept import as_kept, typed_in
from repairlog.figures.loss import LOSS
from repairlog.figures.shelf import FIGURES
from tests.makers.figures import Typed, worked

DEMO = Path(__file__).parents[2] / "demo" / "book"

WORKED: dict[str, dict[str, Typed]] = {
    "flow": {"severed": True, "id": "0.445 in", "length": "100 ft", "pressure": "60 psi", "duration": "6 h"},
    "loss": {"segment": ["30 scfh @ 60 psi, 240 h", "@ 30 psi, 120 h"]},
    "linepack": {"id": "4.026 in", "length": "2640 ft", "from": "60 psi", "temperature": "50 F"},
    "hold": {"volume": "23.3 ft3", "start": "100 psi @ 60 F", "end": "99.5 psi @ 60 F", "hours": "24"},
    "pipe": {"material": "steel", "nps": "2", "schedule": "40", "pressure": "60 psi", "grade": "B"},
    "wrap": {"od": "4.5 in", "tape_width": "4 in", "overlap": "2/3", "length": "24 in", "ends": "covered"},
    "cure": {"table": "40 F: 48 h, 50 F: 24 h", "temperature": "45 F"},
    "convert": {"reading": "1000 scf", "from_base": "60 F, 14.73 psia", "to_base": "15 C, 101.325 kPa"},
    "grade": {"reading": ["45 %LEL", "2 %gas"], "place": "outside_wall", "ignited": True},
    "due": {"grade": "2", "found": "2026-03-05", "rulebook": "us-guide"},
    "interval": {"rule": "each calendar year, not exceeding 15 months", "last": "2025-03-05"},
    "emissions": {"year": "2024", "factors": "subpart-w-2024-ogi", "miles": ["unprotected steel=100"]},
}


def kept(name: str) -> dict[str, Any]:
    answer, complaints = answered(FIGURES[name], WORKED[name])
    assert answer is not None, [str(it) for it in complaints]
    return as_kept(FIGURES[name], answer, typed=WORKED[name])


def test_what_is_kept_says_what_went_in_and_what_came_out_in_decimals() -> None:
    typed: dict[str, Typed] = {"hole": "1/16 in", "pressure": "45 psi", "methane": True}
    answer, _none = answered(FLOW, typed)
    assert answer is not None
    found = as_kept(FLOW, answer, typed=typed)
    rows = {name: found.pop(name) for name in ("inputs", "results", "holds_for", "cautions")}
    assert found == {
        "figure": "flow",
        "called": "Gas through a hole",
        "formula": "Isentropic flow of an ideal gas through a hole, choked",
        "formula_source": "one-dimensional isentropic flow; API Standard 520 Part I has the same two forms",
        "figure_version": "1",
    }
    said = [(row["name"], row.get("typed"), row["heard"]) for row in rows["inputs"]]
    assert said == [
        ("hole", "1/16 in", "0.0625 in"),
        ("pressure", "45 psi", "45 psi gauge"),
        ("temperature", None, "59 °F"),
        ("methane", "yes", "yes"),
        ("k", None, "1.3"),
        ("z", None, "1"),
        ("atmosphere", None, "101.325 kPa absolute"),
    ]
    as_json = worked(FLOW, **typed)
    values = {row["name"]: row["value"] for row in rows["results"]}
    assert values.keys() == {"standard_flow_scfh", "mass_flow_kg_s", "regime", "standard_conditions"}
    assert float(values["mass_flow_kg_s"]) == as_json["mass_flow_kg_s"]
    little: dict[str, Typed] = {"hole": "0.001 in", "pressure": "1 psi"}
    answer, _none = answered(FLOW, little)
    assert answer is not None
    tiny = {row["name"]: row["value"] for row in as_kept(FLOW, answer, typed=little)["results"]}["mass_flow_kg_s"]
    assert (tiny[:8], float(tiny) > 0) == ("0.000000", True)
    assert [row["text"] for row in (*rows["holds_for"], *rows["cautions"])] == [
        *as_json["bounds"],
        *as_json["cautions"][:-1],
    ]


@pytest.mark.parametrize("name", FIGURES)
def test_every_figure_fits_into_the_entry_and_is_typed_again_from_it(name: str) -> None:
    kind, found = KINDS["figure_kept"], kept(name)
    fields = {field.name: field for field in kind.fields}
    assert [name for name, text in found.items() if isinstance(text, str) and not _fits(fields[name], text)] == []
    for rows in kind.rows:
        of = {field.name: field for field in rows.fields}
        for row in found.get(rows.name, ()):
            assert [name for name, text in row.items() if name != "key" and not _fits(of[name], text)] == []
    again = typed_in(found)
    assert again == {
        name: ["yes"] if it is True else [it] if isinstance(it, str) else it for name, it in WORKED[name].items()
    }


def _fits(field: Field, text: str) -> bool:
    return 0 < len(text) <= field.longest and not set(text) & {"\n", "\x00"}


def test_what_no_page_of_ours_sent_is_left_out_of_what_was_typed() -> None:
    rows = [{"name": 3, "typed": "x"}, {"typed": "y"}, {"name": "hole"}, {"name": "hole", "typed": "1 in"}]
    assert typed_in({"inputs": rows}) == {"hole": ["1 in"]}
    assert typed_in({}) == {}


def test_the_demo_s_kept_figures_are_what_is_worked_out_today() -> None:
    told = [
        entry
        for file in DEMO.rglob("*.toml")
        for save in tomllib.loads(file.read_text("utf-8")).get("save", ())
        for entry in _many(save.get("figure_kept", ()))
    ]
    assert told
    for entry in told:
        figure, typed = FIGURES[entry["figure"]], typed_in(entry)
        single = {it.name for it in figure.inputs if not it.many}
        given: dict[str, Typed] = {name: it[0] if name in single else it for name, it in typed.items()}
        answer, _none = answered(figure, given)
        assert answer is not None
        found = as_kept(figure, answer, typed=given)
        keyless = {name: [_without_key(row) for row in it] for name, it in found.items() if isinstance(it, list)}
        assert {name: entry[name] for name in found} == found | keyless


def _many(told: Any) -> list[dict[str, Any]]:
    return list(told) if isinstance(told, list) else [told] if told else []


def _without_key(row: dict[str, str]) -> dict[str, str]:
    return {name: text for name, text in row.items() if name != "key"}


def test_a_segment_each_is_a_row_each() -> None:
    rows = [row for row in kept("loss")["inputs"] if row["name"] == "segment"]
    assert [row["typed"] for row in rows] == WORKED["loss"]["segment"]
    assert LOSS.version == kept("loss")["figure_version"]
