"""`repairlog figure pipe`: size, stress, design and test pressure of pipe."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.pipe import PIPE

command = command_of(PIPE)
