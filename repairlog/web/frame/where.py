"""The leak that a page is about, its area with its day, and who may have worked there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import abort, url_for

from repairlog.intake.form import Choices
from repairlog.records.post import Receipt
from repairlog.records.queries.leaks import LeakRow, leak_with_id
from repairlog.records.queries.listed import leaks_numbered
from repairlog.records.queries.settings import areas
from repairlog.records.queries.sources import AttemptRow, attempts_of
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, store
from repairlog.web.frame.there import area_there, hide, instruments_there, people_there


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """`leak`: None where the asker may not see it, or there is none: what they send all the same is kept by the door.
    `areas`: the leak's own, if any. `people`, `instruments`: who and what may have worked there, to choose from. `on`:
    today's day there."""

    leak: LeakRow | None
    areas: Sequence[Area] = ()
    people: Choices = field(default_factory=tuple)
    instruments: Choices = field(default_factory=tuple)
    on: str = ""


def where_of(leak: UUID) -> Where:
    """Where a page about that leak is; 404 for who asks to see one that they may not, or that is not there."""
    scope = asker().scope
    with store().reading() as tx:
        found = leak_with_id(scope, tx, leak=leak)
        if found is None:
            hide(found)
            return Where(leak=None)
        here = area_there(tx, found.area)
        people, instruments = people_there(tx, here), instruments_there(tx, here)
    local = asker().at.astimezone(ZoneInfo(here[0].zone)) if here else asker().at
    return Where(leak=found, areas=here, people=people, instruments=instruments, on=f"{local:%Y-%m-%d}")


def area_of(where: Where) -> Area | None:
    """The leak's area; None where the asker may not see the leak."""
    return where.areas[0] if where.areas else None


def attempt_in(where: Where, attempt: UUID) -> AttemptRow | None:
    """That attempt of the leak; 404 where it is none of the leak's, None where the asker may not see the leak."""
    if where.leak is None:
        return None
    with store().reading() as tx:
        found = attempts_of(asker().scope, tx, leak=where.leak.id)
    return next((each for each in found if each.attempt.id == attempt), None) or abort(404)


def leak_numbered(number: str) -> UUID | None:
    """The leak in the asker's scope that bears that number, capitals or not."""
    either = [number, number.upper()]
    with store().reading() as tx:
        for area in areas(asker().scope, tx):
            if found := leaks_numbered(asker().scope, tx, area=area.id, numbers=either):
                return next(found[each] for each in either if each in found)
    return None


def sheet_of(leak: UUID, *, saved: Receipt) -> str:
    """The address of that leak's sheet, with the entry that was just saved."""
    return url_for("sheet.page", leak=leak, saved=saved.id)
