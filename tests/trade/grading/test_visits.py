"""What a visit found, by what was understood of it when it came in.

The rulebook is invented, so its limits have no source but where a test names one.
"""

from decimal import Decimal

import pytest

from repairlog.entries.entry import Standing
from repairlog.trade.grading import called_for, found_at, grader
from tests.makers.rulebooks import RULEBOOK

BY = grader(RULEBOOK)
BASIS = Decimal("5.0")


def visit(kind: str, canonical: str | None, *, said: dict[str, str] | None = None, **row: str) -> Standing:
    """A visit with one reading at one place."""
    return Standing(
        index=1,
        said={
            "kind": "visit",
            "places": [{"key": "p1", "kind": kind, **row}],
            "readings": [{"key": "r1", "place": "p1", "value": "as typed"}],
            **(said or {}),
        },
        understood={"readings.r1.value": canonical} if canonical else {},
        by={},
        moments={},
        private={},
    )


@pytest.mark.parametrize(
    ("kind", "row", "canonical", "criterion"),
    [
        ("manhole", {}, "4 %gas methane", "space-80"),
        ("vault", {}, "3.99999999 %gas methane", "space-20"),
        ("building", {}, "0.0001 %gas methane", "wall"),
        ("valve_box", {"owner": "gas"}, "4 %gas methane", "gas-box-80"),
        ("catch_basin", {"owner": "sewer"}, "4 %gas methane", "box-80"),
        ("catch_basin", {"owner": "unknown"}, "4 %gas methane", "box-80"),
        ("surface", {}, "4 %gas methane", None),
    ],
)
def test_a_place_counts_as_what_the_rules_speak_of(
    kind: str, row: dict[str, str], canonical: str, criterion: str | None
) -> None:
    by = called_for(BY, found_at(visit(kind, canonical, **row), lel_basis=BASIS)).by
    assert (by.criterion.id if by else None) == criterion


def test_a_reading_kept_as_text_and_one_without_a_place_are_no_place_s() -> None:
    kept = found_at(visit("manhole", None), lel_basis=BASIS)
    astray = visit("manhole", "4 %gas methane")
    lost = found_at(
        Standing(
            index=1,
            said={**astray.said, "readings": [{"key": "r1", "value": "80 %LEL", "place": "p9"}]},
            understood=astray.understood,
            by={},
            moments={},
            private={},
        ),
        lel_basis=BASIS,
    )
    assert (kept.readings, called_for(BY, lost).met) == ((), ())


@pytest.mark.parametrize(
    ("understood", "expected"),
    [
        ({}, "space-20"),
        ({"lel_basis": "4.4"}, "space-80"),  # all of the visit was read on 4.4
        ({"lel_basis": "5.0", "readings.r1.lel_basis": "4.4"}, "space-80"),
    ],
)
def test_80_lel_on_4_4_stays_80_lel_whatever_the_area_says(understood: dict[str, str], expected: str) -> None:
    told = visit("manhole", "3.52 %gas methane")
    read = Standing(
        index=1, said=told.said, understood={**told.understood, **understood}, by={}, moments={}, private={}
    )
    by = called_for(BY, found_at(read, lel_basis=BASIS)).by
    assert by
    assert by.criterion.id == expected


def test_what_the_visit_says_beside_its_readings_counts() -> None:
    said = {"ignited": "yes", "paving": "wall_to_wall", "ground": "frozen", "seen_or_heard": "no"}
    found = found_at(visit("sidewalk", "0 %gas methane", said=said), lel_basis=BASIS)
    assert found.said == {"ignited", "paved_wall_to_wall", "frost"}


def test_what_is_weighed_is_answered_only_where_somebody_said_so() -> None:
    said = {"likely_to_reach_outside_wall": "no", "significant_migration": "yes", "probable_future_hazard": "perhaps"}
    found = found_at(visit("street", "0 %gas methane", said=said | {"excavation_damage": "yes"}), lel_basis=BASIS)
    assert found.answers == {
        "likely_to_reach_outside_wall": False,
        "not_likely_to_reach_outside_wall": True,
        "significant_migration": True,
    }
    assert found.said == {"excavation_damage"}
    assert found_at(visit("street", "0 %gas methane"), lel_basis=BASIS).answers == {}


@pytest.mark.parametrize(("percent", "grade"), [("29", None), ("30", "2"), ("31", "2"), ("much", None)])
def test_a_line_that_is_stressed_to_30_percent_in_class_3_calls_for_grade_2(percent: str, grade: str | None) -> None:
    """The national guide practice as it is restated: any reading, 30 % of SMYS or more, Class 3 or 4."""
    found = found_at(
        visit("other", "1 %gas methane", said={"percent_smys": percent, "class_location": "class_3"}), lel_basis=BASIS
    )
    called = called_for(BY, found).grade
    assert (called.code if called else None) == grade
    elsewhere = {"percent_smys": percent, "class_location": "class_2"}
    assert called_for(BY, found_at(visit("other", "1 %gas methane", said=elsewhere), lel_basis=BASIS)).grade is None
