"""The least grade that what was found calls for, on both sides of every limit.

The rulebook is invented, so its limits have no source but where a test names one; that more hazard calls for no lower
grade: common practice, no source.
"""

from decimal import Decimal

import pytest

from repairlog.trade.grading import OWNER, Found, Spot, called_for, grader, nearly_met, reading_of
from repairlog.units import read
from tests.makers.rulebooks import RULEBOOK

BY = grader(RULEBOOK)


def found(
    *readings: str, place: str = "", owner: str = "", lel_basis: str = "5.0", kind: str = "", **more: object
) -> Found:
    """Readings at one place."""
    distance = more.pop("distance", None)
    spot = Spot(
        counts_as=frozenset({place} - {""}),
        owner=owner,
        distance=read(str(distance), "distance") if distance else None,
    )
    basis = Decimal(lel_basis)
    measures = [read(text, "gas", lel_basis=basis) for text in readings]
    return Found(
        readings=tuple(
            reading_of(each, key=f"r{number}", kind=kind, spot=spot, lel_basis=basis)
            for number, each in enumerate(measures, start=1)
        ),
        spots=(spot,),
        **{"said": frozenset(), **more},
    )


def decided(it: Found) -> tuple[str, str] | None:
    """The grade and the criterion that calls for it."""
    called = called_for(BY, it)
    return (called.grade.code, called.by.criterion.id) if called.grade and called.by else None


@pytest.mark.parametrize(
    ("place", "reading", "expected"),
    [
        # Boundaries of the national guide's confined space and sidewalk, as restated; the rulebook is invented.
        ("confined_space", "0 %LEL", None),
        ("confined_space", "0.1 %LEL", ("3", "space-0")),
        ("confined_space", "19.9 %LEL", ("3", "space-0")),
        ("confined_space", "20 %LEL", ("2", "space-20")),
        ("confined_space", "79.9 %LEL", ("2", "space-20")),
        ("confined_space", "80 %LEL", ("1", "space-80")),
        ("outside_wall", "0 %LEL", None),
        ("outside_wall", "1 ppm", ("1", "wall")),
        ("bar_hole", "49.9 %gas", None),
        ("bar_hole", "50 %gas", ("3E", "much")),
        ("bar_hole", "1000 %LEL", ("3E", "much")),
        ("street", "100 %gas", None),
    ],
)
def test_a_grade_changes_at_the_limit_itself(place: str, reading: str, expected: tuple[str, str] | None) -> None:
    assert decided(found(reading, place=place)) == expected


@pytest.mark.parametrize(
    ("reading", "basis", "expected"),
    [
        # 80 %LEL is 4.0 % gas on 5.0 % (ISO 10156, NFPA 325), 3.52 % gas on 4.4 % (IEC 60079-20-1).
        ("3.99 %gas", "5.0", "space-20"),
        ("4 %gas", "5.0", "space-80"),
        ("40000 ppm", "5.0", "space-80"),
        ("3.51 %gas", "4.4", "space-20"),
        ("3.52 %gas", "4.4", "space-80"),
        ("35200 ppm", "4.4", "space-80"),
        ("80 %LEL", "4.4", "space-80"),
        ("79.999999999 %LEL", "4.4", "space-20"),
    ],
)
def test_a_limit_in_lel_is_compared_in_lel_or_on_the_basis_of_the_reading(
    reading: str, basis: str, expected: str
) -> None:
    called = called_for(BY, found(reading, place="confined_space", lel_basis=basis))
    assert called.by
    assert called.by.criterion.id == expected


def test_what_is_met_only_on_the_lower_basis_is_nearly_met_and_says_so() -> None:
    near = nearly_met(BY, found("3.6 %gas", place="confined_space"))
    told = [(each.criterion.id, each.lacks, each.readings) for each in near]
    assert ("space-80", "only_at_4_4", ("r1",)) in told


def test_what_nobody_answered_counts_as_met_and_what_was_denied_does_not() -> None:
    open_question = found("85 %LEL", place="small_substructure", owner="other")
    called = called_for(BY, open_question)
    denied = found(
        "85 %LEL", place="small_substructure", owner="other", answers={"likely_to_reach_outside_wall": False}
    )
    affirmed = found(
        "85 %LEL", place="small_substructure", owner="other", answers={"likely_to_reach_outside_wall": True}
    )
    assert called.by
    assert (called.by.criterion.id, called.by.assumed) == ("box-80", ("likely_to_reach_outside_wall",))
    assert decided(denied) is None
    assert called_for(BY, affirmed).met[0].assumed == ()


