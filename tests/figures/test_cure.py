"""The figure of cure: logs as people have them, and what is refused."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog import cli
from repairlog.figures.cure import CURE
from repairlog.trade import cure
from tests.makers.figures import refused, worked

TABLE = {"table": "40 F: 48 h, 50 F: 24 h, 60 F: 12 h", "temperature": "45 F"}
LOG = {"log": "hours,temperature\n0,20\n1,20\n2,20", "reference": "20 C", "q": "5000"}


@given(st.lists(st.floats(min_value=-5, max_value=60), min_size=2, max_size=8, unique=True), st.floats(-5, 60))
def test_the_rules_stand_in_their_order(temperatures: list[float], temperature: float) -> None:
    cold = sorted(temperatures)
    rows = [(it, 100.0 / (place + 1)) for place, it in enumerate(cold)]
    if cold[0] <= temperature <= cold[-1]:
        by_log, straight, colder = (
            cure.hours_at(temperature, table=rows, rule=rule) for rule in (cure.LOG, cure.LINEAR, cure.NEXT_LOWER)
        )
        assert by_log <= straight * (1 + 1e-9) <= colder * (1 + 2e-9)


def test_the_straight_rule_is_taken_unless_another_is_named() -> None:
    rules = ("", "linear", "log", "next-lower")
    assert [worked(CURE, **TABLE, rule=rule)["hours"] for rule in rules] == [
        36,
        36,
        pytest.approx(33.9411255),
        48,
    ]


@pytest.mark.parametrize(
    "log",
    [
        "hours,temperature\n0,20\n1,20\n2,20\n",
        "0,20\n1,20\n2,20",
        "\ufeffhours,temperature\r\n0 h,68 F\r\n60 min,20 C\r\n2 h,20 C\r\n",
        "at,temperature,battery\n2026-03-05T10:00Z,20,3.1\n2026-03-05T11:00Z,20,3.1\n2026-03-05T12:00Z,20,3.1",
        "at,temperature\n2026-03-05 10:00,20\n2026-03-05 11:00,20\n\n2026-03-05 12:00,20",
        "Logger 4411\nmade 2026-03-05, by hand\nhours;temperature in °C\n0;20\n1;20\n2;20\n",
        "0\t20\n1\t20\n2\t20\n",
        "minutes,temperature (F)\n0 min,68 F\n60 min,68 F\n120 min,68 F\n",
    ],
)
def test_a_log_is_read_as_loggers_and_people_write_it(log: str) -> None:
    assert worked(CURE, **{**LOG, "log": log})["equivalent_hours"] == 2


def test_a_night_with_an_hour_less_is_an_hour_less() -> None:
    log = "at,temperature\n2025-03-09T00:00,20\n2025-03-09T01:00,20\n2025-03-09T03:00,20\n2025-03-09T04:00,20"
    found = worked(CURE, **{**LOG, "log": log}, zone="America/New_York")
    assert (found["equivalent_hours"], worked(CURE, **{**LOG, "log": log})["equivalent_hours"]) == (3, 4)


def test_at_and_below_the_datum_nothing_happens() -> None:
    log = "hours,temperature\n0,-11\n1,-10\n2,-9\n3,-9"
    assert worked(CURE, log=log, datum="-10 C")["degree_hours_c"] == 1


def test_a_gap_is_more_than_three_times_the_usual_spacing() -> None:
    logs = ("\n".join(f"{at},20" for at in (0, 1, 2, 3, 4, last)) for last in (6.99, 7, 7.01))
    assert [refused(CURE, **{**LOG, "log": log}) for log in logs] == [[], [], [("log", "log_with_gap")]]


def test_a_log_read_more_often_at_first_has_its_usual_spacing_all_the_same() -> None:
    logs = ("\n".join(f"{at},20" for at in (0, 0.5, 1.5, 2.5, 3.5, 4.5, last)) for last in (7.49, 7.5, 7.51))
    assert [refused(CURE, **{**LOG, "log": log}) for log in logs] == [[], [], [("log", "log_with_gap")]]


@pytest.mark.parametrize("table", ["40 F: 1,000 h, 50 F: 500 h", "40 F: 1000 h; 50 F: 500 h", "40 F:1000 h,50 F:500 h"])
def test_rows_of_a_table_are_parted_by_commas_or_semicolons_and_not_by_the_comma_of_a_thousand(table: str) -> None:
    assert worked(CURE, table=table, temperature="45 F")["hours"] == 750


def test_a_log_with_one_moment_that_lacks_its_offset_says_how_it_was_taken() -> None:
    log = "2026-03-05T10:00Z,20\n2026-03-05T11:00,20"
    told = [
        any("UTC" in it for it in worked(CURE, **{**LOG, "log": text})["cautions"])
        for text in (log, log.replace("Z", ""))
    ]
    assert told == [True, True]
    assert not any("UTC" in it for it in worked(CURE, **{**LOG, "log": log.replace("11:00", "11:00Z")})["cautions"])


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({}, [("table", "missing")]),
        ({"table": TABLE["table"]}, [("temperature", "missing")]),
        ({**TABLE, "table": "50 F: 24 h, 40 F: 48 h"}, [("table", "table_not_in_order")]),
        ({**TABLE, "table": "40 F: 48 h, 40 F: 24 h"}, [("table", "table_not_in_order")]),
        ({**TABLE, "table": "40 F: 24 h, 50 F: 48 h"}, [("table", "table_rises")]),
        ({**TABLE, "table": "40 F: 48 h"}, [("table", "table_too_short")]),
        ({**TABLE, "table": "40 F: 48 h, 50 F: 0 h"}, [("table", "not_above_zero")]),
        ({**TABLE, "table": "40 F 48 h, 50 F 24 h"}, [("table", "not_written_so")]),
        ({**TABLE, "table": "40: 48 h, 50: 24 h"}, [("table", "unit_missing")]),
        ({**TABLE, "table": "40 F: 48, 50 F: 24"}, [("table", "unit_missing")]),
        ({**TABLE, "table": "40 F: 1e400 h, 50 F: 24 h"}, [("table", "number_unreadable")]),
        ({**TABLE, "rule": "highest"}, [("rule", "not_a_choice")]),
        ({**TABLE, "q": "5000"}, [("q", "not_together")]),
        ({**LOG, "rule": "log"}, [("rule", "not_together")]),
        ({**LOG, "q": ""}, [("q", "missing")]),
        ({**LOG, "q": "0"}, [("q", "outside")]),
        ({**LOG, "reference": ""}, [("reference", "missing")]),
        ({"log": LOG["log"], "datum": "-10 C", "q": "5000"}, [("reference", "missing")]),
        ({**LOG, "log": "hours,temperature\n"}, [("log", "log_too_short")]),
        ({**LOG, "log": "hours,temperature\n0,20"}, [("log", "log_too_short")]),
        ({**LOG, "log": "0,20\n2,20\n1,20"}, [("log", "log_not_in_order")]),
        ({**LOG, "log": "0,20\n1,20\n1,20"}, [("log", "log_not_in_order")]),
        ({**LOG, "log": "0,20\n1,warm"}, [("log", "log_line")]),
        ({**LOG, "log": "0,20\n1,nan"}, [("log", "log_line")]),
        ({**LOG, "log": "0,20\n1e400,20"}, [("log", "log_line")]),
        ({**LOG, "log": "0,20\n1,\n2,20"}, [("log", "log_line")]),
        ({**LOG, "log": "0,20\n1\n2,20"}, [("log", "log_line")]),
        ({**LOG, "log": "hours,temperature (F)\n0,68\n1,68"}, [("log", "log_of_other_unit")]),
        ({**LOG, "log": "minutes;temperature\n0;20\n1;20"}, [("log", "log_of_other_unit")]),
        ({**LOG, "log": "hours;temperature\n0;20\n0,5;20"}, [("log", "log_line")]),
        ({**LOG, "log": "0,20\n1,201"}, [("log", "outside")]),
        ({**LOG, "log": "2026-03-05T10:00,20\nlater,20"}, [("log", "not_written_so")]),
    ],
)
def test_what_cannot_be_read_is_refused(typed: dict[str, str], complaints: list[tuple[str, str]]) -> None:
    assert refused(CURE, **typed) == complaints


def test_the_command_reads_a_file_and_tells_of_one_that_is_not_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "log.csv").write_text("hours,temperature\n0,20\n24,20\n")
    words = ["figure", "cure", "--reference", "20 C", "--q", "5000", "--log"]
    there, not_there = cli.run([*words, str(tmp_path / "log.csv")]), cli.run([*words, str(tmp_path / "no.csv")])
    told = capsys.readouterr()
    assert (there, told.out.splitlines()[0], not_there, told.err) == (
        0,
        "Counts as: 24.0 h at 20 °C",
        2,
        f"{tmp_path / 'no.csv'}: No such file or directory\n",
    )
