"""Today: what a person has before them now, in parts by what they may do. The first page after signing in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from flask import Blueprint, render_template
from flask.typing import ResponseReturnValue

from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker, asker, room, store
from repairlog.words.days import day

TodayPart = Callable[[Tx, Asker], dict[str, Any] | None]
"""What makes one part: the `template` that draws it, with whatever that takes from `part`; None where there is nothing
in it for who asks. It asks the same number of questions whatever it finds."""


def today_of(parts: Sequence[TodayPart]) -> Blueprint:
    """The page with these parts, in their order. Rooms do not know each other: whoever knows them all hands them in."""
    routes = room("today", __name__)

    @routes.get("/today")
    def page() -> ResponseReturnValue:
        """Every part that there is for the asker."""
        who = asker()
        with store().reading() as tx:
            there = [part for make in parts if (part := make(tx, who)) is not None]
        return render_template("everyone/today.html", parts=there, today=day(who.on))

    return routes
