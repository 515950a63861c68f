"""`repairlog figure hold`: a pressure test by holding."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.hold import HOLD

command = command_of(HOLD)
