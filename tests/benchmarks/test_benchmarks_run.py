"""Every benchmark runs and compares like with like. What it measured is never judged here."""

from __future__ import annotations

import json

import pytest

from tests.benchmarks.__main__ import BENCHMARKS, DATABASES, main


@pytest.fixture(params=DATABASES)
def database(request: pytest.FixtureRequest) -> str:
    if request.param == "postgresql":
        request.getfixturevalue("postgresql_server")
    return request.param


@pytest.mark.parametrize("name", BENCHMARKS)
def test_a_benchmark_gives_its_figures_and_both_ways_write_the_same_rows(name, database, capsys):
    main([name, "--database", database, "--rows", "16", "--json"])
    figure = json.loads(capsys.readouterr().out)
    assert (figure["name"], figure["database"]) == (name, database)
    assert 16 <= figure["rows"] < 32
    assert figure["same_rows"] in (True, None)
    assert min(figure["ours"], figure["baseline"], figure["ratio"]) > 0
    assert figure["what"]


def test_a_figure_for_people_says_what_the_baseline_was(capsys):
    main(["post", "--rows", "4"])
    printed = capsys.readouterr().out.splitlines()
    assert printed[0] == "post, sqlite, 4 rows"
    assert [line.split()[0] for line in printed[1:6]] == ["ours", "baseline", "ratio", "floor", "record"]
    assert printed[2].endswith("prepared statements through the driver, one transaction a call, the same durability")
