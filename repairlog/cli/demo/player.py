"""Plays the demo's files through the one door, in the order in which its saves came in, as the people it tells of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any
from uuid import UUID

from repairlog.access import Actor, Membership, Refused
from repairlog.cli.demo.days import DayUnclear, Moment, moment_told
from repairlog.cli.demo.names import Names, names_in, zones_in
from repairlog.cli.demo.resolved import Ground, day_fault, raw_of
from repairlog.cli.demo.told import BookUnclear, Raw, ToldSave, saves_told
from repairlog.cli.demo.years.years import years_told
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import RIGHTING
from repairlog.entries.moments import moment_text
from repairlog.intake import NotUnderstood
from repairlog.intake.record import record_sent
from repairlog.records.post import Conflict, NotThere, Sent
from repairlog.records.store import Store
from repairlog.words import _
from repairlog.words.complaints import sentence

ENTRIES_A_CALL = 300
"""Entries that go through the door together: of one call after the other, each costs three times as much."""


class TooEarly(Exception):
    """The demo's own moment lies before its fixed days. `until`: the last of these."""

    def __init__(self, until: date) -> None:
        super().__init__(until)
        self.until = until


@dataclass(frozen=True, slots=True, kw_only=True)
class Save:
    """One save, ready for the door. `when`: it happened. `by`: whose it is, and how `sure`. `places`: of each entry,
    for a complaint. `files`: what came before it and its entries name, each with its type."""

    when: datetime
    by: UUID
    sure: str
    moments: Moments
    entries: tuple[Mapping[str, Any], ...]
    places: tuple[str, ...]
    files: tuple[tuple[bytes, str], ...] = ()


def saves(folder: Path, *, now: datetime, years: int = 0) -> list[Save]:
    """Every save that the files of the folder tell, as seen from `now`, in the order in which they came in; with those
    of so many years before, from the folder `years` beside it.

    Raises BookUnclear with everything that cannot be read, and TooEarly.
    """
    told = saves_told(folder)
    if years:
        told += years_told(folder.parent / "years", zones=zones_in(told), now=now, years=years)
    faults: list[str] = []
    names = names_in(told, faults=faults)
    ready = [each for save in told if (each := _ready(save, names, now=now, faults=faults))]
    if faults:
        raise BookUnclear(faults)
    if (last := max(ready, key=lambda save: save.when, default=None)) and last.when > now:
        raise TooEarly(last.when.date())
    return sorted(ready, key=lambda save: save.moments.received)


def play(store: Store, ready: Iterable[Save], *, roles: Mapping[UUID, tuple[Membership, ...]]) -> None:
    """Record these saves, each as the person it is told of, who has these roles.

    Raises BookUnclear where the door sends one back.
    """
    for call in _calls(ready):
        entries = [entry for save in call for entry in save.entries]
        places = [place for save in call for place in save.places]
        sent = [Sent(actor=_actor(save, roles), moments=save.moments) for save in call for _entry in save.entries]
        try:
            record_sent(store, entries, sent=sent)
        except NotUnderstood as problem:
            told = [f"{places[c.entry]}: {c.field}: {' '.join(sentence(c))}" for c in problem.complaints]
            raise BookUnclear(told) from problem
        except (Refused, NotThere, Conflict) as problem:
            raise BookUnclear([f"{_where(problem, entries, places)}: {problem}"]) from problem


def _where(problem: Refused | NotThere | Conflict, entries: Sequence[Raw], places: Sequence[str]) -> str:
    """The place of the entry that the door sends back; of one that names what is not there, of the first that may."""
    if isinstance(problem, Refused):
        return places[problem.position]
    ids = problem.ids if isinstance(problem, NotThere) else {problem.id}
    texts = {str(id) for id in ids}
    return next(place for entry, place in zip(entries, places, strict=True) if texts & set(_texts(entry)))


def _texts(said: object) -> Iterator[str]:
    """Every text in an entry, those of its rows too."""
    if isinstance(said, Mapping):
        said = list(said.values())
    if isinstance(said, list):
        for each in said:
            yield from _texts(each)
    elif isinstance(said, str):
        yield said


def _calls(ready: Iterable[Save]) -> Iterator[list[Save]]:
    """The saves that go through the door together, in their order. One that puts something right begins a call: whether
    its sender may is judged by what stands before it."""
    call: list[Save] = []
    entries = 0
    for save in ready:
        rights = any(entry["kind"] in RIGHTING for entry in save.entries)
        if call and (rights or entries >= ENTRIES_A_CALL):
            yield call
            call, entries = [], 0
        call.append(save)
        entries += len(save.entries)
    if call:
        yield call


