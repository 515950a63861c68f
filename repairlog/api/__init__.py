"""The interface for programs: entries in JSON, through the same door; what goes wrong comes as problem details."""

from __future__ import annotations

from repairlog.api import entries, problems, schema
from repairlog.api.problems import answer, fault

ROUTES = (entries.routes, schema.routes, problems.routes)
"""Every noun's routes."""

__all__ = ["ROUTES", "answer", "fault"]
