"""`repairlog figure cure`: how long a material cures."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.cure import CURE

command = command_of(CURE)