def _ready(save: ToldSave, names: Names, *, now: datetime, faults: list[str]) -> Save | None:
    said = save.of_the_save
    zone, by = names.zones.get(save.area), names.subjects["person"].get(said.get("by"))
    if zone is None:
        faults.append(_unknown(save, save.area, filter(None, names.zones)))
        return None
    if by is None:
        faults.append(_unknown(save, said.get("by"), names.subjects["person"]))
        return None
    when, written, received = (
        _clock(save, name, zone=zone, now=now, faults=faults) for name in ("when", "written", "received")
    )
    if when is None:
        return None
    on = Ground(names=names, save=save, zone=zone, now=now, same_day=when.on, faults=faults)
    entries = tuple(_dated(raw_of(entry, on), when.typed) for entry in save.entries)
    sure = said.get("sure", "password")
    if sure == "system":  # the machine that holds the book: no device sent it
        moments = Moments(received=when.at)
    else:
        moments, device = _moments(save.place, when, written=written, received=received, now=now)
        entries = tuple({**each, "written": moment_text(device)} for each in entries)
    places = tuple(entry.place for entry in save.entries)
    return Save(
        when=when.at,
        by=read_id(by),
        sure=sure,
        moments=moments,
        entries=entries,
        places=places,
        files=tuple(on.files),
    )


def _clock(save: ToldSave, name: str, *, zone: str, now: datetime, faults: list[str]) -> Moment | None:
    """The moment that a save gives under that name; None where it gives none, or one that cannot be read."""
    if name not in save.of_the_save:
        return None
    try:
        return moment_told(save.of_the_save[name], zone=zone, now=now)
    except DayUnclear as unclear:
        faults.append(day_fault(f"{save.place}: {name}", unclear))
        return None


def _unknown(save: ToldSave, got: object, known: Iterable[object]) -> str:
    told = _("{place}: nothing is called “{got}” here; known are: {known}")
    return told.format(place=save.place, got=got, known=", ".join(sorted(map(str, known))))


def _dated(raw: dict[str, Any], typed: str) -> dict[str, Any]:
    """The entry with the save's moment, where it has none of its own and its kind asks for one."""
    return raw if raw["kind"] in RIGHTING else {"happened": typed, **raw}


def _moments(
    place: str, when: Moment, *, written: Moment | None, received: Moment | None, now: datetime
) -> tuple[Moments, datetime]:
    """When the save came in, and when it was written by the device's clock: some minutes after it happened, some
    seconds before it came in, unless the file says otherwise; never later than now."""
    chance = sha256(place.encode()).digest()
    offset = timedelta(milliseconds=chance[0] - 128)
    soon = when.at + timedelta(seconds=90 + 2 * chance[1], milliseconds=4 * chance[2])
    wrote = min(written.at if written else soon, now)
    came = received.at if received else wrote + timedelta(milliseconds=1500 + 60 * chance[3])
    came = max(min(came, now), wrote)
    moments = Moments(received=came, sent=came + offset, offset_ms=offset // timedelta(milliseconds=1))
    return moments, wrote + offset


def _actor(save: Save, roles: Mapping[UUID, tuple[Membership, ...]]) -> Actor:
    if save.sure == "system":
        return Actor(person=save.by, sure="system")
    signed_in_on = save.moments.received.date().isoformat()
    return Actor(person=save.by, sure=save.sure, memberships=roles.get(save.by, ()), signed_in_on=signed_in_on)


def people(ready: Iterable[Save]) -> dict[str, UUID]:
    """The people whom these saves add, by name."""
    added = (each for save in ready for each in save.entries if each["kind"] == "person_added")
    return {each["name"]: read_id(each["id"]) for each in added}


def roles_in(ready: Iterable[Save]) -> dict[UUID, tuple[Membership, ...]]:
    """What the people may do whom these saves add."""
    return {
        read_id(raw["id"]): tuple(
            Membership(
                role=row["role"],
                area=read_id(row["area"]) if "area" in row else None,
                from_on=row["from_on"],
                until_on=row.get("until_on", ""),
            )
            for row in raw.get("roles", ())
        )
        for save in ready
        for raw in save.entries
        if raw["kind"] == "person_added"
    }
