"""What a scope lets through, as a condition on a column of areas."""

from __future__ import annotations

from typing import Any

from sqlalchemy import ColumnElement, false, true

from repairlog.access import Scope


def within(scope: Scope, area: ColumnElement[Any]) -> ColumnElement[bool]:
    """Whether a row's `area` is in the scope; a row without one is in the scope of every area alone."""
    if scope.every_area:
        return true()
    return area.in_(scope.areas) if scope.areas else false()
