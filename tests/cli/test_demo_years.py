"""The years of a demo: what share of them is what, by the file of shares, and that the whole of it holds."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from repairlog import shipped
from repairlog.cli.demo.pictures.drawn import PICTURES
from repairlog.cli.demo.years.network import network_told
from repairlog.cli.demo.years.shares import shares_told
from repairlog.cli.demo.years.works import work_on
from repairlog.cli.demo.years.years import years_told
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.tables import worked
from repairlog.records.verify import verify
from tests.makers import demo
from tests.makers.copies import rows
from tests.makers.rulebooks import RULEBOOKS

NOW = datetime(2026, 11, 20, 15, tzinfo=UTC)
ZONES = {"ES": "America/New_York", "HF": "America/Denver"}
FOLDER = shipped.demo().parent / "years"


def told(*, now=NOW, years=3, folder=FOLDER):
    return years_told(folder, zones=ZONES, now=now, years=years)


@pytest.fixture(scope="module")
def saves():
    return told()


@pytest.fixture(scope="module")
def raws(saves):
    """By kind, what the entries of the three years say."""
    found = {}
    for save in saves:
        for entry in save.entries:
            found.setdefault(entry.kind, []).append(entry.raw)
    return found


def outside(values, ranges, *, of=None):
    """What comes more seldom or more often than its range says, with its share."""
    counted, every = Counter(values), of or len(values)
    shares = {name: counted[name] / every for name in ranges}
    return {name: share for name, share in shares.items() if not ranges[name][0] <= share <= ranges[name][1]}


def test_calls_and_leaks_come_as_often_as_the_file_says(raws):
    shares = shares_told(FOLDER)
    calls, leaks = shares["calls"]["a_year"], shares["leaks"]["a_year"]
    assert 3 * calls[0] <= len(raws["call_received"]) <= 3 * calls[1]
    assert 3 * leaks[0] <= len(raws["leak_opened"]) <= 3 * leaks[1]


def test_every_share_of_the_calls_stays_in_its_range(raws):
    shares = shares_told(FOLDER)["calls"]
    no_leak = [raw["outcome"] for raw in raws["call_outcome"] if raw["outcome"] != "operators_leak"]
    reports = [raw["report"] for raw in raws["call_received"]]
    came_from = [raw["came_from"] for raw in raws["call_received"]]
    assert outside(no_leak, shares["outcome"]) == {}
    assert outside(reports, shares["report"]) == {}
    assert outside(came_from, shares["came_from"]) == {}
    assert len(no_leak) / len(raws["call_outcome"]) > 0.75  # most calls are no leak: common practice, no source


def test_every_share_of_the_leaks_stays_in_its_range(raws):
    shares = shares_told(FOLDER)["leaks"]
    assert outside([raw["detected_by"] for raw in raws["leak_opened"]], shares["detected_by"]) == {}
    assert outside([raw["grade"] for raw in raws["grade_set"]], shares["grade"]) == {}
    assert outside([raw["cause"] for raw in raws["repair_attempted"]], shares["cause"]) == {}
    assert outside([raw["how"] for raw in raws["leak_ended"]], shares["ended_how"]) == {}


def test_what_leaks_suits_its_cause():
    """Polyethylene does not corrode, and services are not of cast iron: common practice, no source."""
    streets = [street for each in network_told(FOLDER).streets.values() for street in each]
    causes = shares_told(FOLDER)["leaks"]["cause"]
    works = [work_on(Random(turn), street, cause=cause) for street in streets for cause in causes for turn in range(9)]
    found = {(each.source["material"], each.source["part"], each.cause) for each in works}
    assert {material for material, _part, _cause in found} == {"steel", "cast_iron", "plastic_pe"}
    assert {each for each in found if each[::2] == ("plastic_pe", "corrosion_failure")} == set()
    assert {each for each in found if each[:2] == ("cast_iron", "service")} == set()


def test_the_first_attempts_fail_and_are_returned_as_often_as_the_file_says(raws):
    shares = shares_told(FOLDER)["leaks"]["attempts"]
    repaired = len(raws["source_added"])
    attempts = raws["repair_attempted"]
    found = ["not_tight_at_first" for raw in attempts if raw["outcome"] == "not_tight"]
    found += ["temporary_at_first" for raw in attempts if raw["lasting"] == "temporary"]
    found += ["returned" for raw in raws["repair_reviewed"] if raw["outcome"] == "returned"]
    assert outside(found, shares, of=repaired) == {}


def test_repairs_have_photographs_as_often_as_the_file_says(saves, raws):
    tight = [raw for raw in raws["repair_attempted"] if (raw["outcome"], raw["lasting"]) == ("tight", "permanent")]
    pictured = [save for save in saves if any(entry.kind == "attached" for entry in save.entries)]
    low, high = shares_told(FOLDER)["leaks"]["pictured"]
    assert low <= len(pictured) / len(tight) <= high
    assert {raw["picture"] for raw in raws["attached"]} == set(PICTURES)


def test_calls_come_from_the_areas_and_at_the_hours_that_the_file_says(saves, raws):
    shares = shares_told(FOLDER)["calls"]
    areas = Counter(save.area for save in saves for entry in save.entries if entry.kind == "call_received")
    asked = shares["area"]["ES"] / sum(shares["area"].values())
    assert areas["ES"] / areas.total() == pytest.approx(asked, abs=0.03)
    hours = Counter(int(raw["happened"][11:13]) for raw in raws["call_received"])
    for hour, weight in enumerate(shares["hour"]):
        # a share of some 3,000, give or take four times its chance: the binomial's root of p (1 - p) / n
        part = weight / sum(shares["hour"])
        apart = 4 * (part * (1 - part) / hours.total()) ** 0.5
        assert hours[hour] / hours.total() == pytest.approx(part, abs=apart), hour


def test_repairs_begin_within_the_days_that_the_file_gives_their_grade(saves):
    ranges = shares_told(FOLDER)["leaks"]["days_to_repair"]
    waited = {grade: [] for grade in ranges}
    for story in _by_file(saves).values():
        if "source_added" in story:
            begun, reported = (date.fromisoformat(story[kind]["day"]) for kind in ("source_added", "leak_opened"))
            waited[story["grade_set"]["raw"]["grade"]].append((begun - reported).days)
    for grade, (least, most) in ranges.items():
        days = sorted(waited[grade])
        inside = [day for day in days if least <= day <= most + 3]  # a weekend may come between
        assert len(inside) >= 0.9 * len(days), grade
    medians = [sorted(days)[len(days) // 2] for _grade, days in sorted(waited.items())]
    assert medians == sorted(medians)  # the more hazardous, the sooner
    assert medians[0] <= 1 < medians[1] < medians[2]


def _by_file(saves):
    """By file, the first entry of each kind: what it says, and the day of its save."""
    found = {}
    for save in saves:
        for entry in save.entries:
            day = save.of_the_save["when"][:10]
            found.setdefault(save.file, {}).setdefault(entry.kind, {"raw": entry.raw, "day": day})
    return found


def test_flaws_come_about_as_often_as_the_file_says(saves, raws):
    flaws = shares_told(FOLDER)["flaws"]
    attempts, tight = raws["repair_attempted"], [r for r in raws["repair_attempted"] if r["outcome"] == "tight"]
    tested = sum(each.kind == "tested" for save in saves for each in save.entries)
    lots = [row for raw in attempts for row in raw.get("materials", ())]
    late = {save.place for save in saves if "written" in save.of_the_save}
    counted = {
        "no_test": (len(attempts) - tested, len(tight)),
        "lot_not_on_the_books": (sum("named" in row for row in lots), len(lots)),
        "person_not_on_the_books": (sum("named" in row for raw in attempts for row in raw["people"]), len(attempts)),
        "typed_next_day": (len(late), len(attempts)),
    }
    for name, (count, of) in counted.items():
        expected = flaws[name] * of
        assert count > 0, name
        assert abs(count - expected) <= 4 * expected**0.5, (name, count, expected)


def test_winter_brings_more_calls_than_summer(raws):
    months = Counter(raw["happened"][5:7] for raw in raws["call_received"])
    winter, summer = (sum(months[month] for month in three) for three in (("12", "01", "02"), ("06", "07", "08")))
    assert winter > 1.5 * summer


def test_what_is_open_at_the_end_stands_at_every_stage(saves):
    by_file = {}
    for save in saves:
        by_file.setdefault(save.file, []).extend(entry.kind for entry in save.entries)
    open_ones = [set(kinds) for kinds in by_file.values() if "leak_opened" in kinds and "leak_ended" not in kinds]
    assert 30 <= len(open_ones) <= 140
    assert any("repair_attempted" in kinds for kinds in open_ones)
    assert any("repair_attempted" not in kinds for kinds in open_ones)


def test_the_same_moment_gives_the_same_years_and_a_later_one_only_more_of_them(saves):
    assert told() == saves
    before = told(now=NOW - timedelta(days=1))
    assert before != saves


def test_fewer_years_are_fewer_and_none_is_told_to_come(saves):
    one = told(years=1)
    assert len(one) < len(saves) / 2
    assert max(save.of_the_save["when"] for save in saves) <= "2026-11-20 10:00"


def test_three_years_are_filled_verify_and_fold_to_what_stands(tmp_path: Path):
    """The whole of what `repairlog demo` fills when nobody asks for less, once, on SQLite."""
    url = demo.filled("--at", str(tmp_path), years=3)["database"]
    store = open_store(url, rulebooks=RULEBOOKS)
    try:
        assert (verify(store).problems, check(store).differences) == ((), ())
        leaks, calls = rows(store, worked.LEAK), rows(store, worked.CALL)
        gaps = Counter(row["code"] for row in rows(store, worked.GAP))
    finally:
        store.close()
    assert (len(leaks) > 600, len(calls) > 2900) == (True, True)
    assert {"expired_lot_used", "lot_not_on_the_books", "person_not_on_the_books"} <= gaps.keys()
    assert len([row for row in leaks if row["status"] == "open"]) > 40
