"""From the names that people use to the ids that entries carry: a person, a lot by its number, “attempt 2”."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from hashlib import sha256

from repairlog.cli.demo.told import ToldEntry, ToldSave
from repairlog.entries.ids import RANDOM_BYTES, uuid7
from repairlog.entries.kinds import KINDS
from repairlog.words import _

MADE = datetime(2026, 10, 1, tzinfo=UTC)
"""The moment in every id of the demo: ids are names, and the same save has the same ones in every demo."""

NAMED_BY = {"area": "code", "lot": "lot_number", "place": "called", "instrument": "mark"}
"""The field by which a subject is named, where that is not `name`; a leak is named by its file, and what is numbered
there by its number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """`subjects`: kind, then name, then id. `entries`: file, then kind and number, then id. `holes`: file, then the
    bar holes in their order. `zones`: of areas by code, the operator's under the empty one."""

    subjects: Mapping[str, dict[object, str]] = field(default_factory=lambda: defaultdict(dict))
    entries: Mapping[str, dict[tuple[str, int], str]] = field(default_factory=lambda: defaultdict(dict))
    holes: Mapping[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    zones: dict[str, str] = field(default_factory=dict)


def names_in(saves: Iterable[ToldSave], *, faults: list[str]) -> Names:
    """Everything that can be named in these saves; of two with one name, a fault more."""
    names = Names()
    for save in saves:
        for entry in save.entries:
            _learn(names, save, entry, faults)
    return names


def zones_in(saves: Iterable[ToldSave]) -> dict[str, str]:
    """The zone of each area that these saves open, by its code."""
    opened = (entry.raw for save in saves for entry in save.entries if entry.kind == "area_opened")
    return {str(raw["code"]): str(raw["zone"]) for raw in opened if {"code", "zone"} <= raw.keys()}


def leak_name(file: str) -> str:
    """How other files name the leak that this one tells of."""
    return file.rpartition("/")[2]


NUMBERED = ("source", "dig")
"""Subjects that are numbered within their file, and named nowhere else."""


def numbered_in(file: str, kind: str) -> str:
    """What the subjects of that kind are kept under that a file numbers."""
    return f"{kind} of {file}"


def _learn(names: Names, save: ToldSave, entry: ToldEntry, faults: list[str]) -> None:
    raw, id = entry.raw, id_of(save, entry)
    names.entries[save.file][entry.kind, entry.count] = id
    opens = KINDS[entry.kind].opens
    if opens in NUMBERED:
        names.subjects[numbered_in(save.file, opens)][entry.count] = id
    elif opens:
        called = leak_name(save.file) if opens in ("leak", "call") else raw.get(NAMED_BY.get(opens, "name"))
        if called in names.subjects[opens]:
            faults.append(_("{place}: “{name}” is there twice").format(place=entry.place, name=called))
        names.subjects[opens][called] = id
    if opens in ("operator", "area"):
        names.zones[str(raw.get("code", ""))] = str(raw.get("zone", "UTC"))
    places = raw.get("places", ()) if entry.kind == "visit" else ()
    names.holes[save.file].extend(
        f"{id}/{row['key']}" for row in places if row.get("kind") == "bar_hole" and "same_as" not in row
    )


def id_of(save: ToldSave, entry: ToldEntry) -> str:
    """The id that the file gives it, else one worked out from its place: the file, its kind, its number there."""
    worked_out = sha256(f"{save.area}/{save.file}/{entry.kind}/{entry.count}".encode()).digest()[:RANDOM_BYTES]
    return str(entry.raw.get("id") or uuid7(at=MADE, random=worked_out))
