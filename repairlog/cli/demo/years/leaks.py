"""The story of one leak of the years, save by save, as its people would have typed it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from random import Random
from typing import Any

from repairlog.cli.demo.years.calls import received
from repairlog.cli.demo.years.hours import in_working_hours, later, told
from repairlog.cli.demo.years.looks import Hole, again, first_places, holes_bored, reason_for
from repairlog.cli.demo.years.lots import Lot, on_the_shelf
from repairlog.cli.demo.years.network import Network, Staff, Street, house_on
from repairlog.cli.demo.years.pictured import pictured
from repairlog.cli.demo.years.shares import Shares, days_between, happens, middle, one_of
from repairlog.cli.demo.years.works import Work, work_on

RE_EVALUATED_EVERY = {"2": 150, "3": 330}
"""Days after which the crews look again while a leak is open."""

CALLED = ("odor_call", "other_call")
FROST = (1, 2)


@dataclass(slots=True, kw_only=True)
class Telling:
    """A leak's story while it is told. `name`: of its file. `at`: the moment it has come to.
    `attempts`: how many repairs were tried."""

    chance: Random
    shares: Shares
    network: Network
    street: Street
    name: str
    lots: list[Lot]
    at: datetime
    saves: list[dict[str, Any]] = field(default_factory=list)
    holes: list[Hole] = field(default_factory=list)
    attempts: int = 0
    grade: str = ""

    @property
    def staff(self) -> Staff:
        """Who works in its area."""
        return self.network.staff[self.street.area]


def leak_told(telling: Telling) -> list[dict[str, Any]]:
    """Every save of the leak's story, from the report on."""
    crew = telling.chance.choice(telling.staff.crews)
    _reported(telling, crew)
    if happens(telling.chance, _other_ends(telling.shares)):
        _ended_otherwise(telling)
    else:
        _repaired(telling, crew)
    return telling.saves


def _other_ends(shares: Shares) -> float:
    ranges = shares["leaks"]["ended_how"]
    return sum(middle(each) for how, each in ranges.items() if how in ENDED_OTHERWISE)


def _save(telling: Telling, by: str, **entries: Any) -> None:
    telling.saves.append({"when": told(telling.at), "by": by, **entries})


def _reported(telling: Telling, crew: Sequence[str]) -> None:
    """The report and the first look: of a call, what the desk takes, and what the crew opens on site."""
    chance, street, reported_at = telling.chance, telling.street, telling.at
    how = one_of(chance, telling.shares["leaks"]["detected_by"])
    opened = {"detected_by": how, "happened": told(reported_at), "street": street.name, "town": street.town}
    came: dict[str, Any] = {}
    if how in CALLED:
        opened |= {"house_number": _called(telling, crew)["house_number"], "from_call": telling.name}
        there_at = later(chance, telling.at, minutes=(9, 40))
        came["call_on_site"] = {"call": telling.name, "happened": told(there_at), "person": crew[0]}
        telling.at = there_at
    else:
        opened["house_number"] = house_on(chance, street)
    looked = _first_look(telling)
    if how in CALLED:
        came["call_outcome"] = {"call": telling.name, "outcome": "operators_leak", "found_leak": telling.name}
    _save(telling, crew[0], leak_opened=opened, **looked, **came)
    if telling.grade == "1":
        _made_safe(telling, crew)


def _made_safe(telling: Telling, crew: Sequence[str]) -> None:
    """What is done at once where the gas may reach people: the gas brought under control, and the place made safe."""
    controlled_at = later(telling.chance, telling.at, minutes=(8, 35))
    telling.at = later(telling.chance, controlled_at, minutes=(5, 40))
    moments = {"gas_under_control": controlled_at, "area_made_safe": telling.at}
    noted = [{"moment": moment, "happened": told(at)} for moment, at in moments.items()]
    _save(telling, crew[0], moment_noted=noted)


def _called(telling: Telling, crew: Sequence[str]) -> dict[str, Any]:
    chance = telling.chance
    call = received(
        chance, telling.street, report="odor", at=telling.at, shares=telling.shares, network=telling.network
    )
    telling.at = later(chance, telling.at, minutes=(1, 6))
    _save(telling, telling.staff.desk, call_received=call, call_sent={"call": telling.name, "person": crew[0]})
    return call


