"""The floors hold: what import-linter sees, and what it cannot see."""

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.house import reading

CLOCK = {
    "datetime.datetime.now",
    "datetime.datetime.utcnow",
    "datetime.datetime.today",
    "datetime.date.today",
    "time.time",
    "time.time_ns",
    "time.localtime",
    "time.gmtime",
    "uuid.uuid1",
    "sqlalchemy.func.now",
    "sqlalchemy.func.current_timestamp",
}


def asks_the_time(source: str) -> set[str]:
    return reading.mentioned(source) & CLOCK


def ends_transactions(source: str) -> list[tuple[int, str]]:
    return [(line, name) for line, name in reading.called(source) if name in {"commit", "begin", "begin_nested"}]


def packages(source: str) -> set[str]:
    return {name.partition(".")[0] for name in reading.imported(source)}


def those(found: dict[str, object]) -> dict[str, object]:
    return {place: it for place, it in found.items() if it}


def files_of(*folders: str, but: tuple[str, ...] = ()) -> dict[str, str]:
    files = {reading.place(file): file.read_text() for file in reading.python_files(*folders)}
    return {place: text for place, text in files.items() if not place.startswith(but)}


def test_every_import_contract_is_kept():
    lint = Path(sys.executable).with_name("lint-imports")
    answer = subprocess.run([lint, "--no-cache"], cwd=reading.ROOT, capture_output=True, text=True)
    assert answer.returncode == 0, answer.stdout


def test_every_room_of_the_package_stands_on_a_floor():
    contracts = tomllib.loads((reading.ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    floors = {name.strip(" ()") for layer in contracts[0]["layers"] for name in layer.split("|")}
    rooms = {item.stem for item in (reading.ROOT / "repairlog").iterdir() if item.stem[0] != "_"}
    assert contracts[0]["exhaustive"]
    assert rooms - floors == set()


def test_the_drawing_for_developers_shows_the_rooms_that_are_there():
    text = (reading.ROOT / "DEVELOPERS.md").read_text()
    for heading, folder in {"## The floors": "repairlog", "Inside `records`": "repairlog/records"}.items():
        drawing = text[text.index(heading) :].split("```")[1]
        words = [line.split("  ")[0] for line in drawing.strip().splitlines()]
        drawn = {name.strip() for word in words for name in word.split("|")}
        assert drawn == {item.stem for item in (reading.ROOT / folder).iterdir() if item.stem[0] != "_"}


def test_transactions_begin_and_end_in_the_store_alone():
    files = files_of("repairlog", but=("repairlog/records/store",))
    assert those({place: ends_transactions(text) for place, text in files.items()}) == {}


def test_one_file_alone_asks_what_time_it_is():
    files = files_of("repairlog", "migrations", but=("repairlog/clock",))
    assert those({place: asks_the_time(text) for place, text in files.items()}) == {}


def test_only_records_speak_to_a_database():
    files = files_of("repairlog", but=("repairlog/records/",))
    database = {"sqlalchemy", "alembic", "psycopg", "sqlite3"}
    assert those({place: packages(text) & database for place, text in files.items()}) == {}


def test_migrations_import_nothing_of_ours():
    assert (
        those({place: packages(text) & {"repairlog", "tests"} for place, text in files_of("migrations").items()}) == {}
    )


def test_the_package_imports_nothing_from_the_tests():
    assert those({place: packages(text) & {"tests"} for place, text in files_of("repairlog").items()}) == {}


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("import datetime\ndatetime.datetime.now()", {"datetime.datetime.now"}),
        ("from datetime import datetime as dt\nstamp = dt.utcnow", {"datetime.datetime.utcnow"}),
        ("import datetime as d\nd.date.today()", {"datetime.date.today"}),
        ("def f():\n    from time import time\n    return time()", {"time.time"}),
        ("import sqlalchemy as sa\nsa.Column(default=sa.func.now())", {"sqlalchemy.func.now"}),
        ("import time\ntime.monotonic()", set()),
        ("from datetime import date\ndate(2026, 3, 5)", set()),
    ],
)
def test_asking_the_time_is_seen_under_any_name(source, found):
    assert asks_the_time(source) == found


def test_a_commit_is_seen_wherever_it_stands():
    source = "def f(it):\n    it.connection.commit()\n    with it.begin():\n        pass\n    it.commits = 1\n"
    assert ends_transactions(source) == [(2, "commit"), (3, "begin")]


def test_an_import_inside_a_function_is_seen():
    assert packages("def f():\n    import sqlalchemy.orm\n    from repairlog.records import tables\n") == {
        "sqlalchemy",
        "repairlog",
    }


def test_a_line_that_imports_from_a_floor_above_breaks_the_contract(tmp_path):
    """The contract bites: the same settings over a small house in which `units` looks up to `cli`."""
    house = tmp_path / "repairlog"
    for room, text in {"": "", "cli": "", "shipped": "", "units": "from repairlog import cli\n"}.items():
        (house / room).mkdir(parents=True, exist_ok=True)
        (house / room / "__init__.py").write_text(text)
    settings = (reading.ROOT / "pyproject.toml").read_text()
    first, _, _rest = settings[settings.index("[tool.importlinter]") :].partition("\n[[tool.importlinter.contracts]]")
    floors = settings[settings.index("[[tool.importlinter.contracts]]") :].partition("\n]\n")[0] + "\n]\n"
    (tmp_path / "pyproject.toml").write_text(first + "\n" + floors)
    lint = Path(sys.executable).with_name("lint-imports")
    environment = os.environ | {"PYTHONPATH": str(tmp_path)}
    answer = subprocess.run([lint, "--no-cache"], cwd=tmp_path, env=environment, capture_output=True, text=True)
    assert answer.returncode == 1
    assert "repairlog.units is not allowed to import repairlog.cli" in answer.stdout
