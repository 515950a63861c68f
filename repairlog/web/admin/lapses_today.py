"""An administrator's part of Today: qualifications and calibrations that have ended, or soon will."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import Any

from flask import url_for

from repairlog.records.queries.instruments_listed import WantedInstruments, instruments_listed
from repairlog.records.queries.people_listed import WantedPeople, people_listed
from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker
from repairlog.web.frame.lines import Line, Way, lines_of
from repairlog.words import _, of_number

AHEAD = 30
"""Days before its last one on which a qualification or a calibration is shown."""

NAMED = 3
"""Of a line, so many are named."""

AT_MOST = 100
"""Counted up to here; the lists have them all."""


def lapses_today(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """Whose qualification and which calibration wants seeing to; None for who may not add people in every area, and
    where nothing wants it."""
    if not who.may("person_added", area=None):
        return None
    lines = [*_people(tx, who), *_instruments(tx, who)]
    if not lines:
        return None
    return lines_of(
        _("Qualifications and calibrations"),
        lines,
        none="",
        ways=[
            Way(name=_("People"), address=url_for("people.page")),
            Way(name=_("Instruments"), address=url_for("instruments.page")),
        ],
    )


def _people(tx: Tx, who: Asker) -> Iterator[Line]:
    on = date.fromisoformat(who.on)
    for code in ("lapsed", "ends_soon"):
        wanted = WantedPeople(on=on, soon_until=on + timedelta(days=AHEAD), qualified=code)
        names = [row.name for row in people_listed(who.scope, tx, asked=wanted, after=None, most=AT_MOST)]
        if names:
            title, address = _of_people(len(names), code), url_for("people.page", qualified=code)
            yield _line(names, title=title, address=address, wants=code == "lapsed")


def _of_people(number: int, code: str) -> str:
    if code == "lapsed":
        return of_number("person with a lapsed qualification", "people with a lapsed qualification", number=number)
    return of_number("person whose qualification ends soon", "people whose qualification ends soon", number=number)


def _instruments(tx: Tx, who: Asker) -> Iterator[Line]:
    on = date.fromisoformat(who.on)
    for code in ("out", "never", "ends_soon"):
        wanted = WantedInstruments(on=on, soon_until=on + timedelta(days=AHEAD), standing=code)
        marks = [row.mark for row in instruments_listed(who.scope, tx, asked=wanted, after=None, most=AT_MOST)]
        if marks:
            title, address = _of_instruments(len(marks), code), url_for("instruments.page", standing=code)
            yield _line(marks, title=title, address=address, wants=code == "out")


def _of_instruments(number: int, code: str) -> str:
    return {
        "out": of_number("instrument out of calibration", "instruments out of calibration", number=number),
        "never": of_number("instrument never calibrated", "instruments never calibrated", number=number),
        "ends_soon": of_number("instrument to be calibrated soon", "instruments to be calibrated soon", number=number),
    }[code]


def _line(names: Sequence[str], *, title: str, address: str, wants: bool) -> Line:
    more = len(names) - NAMED
    beside = ", ".join(names[:NAMED])
    if more > 0:
        beside = _("{names} and {number} more").format(names=beside, number=more)
    return Line(lead=str(len(names)), title=title, address=address, beside=beside, wants=wants)
