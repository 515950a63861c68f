"""A page's form: made from the fields that a kind of entry declares, read back into a raw entry, filled from one."""

from __future__ import annotations

from repairlog.intake.form.boxes import Choices, offer, say_who_asks
from repairlog.intake.form.build import form_of
from repairlog.intake.form.heard import Heard, heard
from repairlog.intake.form.raw import add_row, boxes_by_path, form_with, is_empty, raw_of

__all__ = [
    "Choices",
    "Heard",
    "add_row",
    "boxes_by_path",
    "form_of",
    "form_with",
    "heard",
    "is_empty",
    "offer",
    "raw_of",
    "say_who_asks",
]
