"""Every declared figure, in the order in which people look for them."""

from __future__ import annotations

from repairlog.figures.convert import CONVERT
from repairlog.figures.cure import CURE
from repairlog.figures.declared import Figure
from repairlog.figures.due import DUE
from repairlog.figures.emissions import EMISSIONS
from repairlog.figures.flow import FLOW
from repairlog.figures.grade import GRADE
from repairlog.figures.hold import HOLD
from repairlog.figures.interval import INTERVAL
from repairlog.figures.linepack import LINEPACK
from repairlog.figures.loss import LOSS
from repairlog.figures.pipe import PIPE
from repairlog.figures.wrap import WRAP

FIGURES: dict[str, Figure] = {
    it.name: it for it in (FLOW, LOSS, LINEPACK, HOLD, PIPE, WRAP, CURE, EMISSIONS, CONVERT, GRADE, DUE, INTERVAL)
}
"""By the name of its command."""
