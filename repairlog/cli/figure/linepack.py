"""`repairlog figure linepack`: how much gas a pipe holds."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.linepack import LINEPACK

command = command_of(LINEPACK)
