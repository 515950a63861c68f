"""Every file of checks against the trade says where they come from, if only that they come from nowhere written."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from tests.house.reading import ROOT

CHECKS = sorted(file for folder in ("published", "trade") for file in (ROOT / "tests" / folder).rglob("test_*.py"))
SAYS = re.compile(r"\b[Ss]ources?\b|\bRFC \d+|\bfrom memory\b")


@pytest.mark.parametrize("file", CHECKS, ids=lambda file: str(file.relative_to(ROOT / "tests")))
def test_a_file_of_checks_says_in_its_head_where_they_come_from(file: Path) -> None:
    assert SAYS.search(ast.get_docstring(ast.parse(file.read_text())) or ""), "source, no source, or from memory?"
