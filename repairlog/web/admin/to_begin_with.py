"""An administrator's part of Today while the book is empty: what to put into it, and where."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from flask import url_for

from repairlog.records.queries.set_up import SetUp, set_up
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import Asker
from repairlog.words import _, of_number


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to put into the book. `address`: of the page for it; empty where others do it. `there`: what is there
    already, empty where nothing is; `done`: whether that may be all; `why`: what hangs on it."""

    name: str
    address: str
    why: str
    there: str = ""
    done: bool = False


def to_begin_with(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What to do next, for whoever may add people in every area; None once the book holds a leak or a call."""
    if not who.may("person_added", area=None):
        return None
    within, there = areas(who.scope, tx), set_up(who.scope, tx)
    if there is None or there.in_use:
        return None
    return {"template": "admin/to_begin_with.html", "steps": list(_steps(within, there, who))}


def _steps(within: list[Area], there: SetUp, who: Asker) -> Iterator[Step]:
    yield Step(
        name=_("Look over your operating area, and add the others"),
        address=url_for("areas.page"),
        why=_(
            "Its zone says which days count, its code begins each number, and from its height follows the atmosphere."
        ),
        there=", ".join(area.name for area in within),
        done=bool(within),
    )
    yield Step(
        name=_("Add your people, and let in those who will type"),
        address=url_for("people.page"),
        why=_("Each has roles by date and place, and is qualified for tasks; whoever never signs in can be named."),
        there=_people(there.people),
        done=there.people > 1,
    )
    yield Step(
        name=_("Make your crews"),
        address=url_for("crews.page"),
        why=_("Calls are sent to them, and work is given to them."),
        done=there.crews > 0,
        there=_counted(there.crews, of_number("{number} crew", "{number} crews", number=there.crews)),
    )
    yield Step(
        name=_("Adopt the rulebook of your authority"),
        address=url_for("rulebooks.page"),
        why=_("It says what each grade calls for. Until a rule is confirmed with its text, its days are proposed."),
        there=", ".join(dict.fromkeys(each.rulebook for area in within for each in area.adoptions)),
        done=any(area.adoptions for area in within),
    )
    yield Step(
        name=_("Put your instruments on the books"),
        address=url_for("instruments.page"),
        why=_("A reading rests on a calibration that held on its day."),
        done=there.instruments > 0,
        there=_counted(
            there.instruments, of_number("{number} instrument", "{number} instruments", number=there.instruments)
        ),
    )
    yield Step(
        name=_("Receive your lots in stores"),
        address=url_for("lots.page"),
        why=_("A repair names the lot it used, and where that lot was used is found again."),
        done=there.lots > 0,
        there=_counted(there.lots, of_number("{number} lot", "{number} lots", number=there.lots)),
    )
    yield Step(
        name=_("Open your first leak"),
        address=url_for("openings.page") if any(who.may("leak_opened", area=area.id) for area in within) else "",
        why=_(
            "Crews and supervisors do. Or take in your old list: repairlog import, on the machine that holds the book."
        ),
    )


def _people(number: int) -> str:
    """The first one is whoever opened the book."""
    return of_number("you alone", "{number} people", number=number).format(number=number)


def _counted(number: int, said: str) -> str:
    return said.format(number=number) if number else ""