@pytest.mark.parametrize(
    ("owner", "expected", "assumed"),
    [
        ("other", "box-80", ("likely_to_reach_outside_wall",)),
        ("gas_associated", "gas-box-80", ()),
        ("", "box-80", ("likely_to_reach_outside_wall", OWNER)),
    ],
)
def test_a_substructure_of_nobody_known_counts_as_the_more_hazardous_kind(
    owner: str, expected: str, assumed: tuple[str, ...]
) -> None:
    called = called_for(BY, found("85 %LEL", place="small_substructure", owner=owner))
    assert called.by
    assert (called.by.criterion.id, called.by.assumed) == (expected, assumed)


@pytest.mark.parametrize(
    ("said", "reading", "expected"),
    [
        (frozenset({"paved_wall_to_wall"}), "39.9 %LEL", None),
        (frozenset({"paved_wall_to_wall"}), "40 %LEL", ("2", "walk-40")),
        (frozenset(), "40 %LEL", None),
        (frozenset({"ignited"}), "0 %LEL", ("1", "ignited")),
    ],
)
def test_what_somebody_has_to_say_holds_only_where_it_was_said(
    said: frozenset[str], reading: str, expected: tuple[str, str] | None
) -> None:
    assert decided(found(reading, place="sidewalk", said=said)) == expected


def test_one_thing_short_is_nearly_met_and_names_it() -> None:
    near = nearly_met(BY, found("45 %LEL", place="sidewalk"))
    assert [(each.criterion.id, each.lacks) for each in near if each.criterion.id == "walk-40"] == [
        ("walk-40", "paved_wall_to_wall")
    ]


@pytest.mark.parametrize(
    ("smys", "class_location", "expected"),
    [("29.9", "3", None), ("30", "3", ("2", "stressed")), ("30", "2", None), ("30", "", None)],
)
def test_the_line_s_stress_and_class_count_only_where_they_are_known(
    smys: str, class_location: str, expected: tuple[str, str] | None
) -> None:
    assert decided(found("1 %LEL", percent_smys=Decimal(smys), class_location=class_location)) == expected


@pytest.mark.parametrize(
    ("distance", "expected"), [("4.9 ft", "near"), ("5 ft", "near"), ("5.1 ft", None), (None, None)]
)
def test_a_distance_counts_up_to_its_limit_and_not_where_nobody_said_it(
    distance: str | None, expected: str | None
) -> None:
    assert (decided(found("1 %LEL", place="bar_hole", distance=distance)) or (0, None))[1] == expected


@pytest.mark.parametrize(
    ("given", "extent", "expected"),
    [
        ("3", "1999 sq ft", None),
        ("3", "2000 sq ft", ("3E", "wide")),
        ("2", "2000 sq ft", None),
        ("", "2000 sq ft", ("3E", "wide")),
    ],
)
def test_a_class_within_a_grade_counts_only_for_that_grade(
    given: str, extent: str, expected: tuple[str, str] | None
) -> None:
    assert decided(found("1 %LEL", place="street", grade=given, extent=read(extent, "area"))) == expected


@pytest.mark.parametrize(
    ("reading", "judged"),
    [("90 ppm-m", False), ("90 ppm CO", False), ("85 %LEL propane", True), ("85 %LEL", True)],
)
def test_a_laser_s_sum_and_carbon_monoxide_set_no_grade(reading: str, judged: bool) -> None:
    called = called_for(BY, found(reading, place="confined_space"))
    assert called.not_judged == (() if judged else ("r1",))
    assert (called.grade is not None) == (reading == "85 %LEL")


def test_the_readings_that_decided_are_named_and_no_others() -> None:
    called = called_for(BY, found("10 %LEL", "85 %LEL", "90 %LEL", place="confined_space"))
    assert called.by
    assert (called.by.criterion.id, called.by.readings) == ("space-80", ("r2", "r3"))
    assert [each.criterion.id for each in called.met] == ["space-80", "space-0"]


def test_nothing_found_calls_for_nothing() -> None:
    called = called_for(BY, Found())
    assert (called.grade, called.by, called.met) == (None, None, ())
