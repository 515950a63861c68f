"""What was typed for a figure, answered: the one way in for its command and its page."""

from __future__ import annotations

from repairlog.figures.asked import Typed, asked
from repairlog.figures.declared import Answer, Figure
from repairlog.trade.unworkable import Unworkable


def answered(figure: Figure, typed: Typed) -> tuple[Answer | None, tuple[Unworkable, ...]]:
    """The answer to what was typed, or why there is none."""
    read, complaints = asked(figure, typed)
    if read is None:
        return None, complaints
    try:
        return figure.work(read), ()
    except Unworkable as complaint:
        return None, (complaint,)
