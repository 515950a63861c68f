"""`repairlog figure emissions`: a year's methane."""

from __future__ import annotations

from repairlog.cli.figure.asking import command_of
from repairlog.figures.emissions import EMISSIONS

command = command_of(EMISSIONS)
