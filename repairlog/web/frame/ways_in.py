"""Where a person is signed in, and which programs send in their name, as pages show it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from flask import current_app, session

from repairlog.access import EVERYTHING
from repairlog.records.beside.ways_in import mark_held, programs_of, windows_of
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import Tx
from repairlog.web.frame.asking import HELD, IDLE, asker
from repairlog.web.frame.device import device_word
from repairlog.words.calls import day_and_hour


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One way in. `called`: the device, or what a token is for; `began`, `seen`: in the operator's zone; `here`: it is
    the browser that asks."""

    mark: str
    called: str
    began: str
    seen: str = ""
    here: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysIn:
    """All of a person's."""

    windows: Sequence[Line]
    programs: Sequence[Line]


def told_ways_in(tx: Tx, person: UUID) -> WaysIn:
    """The ways in of that person just now."""
    zone = operator_zone(EVERYTHING, tx) or "UTC"
    here = mark_held(session[HELD])
    since = asker().at - current_app.config[IDLE]
    return WaysIn(
        windows=[
            Line(
                mark=each.mark,
                called=device_word(each.device),
                began=day_and_hour(each.began_at, on="", zone=zone, named=True),
                seen=day_and_hour(each.seen_at, on="", zone=zone, named=True),
                here=each.mark == here,
            )
            for each in windows_of(tx, person, since=since)
        ],
        programs=[
            Line(mark=each.mark, called=each.what, began=day_and_hour(each.made_at, on="", zone=zone, named=True))
            for each in programs_of(tx, person)
        ],
    )
