"""What the address of the list of people asks for: each filter read by itself, so that a wrong one spoils no other."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from uuid import UUID

from repairlog.entries.operator import ROLES
from repairlog.records.queries.people_listed import WantedPeople
from repairlog.trade.area import Area
from repairlog.web.frame.filters import day_in

NAMES = ("name", "area", "role", "crew", "company", "task", "qualified", "on", "soon", "left")
"""The filters, as the address names them."""

QUALIFIED = ("valid", "ends_soon", "lapsed", "none")

SOON = ("30", "60", "90")
"""Days ahead within which what ends is said to end soon; the first where nothing is chosen: common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPeople:
    """`typed`: what stands in each field, empty ones left out. `wrong`: by field, the code of what is wrong with it."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    wanted: WantedPeople


def asked(arguments: Mapping[str, str], *, areas: Sequence[Area], crews: Collection[UUID], today: date) -> AskedPeople:
    """Read the filter of an address. `areas`, `crews`: those in the asker's scope; any other is as if it were not
    there. `today`: the day that is looked at where none is given."""
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in areas if area.code.casefold() == typed.get("area", "").casefold()), None)
    crew = next((id for id in crews if str(id) == typed.get("crew", "")), None)
    on = day_in(typed.get("on", "")) or today
    found = {"area": "no_such_area"} if area is None else {}
    found |= {"crew": "no_such_crew"} if crew is None else {}
    found |= {"on": "not_a_day"} if day_in(typed.get("on", "")) is None else {}
    choices = {"role": ROLES, "qualified": QUALIFIED, "soon": SOON}
    found |= {name: "not_one_of_these" for name, of in choices.items() if typed.get(name, "") not in of}
    wrong = {name: code for name, code in found.items() if name in typed}
    good = {name: text for name, text in typed.items() if name not in wrong}
    soon = timedelta(days=int(good.get("soon", SOON[0])))
    wanted = WantedPeople(
        on=on,
        soon_until=min(on, date.max - soon) + soon,
        name=good.get("name", ""),
        area=area,
        role=good.get("role", ""),
        company=good.get("company", ""),
        crew=crew,
        task=good.get("task", ""),
        qualified=good.get("qualified", ""),
        left="left" in good,
    )
    return AskedPeople(typed=typed, wrong=wrong, wanted=wanted)
