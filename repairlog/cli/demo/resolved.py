"""From an entry as a file tells it to the raw entry that intake takes: ids for names, days for distances."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime
from hashlib import sha256
from typing import Any

from repairlog.cli.demo.days import DayUnclear, moment_told
from repairlog.cli.demo.names import NUMBERED, Names, id_of, leak_name, numbered_in
from repairlog.cli.demo.pictures.drawn import PICTURES, drawn
from repairlog.cli.demo.told import ToldEntry, ToldSave
from repairlog.entries.fields import Field, ref
from repairlog.entries.kinds import DID, KINDS, field_at
from repairlog.rulebooks import shelf_with
from repairlog.words import _

NAMED_ANYWHERE = ("leak", "lot", "company", "person", "area", "crew", "place", "instrument")

TYPED = ref("typed", "who typed it", to="person")


class NameUnknown(Exception):
    """A name that nothing in the demo bears. `known`: the names that it might have been."""

    def __init__(self, got: object, known: Iterable[object]) -> None:
        super().__init__(got)
        self.got, self.known = got, sorted(map(str, known))


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What a save is read on: the names of the whole demo, the zone of its file, the demo's own moment, and the day on
    which the save happened. What cannot be read is one of the `faults` more; what was drawn or written for it, one of
    the `files`, with its type."""

    names: Names
    save: ToldSave
    zone: str
    now: datetime
    same_day: date
    faults: list[str]
    files: list[tuple[bytes, str]] = field(default_factory=list)


def raw_of(entry: ToldEntry, on: Ground) -> dict[str, Any]:
    """The raw entry, as far as it can be read; the rest is told among the ground's faults."""
    kind = KINDS[entry.kind]
    raw: dict[str, Any] = {"kind": entry.kind, **entry.raw}
    for each in kind.fields:
        if each.name == kind.folds_in:
            raw.setdefault(each.name, 1 if each.refers_to in NUMBERED else leak_name(on.save.file))
        elif each.name == "area" and on.save.area:
            raw.setdefault(each.name, on.save.area)
    for each in (*kind.fields, TYPED):
        _settle(raw, each, on, where=f"{entry.place}: {each.name}")
    for rows in (*kind.rows, DID):
        for row in raw.get(rows.name, ()):
            for each in rows.fields:
                _settle(row, each, on, where=f"{entry.place}: {rows.name}.{row['key']}.{each.name}")
    if "rulebook" in raw and "digest" not in raw:
        _digest(raw, on, where=entry.place)
    if entry.kind == "corrected":
        _changes(raw, entry, on)
    if "picture" in raw:
        _draw(raw, entry, on)
    if "written_there" in raw:
        _attach(raw, str(raw.pop("written_there")).encode(), "text/plain", on)
    return raw | {"id": id_of(on.save, entry)}


def _draw(raw: dict[str, Any], entry: ToldEntry, on: Ground) -> None:
    """The picture that an entry asks for is drawn, and the entry names it as it came out."""
    kind = str(raw.pop("picture"))
    if kind not in PICTURES:
        told = _("{place}: nobody draws “{got}”; known are: {known}")
        on.faults.append(told.format(place=entry.place, got=kind, known=", ".join(PICTURES)))
        return
    _attach(raw, drawn(kind, seed=id_of(on.save, entry)), "image/jpeg", on)


def _attach(raw: dict[str, Any], content: bytes, media_type: str, on: Ground) -> None:
    """The entry names that file, which came before it."""
    on.files.append((content, media_type))
    raw |= {"digest": sha256(content).hexdigest(), "length": len(content), "media_type": media_type}


def _digest(raw: dict[str, Any], on: Ground, *, where: str) -> None:
    """A rulebook is named by its id; the one that is meant is the one that is shipped."""
    offered = shelf_with(None).by_id
    if raw["rulebook"] in offered:
        raw["digest"] = offered[raw["rulebook"]].rulebook.digest
    else:
        told = _("{where}: nothing is called “{got}” here; known are: {known}")
        on.faults.append(told.format(where=where, got=raw["rulebook"], known=", ".join(sorted(offered))))


def _changes(raw: dict[str, Any], entry: ToldEntry, on: Ground) -> None:
    """What a correction puts in is named as the corrected entry itself would name it."""
    target = str(entry.raw.get("entry", "")).rpartition(" ")[0]
    for row in raw.get("changes", ()):
        of = field_at(KINDS[target], str(row.get("field"))) if target in KINDS else None
        if of is not None and "to" in row:
            put = {of.name: row["to"]}
            _settle(put, of, on, where=f"{entry.place}: changes.{row['key']}.to")
            row["to"] = put[of.name]


def _settle(row: dict[str, Any], of: Field, on: Ground, *, where: str) -> None:
    if of.name not in row:
        return
    try:
        row[of.name] = _value(of, row[of.name], on)
    except NameUnknown as unknown:
        told = _("{where}: nothing is called “{got}” here; known are: {known}")
        on.faults.append(told.format(where=where, got=unknown.got, known=", ".join(unknown.known) or _("none")))
    except DayUnclear as unclear:
        on.faults.append(day_fault(where, unclear))


def day_fault(where: str, unclear: DayUnclear) -> str:
    """What is told of a day that cannot be read, and how one is written."""
    would_have = _(
        "a day is told as “12 days ago”, “12 days ago 07:52” (never between 01:00 and 03:00, when clocks may change),"
        " “40 minutes ago”, “30 days ahead”, “07:52” of the save's day, or as a fixed one, “2026-03-05 10:02”"
    )
    return _("{where}: “{got}” is no day; ").format(where=where, **unclear.facts) + would_have


def _value(of: Field, told: Any, on: Ground) -> Any:
    if of.kind in ("when", "day"):
        return moment_told(told, zone=on.zone, now=on.now, same_day=on.same_day).typed
    if of.kind == "ref":
        return _subject(of.refers_to, told, on)
    if of.kind == "entry":
        kind, _blank, number = str(told).rpartition(" ")
        named = (kind or "repair_attempted", int(number) if number.isdigit() else 0)
        there = on.names.entries[on.save.file]
        if named not in there:
            raise NameUnknown(told, (f"{kind} {count}" for kind, count in there))
        return there[named]
    if of.kind == "hole":
        holes = on.names.holes[on.save.file]
        if not isinstance(told, int) or not 1 <= told <= len(holes):
            raise NameUnknown(told, range(1, len(holes) + 1))
        return holes[told - 1]
    return told


def _subject(kind: str, told: Any, on: Ground) -> str:
    subjects = on.names.subjects
    if kind in NUMBERED:
        there = subjects[numbered_in(on.save.file, kind)]
    elif kind:
        there = subjects[kind]
    else:
        there = {name: id for each in NAMED_ANYWHERE for name, id in subjects[each].items()}
    if told not in there:
        raise NameUnknown(told, there)
    return there[told]
