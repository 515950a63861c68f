"""The demo's files as they are written: each a list of saves, each save with the entries that it made."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from repairlog.entries.kinds import DID, KINDS
from repairlog.words import _

Raw = Mapping[str, Any]

SIGN_INS = "sign_ins.toml"
"""The one file that tells no entries: who signs in, and with which password."""

OF_A_SAVE = ("when", "by", "sure", "written", "received")
SHORT_READINGS = {"reads": "sustained", "peak": "peak"}
"""What a place may say of itself in short, and the kind of reading that it is."""


class BookUnclear(Exception):
    """The demo's files cannot be played as they are. `faults`: a sentence each, with its place."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldEntry:
    """One entry as a file tells it. `place`: where, for a complaint; `count`: which of its kind in the file, from 1."""

    place: str
    kind: str
    count: int
    raw: Raw


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldSave:
    """One save as a file tells it. `file`: its name below the folder, without its ending; `area`: the code it names."""

    file: str
    area: str
    place: str
    of_the_save: Raw
    entries: tuple[ToldEntry, ...]


def saves_told(folder: Path) -> list[ToldSave]:
    """Every save of every file in the folder and below it, file by file. Raises BookUnclear."""
    faults: list[str] = []
    saves: list[ToldSave] = []
    for file in sorted(folder.rglob("*.toml")):
        if file.name != SIGN_INS:
            name = str(file.relative_to(folder))
            saves += saves_of(name, read_file(file, name, faults=faults), faults=faults)
    if faults:
        raise BookUnclear(faults)
    return saves


def read_file(file: Path, name: str, *, faults: list[str]) -> dict[str, Any]:
    """What the file says; nothing, and a fault more, where it is no TOML."""
    try:
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
        faults.append(f"{name}: {problem}")
        return {}


def saves_of(name: str, said: dict[str, Any], *, faults: list[str]) -> Iterator[ToldSave]:
    """The saves that one file tells, as TOML reads it; `faults` takes up what cannot be read."""
    if unknown := said.keys() - {"area", "save"}:
        would_have = _("a file of the demo has “area” and a list of [[save]]")
        faults.append(_("{place}: “{got}” is not known; ").format(place=name, got=", ".join(unknown)) + would_have)
    counts: dict[str, int] = {}
    for number, save in enumerate(said.get("save", ()), start=1):
        place = _("{file}, save {number}").format(file=name, number=number)
        entries = tuple(_entries(save, place, counts, faults))
        faults += [
            _("{place}: “{name}” is missing").format(place=place, name=missing)
            for missing in ("when", "by")
            if missing not in save
        ]
        of_the_save = {key: save[key] for key in OF_A_SAVE if key in save}
        yield ToldSave(
            file=name.removesuffix(".toml"),
            area=said.get("area", ""),
            place=place,
            of_the_save=of_the_save,
            entries=entries,
        )


def _entries(save: Raw, place: str, counts: dict[str, int], faults: list[str]) -> Iterator[ToldEntry]:
    for kind, raws in save.items():
        if kind in OF_A_SAVE:
            continue
        raws = raws if isinstance(raws, list) else [raws]
        if kind not in KINDS or not all(isinstance(raw, dict) for raw in raws):
            would_have = ", ".join((*OF_A_SAVE, *KINDS))
            fault = _("{place}: “{got}” is no table of a kind of entry; a save has: {would_have}")
            faults.append(fault.format(place=place, got=kind, would_have=would_have))
            continue
        for raw in raws:
            counts[kind] = counts.get(kind, 0) + 1
            where = f"{place}, {kind}"
            yield ToldEntry(place=where, kind=kind, count=counts[kind], raw=_with_rows(kind, raw))


def _with_rows(kind: str, raw: Raw) -> Raw:
    """The same with every row a table that has a key, and with readings told at their place put among the readings."""
    whole = dict(raw)
    for rows in (*KINDS[kind].rows, DID):
        if isinstance(raw.get(rows.name), list):
            whole[rows.name] = [_row(rows.name, row, number) for number, row in enumerate(raw[rows.name], start=1)]
    readings = list(whole.get("readings", ()))
    for place in whole.get("places", ()):
        for short, of_kind in SHORT_READINGS.items():
            if short in place:
                key = f"r{len(readings) + 1}"
                readings.append({"key": key, "place": place["key"], "kind": of_kind, "value": place.pop(short)})
    return whole | ({"readings": readings} if readings else {})


def _row(name: str, row: object, number: int) -> dict[str, Any]:
    """A row with its key: the list's first letter and the row's number. Of one field alone, its value is enough."""
    key = {"key": f"{name[0]}{number}"}
    if isinstance(row, dict):
        return key | row
    return key | {{"did": "person", "attempts": "attempt", "leaks": "leak"}.get(name, name): row}
