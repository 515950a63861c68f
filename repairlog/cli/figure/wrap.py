"""`repairlog figure wrap`: tape or sheets around a pipe."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.wrap import WRAP

command = command_of(WRAP)
