"""A form gives a raw entry as it was typed, and a raw entry fills a form: nothing is lost and nothing invented."""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest
from werkzeug.datastructures import MultiDict

from repairlog import units
from repairlog.entries.fields import EntryKind
from repairlog.entries.kinds import DID, KINDS
from repairlog.intake.form import add_row, boxes_by_path, form_of, form_with, heard, is_empty, raw_of
from repairlog.trade.area import Area

VISIT, REPAIR = KINDS["visit"], KINDS["repair_attempted"]


def to_choose(kind: EntryKind) -> dict[str, list[tuple[str, str]]]:
    """Nothing to choose from, for every field of a kind that only choices can ask for."""
    paths = [(each, each.name) for each in kind.fields]
    paths += [(each, f"{rows.name}.{each.name}") for rows in (*kind.rows, DID) for each in rows.fields]
    return {path: [] for each, path in paths if each.kind in ("ref", "entry", "hole")}


def area(zone: str = "America/New_York", elevation: str = "", lel_basis: str = "5.0") -> Area:
    return Area(
        id=UUID(int=1), name="A", code="A", zone=zone, elevation=elevation, lel_basis=lel_basis, settings_version=1
    )


def typed(*boxes: tuple[str, str], kind: Any = REPAIR) -> Any:
    """The form of a kind with these boxes typed into."""
    data = MultiDict((f"x-{name}", value) for name, value in boxes)
    return form_with(form_of(kind, choices=to_choose(kind)), prefix="x", typed=data)


def raw(*boxes: tuple[str, str], kind: Any = REPAIR, where: Area | None = None) -> dict[str, Any]:
    return raw_of(kind, typed(*boxes, kind=kind), area=where)


def test_what_was_typed_goes_over_as_typed_and_what_was_left_empty_does_not() -> None:
    given = raw(
        ("id", "an id"), ("method", " clamp "), ("pressure_found", "45 psi"), ("remarks", " \r\n"), ("cause", "")
    )
    assert given == {"kind": "repair_attempted", "id": "an id", "method": " clamp ", "pressure_found": "45 psi"}


def test_a_day_and_its_hour_are_one_text_and_an_hour_left_out_is_not_invented() -> None:
    assert raw(("happened", "2026-03-05"), ("happened", "10:02"))["happened"] == "2026-03-05 10:02"
    assert raw(("happened", "2026-03-05"), ("happened", ""))["happened"] == "2026-03-05"
    assert raw(("happened", ""), ("happened", "10:02"))["happened"] == "10:02"
    assert "happened" not in raw(("happened", ""), ("happened", ""))


def test_an_offset_stands_only_in_the_hour_that_comes_twice() -> None:
    twice = (("happened", "2025-11-02"), ("happened", "01:30"), ("happened", "-05:00"))
    once = (("happened", "2025-11-03"), ("happened", "01:30"), ("happened", "-05:00"))
    assert raw(*twice, where=area())["happened"] == "2025-11-02 01:30 -05:00"
    assert raw(*once, where=area())["happened"] == "2025-11-03 01:30"
    assert raw(*twice, where=area(zone="America/Phoenix"))["happened"] == "2025-11-02 01:30"


def test_rows_left_empty_are_left_out_and_each_other_has_a_key_of_its_own() -> None:
    given = raw(
        ("materials-0-named", "W-1"),
        ("materials-0-key", "m1"),
        ("materials-1-named", ""),
        ("materials-1-key", "r1"),
        ("materials-7-named", "W-2"),
        ("materials-8-named", "W-3"),
        ("materials-8-key", ""),
    )
    assert given["materials"] == [
        {"key": "m1", "named": "W-1"},
        {"key": "r2", "named": "W-2"},
        {"key": "r3", "named": "W-3"},
    ]


def test_one_more_row_keeps_every_row_as_typed_up_to_the_most() -> None:
    form = typed(("materials-0-named", "W-1"), ("materials-0-used", "2"))
    for _turn in range(3):
        add_row(form, "materials", most=3)
    assert [row["named"] for row in form["materials"].data] == ["W-1", None, None]
    assert raw_of(REPAIR, form, area=None)["materials"] == [{"key": "r1", "named": "W-1", "used": "2"}]


