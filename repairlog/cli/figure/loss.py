"""`repairlog figure loss`: gas lost over a leak's life."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.loss import LOSS

command = command_of(LOSS)