def _first_look(telling: Telling) -> dict[str, Any]:
    chance = telling.chance
    telling.grade = one_of(chance, telling.shares["leaks"]["grade"])
    telling.at = later(chance, telling.at, minutes=(20, 60))
    telling.holes = holes_bored(chance, telling.grade)
    visit = {
        "purpose": "first_investigation",
        "outcome": "looked",
        "ground": "frozen" if telling.at.month in FROST and chance.random() < 0.5 else chance.choice(("dry", "wet")),
        "instrument_used": chance.choice(telling.staff.instruments),
        "places": first_places(chance, telling.holes, grade=telling.grade),
    }
    return {"visit": visit, "grade_set": {"grade": telling.grade, "reason": reason_for(chance, telling.grade)}}


def _repaired(telling: Telling, crew: Sequence[str]) -> None:
    chance, leaks = telling.chance, telling.shares["leaks"]
    wait = days_between(chance, leaks["days_to_repair"][telling.grade])
    day = telling.at.date() + timedelta(days=wait)
    _looked_at_until(telling, crew, day)
    work = work_on(chance, telling.street, cause=one_of(chance, leaks["cause"]))
    telling.at = _work_begins(telling, day)
    attempts = leaks["attempts"]
    _save(telling, crew[0], source_added=dict(work.source))
    if happens(chance, attempts["temporary_at_first"]):
        _tried(telling, crew, work, lasting="temporary")
        telling.at = in_working_hours(chance, telling.at.date() + timedelta(days=1))
        accepted = {"attempt": telling.attempts, "outcome": "accepted"}
        _save(telling, telling.staff.supervisor, repair_reviewed=accepted)
        telling.at = in_working_hours(chance, telling.at.date() + timedelta(days=chance.randint(3, 25)))
    elif happens(chance, attempts["not_tight_at_first"]):
        _tried(telling, crew, work, outcome="not_tight")
        telling.at = later(chance, telling.at, minutes=(60, 150))
    _tried(telling, crew, work)
    _accepted_and_ended(telling, crew, work)


def _work_begins(telling: Telling, day: date) -> datetime:
    if telling.grade == "1":  # work goes on from the first look
        return later(telling.chance, telling.at, minutes=(90, 240))
    return in_working_hours(telling.chance, day)


def _looked_at_until(telling: Telling, crew: Sequence[str], day: date) -> None:
    every = RE_EVALUATED_EVERY.get(telling.grade)
    while every and telling.at.date() + timedelta(days=every) < day:
        looked_on = telling.at.date() + timedelta(days=every + telling.chance.randint(-12, 12))
        telling.at = in_working_hours(telling.chance, looked_on)
        telling.holes, places = again(telling.chance, telling.holes, change=telling.chance.uniform(0.7, 1.25))
        visit = {"purpose": "re_evaluation", "outcome": "looked", "places": places}
        _save(telling, crew[0], visit=visit | {"instrument_used": telling.chance.choice(telling.staff.instruments)})


def _tried(
    telling: Telling, crew: Sequence[str], work: Work, *, lasting: str = "permanent", outcome: str = "tight"
) -> None:
    chance, flaws = telling.chance, telling.shares["flaws"]
    telling.at = later(chance, telling.at, minutes=(70, 200))
    telling.attempts += 1
    pressure = work.source["pressure"]
    attempt = {
        "source": 1,
        "lasting": lasting,
        "method": "band and rubber" if lasting == "temporary" else work.method,
        "cause": work.cause,
        "pressure_found": pressure,
        "pressure_installing": pressure,
        "pressure_restored": pressure,
        "customers": "live",
        "outcome": outcome,
        "people": [{**_helper(telling, crew), "task": work.task}],
        "did": list(crew),
    }
    if lasting == "permanent":
        attempt["materials"] = [_material(telling, work)]
    entries: dict[str, Any] = {"repair_attempted": attempt}
    if outcome == "not_tight" or not happens(chance, flaws["no_test"]):
        attempt["happened"] = told(telling.at)
        telling.at = later(chance, telling.at, minutes=(10, 25))
        entries["tested"] = {
            "attempt": telling.attempts,
            "kind_of_test": "soap",
            "pressure": pressure,
            "result": outcome,
        }
    if lasting == "permanent" and outcome == "tight":
        entries |= pictured(telling.shares, work, story=f"{telling.name} {telling.attempts}")
    if happens(chance, flaws["typed_next_day"]):
        typed_at = in_working_hours(chance, telling.at.date() + timedelta(days=1))
        _save(telling, crew[0], **entries, written=told(typed_at))
        telling.at = typed_at
    else:
        _save(telling, crew[0], **entries)