def test_a_measure_is_kept_as_text_only_where_it_is_asked_and_cannot_be_read() -> None:
    wanted = (("kept_as_text", "pressure_found"), ("kept_as_text", "hole_size"), ("kept_as_text", "pipe_temperature"))
    given = raw(*wanted, ("pressure_found", "a good push"), ("hole_size", "1/16 in"), ("air_temperature", "cold"))
    assert given["kept_as_text"] == [{"key": "k1", "field": "pressure_found"}]


def test_a_measure_of_a_row_is_kept_as_text_by_its_key() -> None:
    row = (("readings-4-key", "r9"), ("readings-4-value", "pegged"))
    given = raw(*row, ("kept_as_text", "readings.r9.value"), kind=VISIT)
    assert given["kept_as_text"] == [{"key": "k1", "field": "readings.r9.value"}]


def test_a_form_filled_from_a_raw_entry_gives_that_entry_again() -> None:
    entry = {
        "kind": "visit",
        "id": "019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a",
        "leak": "a leak",
        "happened": "2025-11-02 01:30 -05:00",
        "purpose": "re_evaluation",
        "extent": "about a yard",
        "remarks": "two\nlines",
        "places": [{"key": "p1", "kind": "bar_hole", "label": "6 ft"}, {"key": "p2", "kind": "vault"}],
        "readings": [{"key": "r5", "place": "p1", "value": "0 %LEL"}],
        "did": [{"key": "d1", "named": "a neighbour"}],
        "kept_as_text": [{"key": "k1", "field": "extent"}],
    }
    form = form_with(form_of(VISIT, choices=to_choose(VISIT)), prefix="x", raw=entry)
    assert raw_of(VISIT, form, area=area()) == entry


def test_a_whole_number_fills_its_box_as_text() -> None:
    source = KINDS["source_added"]
    form = form_with(form_of(source, choices=to_choose(source)), prefix="x", raw={"installed_year": 1974})
    assert form["installed_year"].data == "1974"


def test_what_the_page_says_itself_does_not_count_as_typed() -> None:
    given = raw_of(REPAIR, typed(("id", "an id")), area=None, said={"leak": "a leak"})
    assert given == {"kind": "repair_attempted", "id": "an id", "leak": "a leak"}
    assert is_empty(given, said=["leak"])
    assert not is_empty(given | {"method": "clamp"}, said=["leak"])


def test_a_measure_is_heard_in_its_area() -> None:
    high = area(elevation="1609.344 m", lel_basis="4.4")
    entry = {
        "readings": [{"key": "r1", "value": "50 %LEL"}, {"key": "r2", "value": "35 ppm", "gas": "carbon_monoxide"}]
    }
    found = heard(VISIT, entry, area=high)
    assert {path: each.canonical for path, each in found.items() if isinstance(each, units.Measure)} == {
        "readings.r1.value": "2.2 %gas methane",
        "readings.r2.value": "35 ppm carbon_monoxide",
    }


@pytest.mark.parametrize(("where", "reads"), [(area(), True), (area(elevation="1609.344 m"), False)])
def test_a_vacuum_that_is_none_at_sea_level_may_be_one_higher_up(where: Area, reads: bool) -> None:
    found = heard(REPAIR, {"pressure_found": "-90 kPa"}, area=where)["pressure_found"]
    assert isinstance(found, units.Measure) == reads


def test_a_measure_that_cannot_be_read_is_told_and_the_others_are_heard() -> None:
    found = heard(REPAIR, {"pressure_found": "45 psy", "hole_size": "3 mm"}, area=None)
    assert [(path, getattr(each, "code", "heard")) for path, each in found.items()] == [
        ("hole_size", "heard"),
        ("pressure_found", "unit_unknown"),
    ]


def test_every_box_row_and_list_is_found_by_the_path_that_a_complaint_names() -> None:
    form = typed(("materials-2-key", "Not One"), ("materials-2-named", "W"))
    found = boxes_by_path(form)
    assert {path: found[path].id for path in ("method", "materials", "materials.0", "materials.Not One.lot")} == {
        "method": "x-method",
        "materials": "x-materials",
        "materials.0": "x-materials-0",
        "materials.Not One.lot": "x-materials-0-lot",
    }
