"""`repairlog figure flow`: gas through a hole, or out of a line cut through."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.flow import FLOW

command = command_of(FLOW)
