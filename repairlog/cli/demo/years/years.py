"""The years as saves: lots, leaks, each as if a file of the demo told it, up to the demo's own moment."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

from repairlog.cli.demo.told import BookUnclear, ToldSave, saves_of
from repairlog.cli.demo.years.calls import call_told
from repairlog.cli.demo.years.hours import moments_of_a_year, told
from repairlog.cli.demo.years.leaks import Telling, leak_told
from repairlog.cli.demo.years.lots import lots_received, receipts
from repairlog.cli.demo.years.network import Network, network_told, worn_street
from repairlog.cli.demo.years.shares import Shares, middle, shares_told

LEFT_OUT = timedelta(minutes=30)
"""Of the last minutes the hand-told files tell."""


def years_told(folder: Path, *, zones: dict[str, str], now: datetime, years: int) -> list[ToldSave]:
    """Every save of so many years up to `now`, by the folder's files. `zones`: of areas by code."""
    shares, network = shares_told(folder), network_told(folder)
    faults: list[str] = []
    saves: list[ToldSave] = []
    for area in network.staff:
        here = now.astimezone(ZoneInfo(zones[area])).replace(tzinfo=None)
        for name, story in _stories(area, shares, network, until=here, years=years):
            past = [save for save in story if save["when"] < told(here - LEFT_OUT)]
            saves += saves_of(f"years/{name}", {"area": area, "save": past}, faults=faults)
    if faults:
        raise BookUnclear(faults)
    return saves


def _stories(
    area: str, shares: Shares, network: Network, *, until: datetime, years: int
) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    """Each story with the name of its file."""
    first = until.date() - timedelta(days=365 * years)
    lots, staff = lots_received(area, first=first, last=until.date(), shares=shares), network.staff[area]
    yield (
        f"{area}/stores",
        list(receipts(lots, by=staff.supervisor, keeper=staff.storekeeper, last=until.date())),
    )
    for year in range(years):
        chance = Random(f"{shares['seed']} {area} {year}")  # noqa: S311 - a story, no secret
        begins, leaks = first + timedelta(days=365 * year), 0
        for number, at in enumerate(_moments(chance, shares, "leaks", area=area, first=begins), start=1):
            name, street = f"{area}-{year}-{number}", worn_street(chance, network.streets[area])
            told = leak_told(
                Telling(chance=chance, shares=shares, network=network, street=street, name=name, lots=lots, at=at)
            )
            leaks += "call_received" in told[0]
            yield f"{area}/{name}", told
        for number, at in enumerate(_moments(chance, shares, "calls", area=area, first=begins, less=leaks), start=1):
            name, street = f"{area}-{year}-call-{number}", chance.choice(network.streets[area])
            yield f"{area}/{name}", call_told(chance, street, name=name, at=at, shares=shares, network=network)


def _moments(chance: Random, shares: Shares, what: str, *, area: str, first: date, less: int = 0) -> Iterator[datetime]:
    """When in that year a leak is reported, or a call comes."""
    calls = shares["calls"]
    share = calls["area"][area] / sum(calls["area"].values())
    count = round(middle(shares[what]["a_year"]) * share) - less
    return moments_of_a_year(chance, first=first, count=count, month=calls["month"], hour=calls["hour"])
