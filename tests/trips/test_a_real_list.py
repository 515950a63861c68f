"""Lists that nobody here invented, taken in whole: where REPAIRLOG_FILINGS names a folder that holds them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import made, say
from tests.makers.command import NEW_BOOK
from tests.makers.filings import OTHERS, REPAIRED, Filing, columns_of, folder

__all__ = ["made", "say"]


@pytest.fixture(autouse=True)
def _there() -> None:
    """Before a book is made for nothing."""
    folder()


def take(
    say: Any, filing: Filing, *, into: str, columns: Path, words: tuple[str, ...] = ()
) -> tuple[int, dict[str, Any]]:
    """What the command ends with, and what it says but for its complaints."""
    columns.write_text(columns_of(filing))
    asked = ("import", str(folder() / filing.name), "--kind", filing.kind, "--area", "ES", "--columns", str(columns))
    answer = say(*asked, "--json", "--database", into, *words)
    told = json.loads(answer.out)
    return answer.code, {name: told[name] for name in ("rows", "taken", "already_here", "refused", "raised")}


def test_a_year_of_repairs_is_taken_in_whole_once_and_every_line_and_table_holds(
    say: Any, made: str, tmp_path: Path
) -> None:
    at = {"into": made, "columns": tmp_path / "columns.toml"}
    counts = {"rows": REPAIRED.rows, "refused": 0, "already_here": 0, "taken": REPAIRED.rows}
    assert take(say, REPAIRED, **at) == (0, counts | {"raised": {"repaired_before_reported": 3}})
    again = counts | {"taken": 0, "already_here": REPAIRED.rows, "raised": {}}
    assert take(say, REPAIRED, **at) == (0, again)
    assert say("journal", "verify", "--database", made).code == 0
    assert say("rebuild", "--check", "--database", made).code == 0


@pytest.mark.parametrize("filing", OTHERS, ids=lambda filing: filing.name)
def test_every_row_of_other_years_and_operators_is_understood(
    say: Any, filing: Filing, sqlite_url: str, tmp_path: Path
) -> None:
    assert say("init", *NEW_BOOK, "--database", sqlite_url).code == 0
    columns = tmp_path / "columns.toml"
    looked = take(say, filing, into=sqlite_url, columns=columns, words=("--check",))
    counts = {"rows": filing.rows, "taken": filing.rows, "already_here": 0, "refused": 0, "raised": {}}
    assert looked == (0, counts)
