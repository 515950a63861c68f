"""The story of one call of the years: received, somebody sent, on site, and how it came out. Most are no leak."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from random import Random
from types import MappingProxyType
from typing import Any

from repairlog.cli.demo.years.hours import later, told
from repairlog.cli.demo.years.network import Network, Street, caller, house_on
from repairlog.cli.demo.years.shares import Shares, one_of

STORIES = MappingProxyType(
    {
        "odor": ("smells gas by the front door", "smell in the basement", "faint smell in the street", "by the meter"),
        "carbon_monoxide": ("carbon monoxide alarm sounds", "headache, and the alarm went off"),
        "fire": ("the fire department wants the gas shut off",),
        "dig_in": ("digger hit a pipe, it hisses", "pulled up a yellow pipe"),
        "other": ("pilot light is out, wants it looked at", "the meter reads oddly"),
    }
)
REMARKS = MappingProxyType(
    {
        "nothing_found": "every room and the meter set looked at; zero everywhere",
        "customers": "on the customer's side of the meter",
        "adjusted_on_the_spot": "tightened at the meter set; zero after it",
        "other_gas": "sewer gas from a dry trap; no methane of ours",
        "another_operators": "the neighbour's propane tank; their supplier was told",
        "no_access": "nobody answers; zero at the door and outside; card left",
        "cancelled": "the caller found the stove's knob open and asks us not to come",
    }
)


def received(
    chance: Random, street: Street, *, report: str, at: datetime, shares: Shares, network: Network
) -> dict[str, Any]:
    """The call as the desk takes it."""
    return {
        "report": report,
        "came_from": "fire_department" if report == "fire" else one_of(chance, shares["calls"]["came_from"]),
        "house_number": house_on(chance, street),
        "street": street.name,
        "town": street.town,
        "caller_name": caller(chance, network),
        "caller_phone": f"555-01{chance.randint(0, 99):02d}",
        "caller_story": chance.choice(STORIES[report]),
        "happened": told(at),
    }


def call_told(
    chance: Random, street: Street, *, name: str, at: datetime, shares: Shares, network: Network
) -> list[dict[str, Any]]:
    """Every save of a call that is no leak of ours. `name`: what its file is called."""
    staff, ranges = network.staff[street.area], shares["calls"]
    report = one_of(chance, ranges["report"])
    call = received(chance, street, report=report, at=at, shares=shares, network=network)
    outcome = one_of(chance, ranges["outcome"])
    if outcome == "cancelled":
        over_at = later(chance, at, minutes=(4, 20))
        came_out = {"call": name, "outcome": outcome, "remarks": REMARKS[outcome]}
        return [{"when": told(over_at), "by": staff.desk, "call_received": call, "call_outcome": came_out}]
    crew: Sequence[str] = chance.choice(staff.crews)
    sent_at = later(chance, at, minutes=(1, 6))
    there_at = later(chance, sent_at, minutes=(9, 48))
    desk = {"when": told(sent_at), "by": staff.desk, "call_received": call}
    desk["call_sent"] = {"call": name, "person": crew[0]}
    came_out = {"call": name, "outcome": outcome, "remarks": REMARKS[outcome]}
    if outcome == "customers":
        came_out |= {"made_safe": "shut_off_and_tagged", "tag": f"T-{chance.randint(1000, 9999)}"}
    return [
        desk,
        {
            "when": told(later(chance, there_at, minutes=(12, 70))),
            "by": crew[0],
            "call_on_site": {"call": name, "happened": told(there_at), "person": crew[0]},
            "call_outcome": came_out,
        },
    ]