def _helper(telling: Telling, crew: Sequence[str]) -> dict[str, str]:
    if happens(telling.chance, telling.shares["flaws"]["person_not_on_the_books"]):
        return {"named": "a fitter of Tidewater Pipe Services"}
    return {"person": crew[1]}


def _material(telling: Telling, work: Work) -> dict[str, str]:
    chance, flaws, on = telling.chance, telling.shares["flaws"], telling.at.date()
    if happens(chance, flaws["lot_not_on_the_books"]):
        return {"named": f"tag torn, {work.item}", "used": "1"}
    old = on_the_shelf(telling.lots, work.item, on=on, old=True) if happens(chance, flaws["expired_lot"]) else None
    return {"lot": old or on_the_shelf(telling.lots, work.item, on=on) or "", "used": "1"}


def _accepted_and_ended(telling: Telling, crew: Sequence[str], work: Work) -> None:
    chance, supervisor = telling.chance, telling.staff.supervisor
    telling.at = in_working_hours(chance, telling.at.date() + timedelta(days=1))
    if happens(chance, telling.shares["leaks"]["attempts"]["returned"]):
        review = {
            "attempt": telling.attempts,
            "outcome": "returned",
            "reason": "no coating on the record",
        }
        _save(telling, supervisor, repair_reviewed=review)
        telling.at = in_working_hours(chance, telling.at.date() + timedelta(days=chance.randint(1, 4)))
        _tried(telling, crew, work)
        telling.at = in_working_hours(chance, telling.at.date() + timedelta(days=1))
    _save(
        telling,
        supervisor,
        repair_reviewed={"attempt": telling.attempts, "outcome": "accepted"},
        leak_ended={"how": "repaired", "attempts": [telling.attempts]},
    )
    if chance.random() < 0.3:  # gas was left in the ground
        _followed_up(telling, crew)


def _followed_up(telling: Telling, crew: Sequence[str]) -> None:
    telling.at = in_working_hours(telling.chance, telling.at.date() + timedelta(days=telling.chance.randint(16, 28)))
    telling.holes, places = again(telling.chance, telling.holes, change=0.0)
    _save(telling, crew[0], visit={"purpose": "follow_up_inspection", "outcome": "looked", "places": places})


ENDED_OTHERWISE = {
    "replaced": "the main on this block was replaced",
    "retired": "service cut off at the main and sealed",
    "adjusted": "tightened on the spot, no reading after it",
    "no_reading": "no gas on three visits at the same holes",
    "customers": "on the customer's piping; tagged and told",
    "other_gas": "sewer gas, no methane of ours",
}

AT_ONCE = ("retired", "adjusted", "customers", "other_gas")
"""Endings that come about on the day of the report, and so the ones that a grade 1 has: nobody waits with it."""


def _ended_otherwise(telling: Telling) -> None:
    chance = telling.chance
    ranges = {how: telling.shares["leaks"]["ended_how"][how] for how in ENDED_OTHERWISE}
    how = one_of(chance, ranges if telling.grade != "1" else {each: ranges[each] for each in AT_ONCE})
    soon = how in AT_ONCE
    telling.at = in_working_hours(chance, telling.at.date() + timedelta(days=1 if soon else chance.randint(30, 240)))
    _save(telling, telling.staff.supervisor, leak_ended={"how": how, "reason": ENDED_OTHERWISE[how]})
