"""What of a visit's boxes becomes its entry: what was touched, and nothing that nobody looked at."""

from typing import Any

import pytest

from repairlog.records.queries.bar_holes import HoleRow
from repairlog.web.crew.looked_at import contradictions, looked_only
from tests.makers import book as m

NAME = f"{m.new_id()}/p1"
HOLE = HoleRow(name=NAME, number=1, label="verge", owner="gas", from_building="", last=())
BLANK = {"key": "h1", "kind": "bar_hole", "same_as": NAME}


def only(places: list[dict[str, str]], readings: list[dict[str, str]], unit: str = "") -> dict[str, Any]:
    raw = {"kind": "visit", "places": places, "readings": readings}
    return looked_only(raw, holes=[HOLE], unit=unit)


def test_a_hole_that_nobody_touched_was_not_looked_at() -> None:
    assert only([BLANK], [{"key": "r1", "place": "h1"}]) == {"kind": "visit"}


@pytest.mark.parametrize("touched", [{"label": "by the gate"}, {"not_entered": "car"}, {"owner": "water"}])
def test_a_hole_of_which_anything_is_said_was_looked_at(touched: dict[str, str]) -> None:
    assert only([BLANK | touched], []) == {"kind": "visit", "places": [BLANK | touched]}


def test_a_place_that_is_no_known_hole_stays_however_little_is_said_of_it() -> None:
    place = {"key": "p1", "kind": "vault"}
    assert only([place], [{"key": "r1", "place": "p1"}]) == {"kind": "visit", "places": [place]}


def test_a_reading_brings_its_place_along_though_nothing_is_said_of_it() -> None:
    reading = {"key": "r1", "place": "p1", "value": "5 %LEL"}
    assert only([], [reading]) == {"kind": "visit", "places": [{"key": "p1"}], "readings": [reading]}


def test_a_reading_without_a_value_but_with_its_kind_is_asked_about() -> None:
    reading = {"key": "r1", "place": "h1", "kind": "peak"}
    assert only([BLANK], [reading]) == {"kind": "visit", "places": [BLANK], "readings": [reading]}


@pytest.mark.parametrize(
    ("typed", "unit", "meant"),
    [
        ("0", "%LEL", "0 %LEL"),
        (" 2.5 ", "%gas", "2.5 %gas"),
        ("1,200", "ppm", "1,200 ppm"),
        ("60 %LEL", "ppm", "60 %LEL"),
        ("5", "", "5"),
        ("5", "furlong", "5"),
        ("trace", "%LEL", "trace"),
    ],
)
def test_a_bare_number_alone_takes_the_unit_that_was_chosen(typed: str, unit: str, meant: str) -> None:
    readings = only([BLANK], [{"key": "r1", "place": "h1", "value": typed}], unit)["readings"]
    assert [row["value"] for row in readings] == [meant]


@pytest.mark.parametrize(
    ("said", "codes"),
    [
        ({"outcome": "no_access"}, []),
        ({"outcome": "looked", "places": [BLANK]}, []),
        ({"outcome": "no_access", "places": [BLANK]}, ["no_access_and_looked"]),
        ({"outcome": "no_access", "readings": [{"key": "r1", "value": "0 %LEL"}]}, ["no_access_and_looked"]),
    ],
)
def test_no_access_and_something_looked_at_contradict_each_other(said: dict[str, Any], codes: list[str]) -> None:
    assert [each.code for each in contradictions(said)] == codes
