"""Outside text becomes entries, or complaints field by field: forms, JSON and lists all come in through here."""

from __future__ import annotations

from repairlog.intake.complaint import Complaint, NotUnderstood
from repairlog.intake.record import WaitsFor, complaints_about, record, with_asks

__all__ = ["Complaint", "NotUnderstood", "WaitsFor", "complaints_about", "record", "with_asks"]
