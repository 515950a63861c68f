"""What is made of an entry: legal days, measures in canonical units, ranks; each against the world outside."""

import csv
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.entry import Moments
from repairlog.intake.known import Known
from repairlog.intake.said import Reading, said_of
from repairlog.intake.understood import understood_of
from repairlog.records.queries.settings import SubjectRow
from repairlog.trade.area import Area
from repairlog.units import TABLE_DIGEST
from tests.makers import book as m

AREA, LEAK, LOT, PERSON = (UUID(m.new_id()) for _ in range(4))
MOMENTS = Moments(received=datetime(2026, 3, 5, 15, 20, tzinfo=UTC))
HIGHFOLD = Area(
    id=AREA,
    name="Highfold",
    code="HF",
    zone="America/Denver",
    elevation="1609.344 m",
    lel_basis="5.0",
    settings_version=3,
)
PLACED = {LEAK: SubjectRow(id=LEAK, kind="leak", area=AREA), AREA: SubjectRow(id=AREA, kind="area", area=AREA)}


def understood(said: dict[str, Any], **area: Any) -> tuple[dict[str, Any], list[tuple[str, str]]]:
    """What is understood of an entry in Highfold with these settings, and what is complained of."""
    known = Known(
        operator_zone="America/New_York",
        areas={AREA: replace(HIGHFOLD, **area)},
        subjects=PLACED | {LOT: SubjectRow(id=LOT, kind="lot", area=AREA)},
    )
    reading = Reading(0)
    read, complaints = said_of(said, 0)
    assert complaints == []
    out = understood_of(read.said, known=known, moments=MOMENTS, reading=reading)
    return out.understood, [(each.field, each.code) for each in reading.complaints]


def attempt(**fields: Any) -> dict[str, Any]:
    bare = {"kind": "repair_attempted", "id": m.new_id(), "leak": str(LEAK), "happened": "2026-03-05 07:02"}
    return bare | {"lasting": "permanent", "outcome": "tight"} | fields


def visit(*readings: dict[str, Any], **fields: Any) -> dict[str, Any]:
    bare = {"kind": "visit", "id": m.new_id(), "leak": str(LEAK), "happened": "2026-03-05"}
    rows = [{"key": f"r{place}"} | row for place, row in enumerate(readings, start=1)]
    return bare | {"purpose": "re_evaluation", "outcome": "looked", "readings": rows} | fields


WHEN = {
    "happened_at": "2026-03-05T14:02:00.000Z",
    "happened_on": "2026-03-05",
    "utc_offset": "-07:00",
    "zone": "America/Denver",
}


def test_an_attempt_is_understood_in_its_area_with_the_table_that_was_used() -> None:
    # Source: 1 psi = 6.894757 kPa and 1 in = 25.4 mm (NIST SP 811 appendix B.8); 57 F = 125/9 C.
    said = attempt(pressure_found="45 psi", hole_size="1/16 in", pipe_temperature="57 F")
    assert understood(said) == (
        WHEN
        | {
            "atmosphere": "83.4317691 kPa absolute",
            "hole_size": "1.5875 mm",
            "pipe_temperature": "13.8888889 degC",
            "pressure_found": "310.264078 kPa gauge",
            "units": TABLE_DIGEST,
        },
        [],
    )


def test_an_entry_without_measures_names_no_table() -> None:
    assert understood(attempt()) == (WHEN, [])


def test_a_measure_that_is_no_pressure_names_no_atmosphere() -> None:
    assert understood(attempt(hole_size="2 mm"))[0] == WHEN | {"hole_size": "2 mm", "units": TABLE_DIGEST}


