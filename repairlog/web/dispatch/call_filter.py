"""What the address of the list of calls asks for: each filter read by itself, so that a wrong one spoils no other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from repairlog.entries.call import OUTCOMES, REPORTS
from repairlog.records.queries.calls import NOT_ENDED, WantedCalls
from repairlog.trade.area import Area
from repairlog.web.frame.filters import day_in

NAMES = ("number", "street", "status", "report", "outcome", "area", "from", "until")
"""The filters, as the address names them."""

STATUSES = ("not_ended", *NOT_ENDED, "ended", "received_in_error")
"""What may be asked for as a status; `not_ended` stands for each that is none of the last two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedCalls:
    """`typed`: what stands in each field, empty ones left out. `wrong`: by field, the code of what is wrong with it.
    `wanted`: the rest as a question to the book, but for the street, which is `typed` alone."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    wanted: WantedCalls


def asked(arguments: Mapping[str, str], *, areas: Sequence[Area]) -> AskedCalls:
    """Read the filter of an address. `areas`: those in the asker's scope; any other is as if it were not there."""
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in areas if area.code.casefold() == typed.get("area", "").casefold()), None)
    days = {name: day_in(typed.get(name, "")) for name in ("from", "until")}
    first, last = days["from"], days["until"]
    choices = {"status": STATUSES, "report": REPORTS, "outcome": OUTCOMES}
    found = {name: "not_one_of_these" for name, codes in choices.items() if typed.get(name, "") not in ("", *codes)}
    found |= {name: "not_a_day" for name, on in days.items() if on is None}
    found |= {"until": "until_before_from"} if first and last and last < first else {}
    found |= {"area": "no_such_area"} if area is None else {}
    wrong = {name: code for name, code in found.items() if name in typed}
    good = {name: text for name, text in typed.items() if name not in wrong}
    status = good.get("status", "")
    wanted = WantedCalls(
        area=area,
        statuses=NOT_ENDED if status == "not_ended" else (status,) if status else (),
        report=good.get("report", ""),
        outcome=good.get("outcome", ""),
        from_on=first,
        until_on=None if "until" in wrong else last,
        number=good.get("number", ""),
    )
    return AskedCalls(typed=typed, wrong=wrong, wanted=wanted)
