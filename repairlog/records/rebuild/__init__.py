"""Rebuilding: facts and worked rows folded from the journal alone, compared with what stands, or written anew."""

from __future__ import annotations

from repairlog.records.rebuild.check import Checked, Difference, check
from repairlog.records.rebuild.write import rebuild

__all__ = ["Checked", "Difference", "check", "rebuild"]