def heights() -> list[dict[str, str]]:
    at = Path(__file__).parents[1] / "published" / "values" / "altitude_pressure.csv"
    with at.open(newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", heights(), ids=lambda row: f"{row['elev_ft']} ft")
def test_the_local_atmosphere_is_that_of_the_area_s_height(row: dict[str, str]) -> None:
    # Source: U.S. Standard Atmosphere 1976 (NOAA-S/T 76-1562), geometric heights.
    made, _ = understood(attempt(pressure_found="45 psi"), elevation=f"{Decimal(row['elev_m']).normalize():f} m")
    kpa = Decimal(made["atmosphere"].removesuffix(" kPa absolute"))
    assert abs(kpa * 1000 - Decimal(row["P_US76_geometric_Pa"])) <= Decimal("0.0006")


def test_an_area_without_a_height_is_at_the_sea() -> None:
    # Source: U.S. Standard Atmosphere 1976: 101.325 kPa at height nought.
    assert understood(attempt(pressure_found="45 psi"), elevation="")[0]["atmosphere"] == "101.325 kPa absolute"


def test_a_pressure_below_vacuum_is_one_below_the_local_atmosphere() -> None:
    # 12.1 psi is the local atmosphere at 5,280 ft (12.1008 psi); 12.2 psi below it cannot be, at the sea it can.
    assert understood(attempt(pressure_found="-12.1 psi"))[1] == []
    assert understood(attempt(pressure_found="-12.2 psi"))[1] == [("pressure_found", "below_vacuum")]
    assert understood(attempt(pressure_found="-12.2 psi"), elevation="")[1] == []


@pytest.mark.parametrize(
    ("basis", "typed", "canonical", "also"),
    [
        ("5.0", "60 %LEL", "3 %gas methane", {"lel_basis": "5.0"}),
        ("4.4", "60 %LEL", "2.64 %gas methane", {"lel_basis": "4.4"}),
        ("5.0", "0 %LEL", "0 %gas methane", {"lel_basis": "5.0"}),
        ("5.0", "3 %gas", "3 %gas methane", {}),
        ("5.0", "300 ppm", "0.03 %gas methane", {}),
    ],
)
def test_a_reading_is_understood_on_the_area_s_explosive_limit(
    basis: str, typed: str, canonical: str, also: dict[str, str]
) -> None:
    # Source: 100 %LEL of methane is 5.0 % (NFPA 325) or 4.4 % (IEC 60079-20-1) by volume.
    made, complaints = understood(visit({"value": typed}), lel_basis=basis)
    assert (complaints, made) == (
        [],
        {"happened_on": "2026-03-05", "zone": "America/Denver", "readings.r1.value": canonical, "units": TABLE_DIGEST}
        | also,
    )


def test_a_gas_of_another_limit_keeps_its_own_beside_its_reading() -> None:
    # Source: the lower explosive limit of propane is 2.1 % (NFPA 325).
    made, _ = understood(visit({"value": "50 %LEL"}, {"value": "50 %LEL", "gas": "propane"}))
    assert {name: value for name, value in made.items() if "lel" in name or "value" in name} == {
        "readings.r1.value": "2.5 %gas methane",
        "readings.r2.value": "1.05 %gas propane",
        "lel_basis": "5.0",
        "readings.r2.lel_basis": "2.1",
    }


@pytest.mark.parametrize(
    ("field", "typed", "code"),
    [
        ("pressure_found", "45", "unit_missing"),
        ("pressure_found", "45 psy", "unit_unknown"),
        ("pressure_found", "45 mm", "unit_of_other_quantity"),
        ("pressure_found", "about 45 psi", "number_unreadable"),
        ("pipe_temperature", "-500 F", "below_absolute_zero"),
        ("hole_size", "-1/16 in", "negative"),
    ],
)
def test_a_measure_that_cannot_be_read_is_complained_of_unless_kept_as_text(field: str, typed: str, code: str) -> None:
    kept = {"kept_as_text": [{"key": "k1", "field": field}]}
    assert understood(attempt(**{field: typed})) == (WHEN, [(field, code)])
    assert understood(attempt(**{field: typed}, **kept)) == (WHEN, [])


def test_a_measure_that_can_be_read_is_read_though_it_may_be_kept_as_text() -> None:
    said = attempt(pressure_found="45 psi", kept_as_text=[{"key": "k1", "field": "pressure_found"}])
    assert understood(said)[0]["pressure_found"] == "310.264078 kPa gauge"


def test_a_reading_is_kept_as_text_by_its_row() -> None:
    kept = [{"key": "k1", "field": "readings.r2.value"}]
    made, complaints = understood(visit({"value": "off scale"}, {"value": "off scale"}, kept_as_text=kept))
    assert (complaints, "readings.r2.value" in made) == ([("readings.r1.value", "number_unreadable")], False)


@pytest.mark.parametrize("field", ["remarks", "outcome", "nothing", "readings", "materials.m1.used", "did.d1.named"])
def test_only_a_measure_is_kept_as_text(field: str) -> None:
    said = attempt(kept_as_text=[{"key": "k1", "field": field}])
    assert understood(said)[1] == [("kept_as_text.k1.field", "not_a_measure")]


def test_a_time_without_a_zone_is_the_area_s_and_a_person_s_the_operator_s() -> None:
    person = {"kind": "person_added", "id": m.new_id(), "name": "M. Aldous", "happened": "2026-03-05 07:02"}
    assert understood(person)[0] == WHEN | {
        "happened_at": "2026-03-05T12:02:00.000Z",
        "utc_offset": "-05:00",
        "zone": "America/New_York",
    }


def test_a_second_moment_has_a_day_and_an_offset_of_its_own() -> None:
    leak = {"kind": "leak_opened", "id": m.new_id(), "area": str(AREA), "happened": "2026-03-05 07:02"}
    assert understood(leak | {"discovered": "2025-07-01 22:30"})[0] == WHEN | {
        "discovered_on": "2025-07-01",
        "discovered_at": "2025-07-02T04:30:00.000Z",
        "discovered_utc_offset": "-06:00",
    }


def test_a_day_that_a_list_does_not_give_is_understood_as_such() -> None:
    leak = {"kind": "leak_opened", "id": m.new_id(), "area": str(AREA), "happened": "2016-12-31"}
    assert understood(leak | {"happened_known": "on_or_before"})[0] == {
        "happened_on": "2016-12-31",
        "happened_known": "on_or_before",
        "zone": "America/Denver",
    }


def test_a_day_that_is_only_the_latest_it_can_have_been_has_no_hour() -> None:
    leak = {"kind": "leak_opened", "id": m.new_id(), "area": str(AREA), "happened": "2016-12-31 10:00"}
    reading = Reading(0)
    known = Known(areas={AREA: HIGHFOLD}, subjects=PLACED)
    understood_of(leak | {"happened_known": "on_or_before"}, known=known, moments=MOMENTS, reading=reading)
    assert [(each.field, each.code) for each in reading.complaints] == [("happened_known", "hour_of_a_day_not_known")]


def test_what_has_not_happened_yet_is_complained_of_with_the_local_time() -> None:
    reading = Reading(0)
    known = Known(areas={AREA: HIGHFOLD}, subjects=PLACED)
    understood_of(attempt(happened="2026-03-05 10:02"), known=known, moments=MOMENTS, reading=reading)
    assert [(each.field, each.code, each.facts) for each in reading.complaints] == [
        ("happened", "in_the_future", {"got": "2026-03-05 10:02", "received": "2026-03-05 08:20"})
    ]


@pytest.mark.parametrize(("grade", "given", "rank"), [("2", None, 2), ("C", None, None), ("C", 3, 3), ("1", 2, 2)])
def test_a_rank_stands_beside_a_grade_where_one_is_known(grade: str, given: int | None, rank: int | None) -> None:
    said = {"kind": "grade_set", "id": m.new_id(), "leak": str(LEAK), "happened": "2026-03-05", "grade": grade}
    assert understood(said | ({"rank": given} if given else {}))[0].get("rank") == rank


@pytest.mark.parametrize("zone", ["Eastern", "America/Newyork", "../zone"])
def test_a_zone_that_nobody_knows_is_complained_of(zone: str) -> None:
    said = {
        "kind": "operator_opened",
        "id": m.new_id(),
        "name": "Saltmarsh Gas",
        "zone": zone,
        "happened": "2026-03-05",
    }
    assert understood(said) == ({}, [("zone", "zone_unknown")])


def test_what_is_named_as_another_kind_of_thing_is_complained_of() -> None:
    said = attempt(authorised_by=str(LOT), materials=[{"key": "m1", "lot": str(LEAK)}])
    assert understood(said)[1] == [
        ("authorised_by", "subject_of_other_kind"),
        ("materials.m1.lot", "subject_of_other_kind"),
    ]


@pytest.mark.parametrize(
    ("typed", "code"), [("36,000 ft", ""), ("37,000 ft", "elevation_out_of_range"), ("5280", "unit_missing")]
)
def test_an_area_s_height_is_one_that_has_an_atmosphere(typed: str, code: str) -> None:
    # 11,000 m, to which the standard atmosphere's first layer reaches, are 36,089 ft.
    said = {"kind": "area_opened", "id": m.new_id(), "name": "X", "code": "X", "zone": "UTC", "happened": "2026-03-05"}
    assert understood(said | {"elevation": typed})[1] == ([("elevation", code)] if code else [])


def test_an_entry_rests_on_the_version_of_its_area_s_settings() -> None:
    known = Known(areas={AREA: HIGHFOLD}, subjects=PLACED)
    out = understood_of(attempt(), known=known, moments=MOMENTS, reading=Reading(0))
    assert out.rests_on == {AREA: 3}


@pytest.mark.parametrize(
    ("code", "complaint"),
    [
        *(("ES", ""), ("es2", ""), ("ABCDEFGH", ""), ("HF", "area_code_taken"), ("hf", "area_code_taken")),
        *(("E-S", "area_code_unreadable"), ("E S", "area_code_unreadable"), ("É", "area_code_unreadable")),
    ],
)
def test_an_area_s_code_is_its_own_and_of_letters_and_digits(code: str, complaint: str) -> None:
    said = {"kind": "area_opened", "id": m.new_id(), "name": "X", "zone": "UTC", "happened": "2026-03-05"}
    assert understood(said | {"code": code})[1] == ([("code", complaint)] if complaint else [])


def test_an_area_keeps_its_own_code() -> None:
    said = {"kind": "area_opened", "id": str(AREA), "name": "X", "zone": "UTC", "happened": "2026-03-05", "code": "HF"}
    assert understood(said)[1] == []
