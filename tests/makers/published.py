"""Values published elsewhere, as they lie in tests/published/values; each test says at its head whence they come."""

from __future__ import annotations

import csv
import json
from typing import Any

from tests.house.reading import ROOT

VALUES = ROOT / "tests" / "published" / "values"


def table(name: str) -> list[dict[str, str]]:
    """The rows of a CSV file, by its head line."""
    with (VALUES / name).open(newline="") as file:
        return list(csv.DictReader(file))


def values(name: str) -> Any:
    """What a JSON file holds."""
    return json.loads((VALUES / name).read_text(encoding="utf-8"))
