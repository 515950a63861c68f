"""Old lists taken in: a file of rows, and a columns file that says what its columns mean."""

from __future__ import annotations

from repairlog.intake.lists.columns import ColumnsWrong, Wrong, read_columns
from repairlog.intake.lists.file import FileWrong
from repairlog.intake.lists.refusal import Refusal
from repairlog.intake.lists.take import Importing, Tally, take

__all__ = ["ColumnsWrong", "FileWrong", "Importing", "Refusal", "Tally", "Wrong", "read_columns", "take"]
