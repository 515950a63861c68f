"""The interface for programs: entries in JSON, through the same door; what goes wrong comes as problem details."""

from __future__ import annotations

from repairlog.api.problems import answer, fault

ROUTES = ()
"""Every noun's routes."""

__all__ = ["ROUTES", "answer", "fault"]
