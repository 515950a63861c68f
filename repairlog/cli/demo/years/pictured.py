"""Which repairs of the years have photographs, and what they show."""

from __future__ import annotations

from random import Random
from types import MappingProxyType
from typing import Any

from repairlog.cli.demo.years.shares import Shares, happens
from repairlog.cli.demo.years.works import Work

SHOWN = MappingProxyType(
    {
        "clamp": ("pipe", "clamp"),
        "joint": ("dig", "tape"),
        "coupling": ("dig", "coupling"),
        "meter_set": ("meter_set", "valve"),
        "thread": ("pipe", "tape"),
    }
)
"""By what was done, the pictures that a crew takes of it: before, after."""

CAPTIONS = MappingProxyType(
    {
        "pipe": "as found, rule beside",
        "clamp": "clamp on, tape to both sides",
        "dig": "the opening",
        "tape": "wrapped, before the backfill",
        "coupling": "the new coupling",
        "meter_set": "the set after the repair",
        "valve": "the valve, soaped",
    }
)


def pictured(shares: Shares, work: Work, *, story: str) -> dict[str, Any]:
    """The pictures of one repair, as entries; none of most. Chance of its own: a picture more changes no story."""
    chance = Random(f"{shares['seed']} {story} pictured")  # noqa: S311 - a story, no secret
    if not happens(chance, shares["leaks"]["pictured"]):
        return {}
    before, after = SHOWN[work.shows]
    kinds = (before, after) if chance.random() < 0.3 else (after,)
    return {"attached": [{"picture": each, "name": f"{each}.jpg", "caption": CAPTIONS[each]} for each in kinds]}
