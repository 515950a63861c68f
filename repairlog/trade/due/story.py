"""The life of a leak as its entries tell it, as far as clocks start and stop by it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.entries.moments import read_moment
from repairlog.trade.attempts import Attempt
from repairlog.trade.due.life import Graded, Life, Look, When
from repairlog.trade.ending import Ending
from repairlog.trade.grades import GradeSet
from repairlog.trade.sources import sources
from repairlog.units import split_canonical

TOLD_TASKS: Mapping[str, str] = {
    "fire_department": "tell_fire_department",
    "police": "tell_police",
    "owner": "tell_owner",
}
"""Whom somebody told, and the task that this does."""

BY_WORK = ("repaired", "replaced", "retired", "adjusted")
"""Endings after which no gas comes out of that pipe any more."""


def life_of(
    opened: Standing,
    live: Sequence[Standing],
    *,
    done: Sequence[Attempt],
    grades: Sequence[GradeSet],
    ending: Ending | None,
) -> Life:
    """The life of a leak that was not opened in error. `live`: its entries that stand, in the order they happened;
    `done`: its attempts, `grades`: as they were set, `ending`: the one that counts."""
    found = [entry.id for entry in live if entry.kind == "source_added"]
    whens = {entry.id: _when(entry) for entry in live}
    looks = tuple(_looks(live))
    ended = When(on=date.fromisoformat(ending.on), entry=ending.entry.id) if ending else None
    repaired = _repaired(live, done=done, found=found, whens=whens)
    if repaired is None and ending is not None and ending.entry.text("how") in BY_WORK:
        repaired = ended
    temporary = tuple(whens[each.id] for each in done if each.lasting == "temporary" and each.outcome != "not_tight")
    stood = tuple(_stood(grades))
    return Life(
        zone=ZoneInfo(str(opened.understood["zone"])),
        reported=_when(opened),
        found=_discovered(opened),
        grades=stood,
        looks=looks,
        repaired=repaired,
        temporary=temporary,
        made_safe=tuple(_made_safe(live, done=done, found=found, whens=whens)),
        ended=ended,
        joined=ending is not None and ending.entry.text("how") == "joined",
        done=_told(live),
        holds=frozenset(_holds(live, looks=looks, repaired=repaired, temporary=temporary, grades=grades, done=done)),
    )


def _when(entry: Standing) -> When:
    at = entry.understood.get("happened_at")
    return When(
        on=date.fromisoformat(entry.on),
        at=read_moment(at) if at else None,
        entry=entry.id,
        known="happened_known" not in entry.understood,
    )


def _discovered(opened: Standing) -> When:
    on, at = opened.understood.get("discovered_on"), opened.understood.get("discovered_at")
    if not on:
        return _when(opened)
    return When(on=date.fromisoformat(on), at=read_moment(at) if at else None, entry=opened.id)


def _stood(grades: Sequence[GradeSet]) -> Iterator[Graded]:
    """The grades that stood, one that was only set again once: setting it again starts no clock anew."""
    last: Graded | None = None
    for each in (each for each in grades if each.counts):
        if last is not None and last.code == each.grade.code:
            continue
        criterion = each.entry.text("criterion")
        last = Graded(code=each.grade.code, since=_when(each.entry), criterion=criterion, rank=each.grade.rank)
        yield last


def _looks(live: Sequence[Standing]) -> Iterator[Look]:
    for entry in live:
        if entry.kind == "visit" and entry.text("outcome") == "looked":
            follows = entry.text("purpose") == "follow_up_inspection"
            yield Look(when=_when(entry), gas=_found_gas(entry), follows=follows)


def _found_gas(visit: Standing) -> bool | None:
    """None where nothing was read, or something that could not be read stands beside zeros."""
    readings = [visit.understood.get(f"readings.{row['key']}.value") for row in visit.rows("readings")]
    if any(each is not None and split_canonical(each).value > Decimal(0) for each in readings):
        return True
    return None if not readings or None in readings else False


def _repaired(
    live: Sequence[Standing], *, done: Sequence[Attempt], found: Sequence[UUID], whens: Mapping[UUID, When]
) -> When | None:
    """When the last source was tight for good, if that holds and the leak was not opened again since."""
    lasting = {each.source: each for each in done if each.lasting == "permanent"}
    if not lasting or set(found) - lasting.keys() or not all(each.holds for each in lasting.values()):
        return None
    last = max((whens[each.id] for each in lasting.values()), key=lambda when: when.order)
    again = [whens[entry.id] for entry in live if entry.kind == "leak_reopened"]
    return None if any(when.order >= last.order for when in again) else last


def _made_safe(
    live: Sequence[Standing], *, done: Sequence[Attempt], found: Sequence[UUID], whens: Mapping[UUID, When]
) -> list[When]:
    """By word of those who were there, and by the repair, a temporary one too, that made the last source tight."""
    said = [whens[entry.id] for entry in live if entry.text("moment") == "area_made_safe"]
    tight = {each.source: whens[each.id] for each in reversed(done) if each.outcome == "tight"}
    if tight and not set(found) - tight.keys():
        said.append(max(tight.values(), key=lambda when: when.order))
    return sorted(said, key=lambda when: when.order)


def _told(live: Sequence[Standing]) -> dict[str, When]:
    told = [entry for entry in live if entry.kind == "told" and entry.text("whom") in TOLD_TASKS]
    return {TOLD_TASKS[entry.text("whom")]: _when(entry) for entry in reversed(told)}


def _holds(
    live: Sequence[Standing],
    *,
    looks: Sequence[Look],
    repaired: When | None,
    temporary: Sequence[When],
    grades: Sequence[GradeSet],
    done: Sequence[Attempt],
) -> Iterator[str]:
    """The conditions of rules that hold for the leak."""
    if repaired is not None and any(look.gas and look.when.order > repaired.order for look in looks):
        yield "residual_gas"
    if any(entry.text("frost") == "yes" or entry.text("ground") == "frozen" for entry in live):
        yield "frost"
    if _waits_on_project(live):
        yield "replacement_planned"
    if any(each.text("material").startswith("plastic") for each in sources(live)):  # what is owed goes by what it is
        yield "plastic_pipe"
    if temporary:
        yield "temporary_repair"
    if any(each.lower_than and each.counts for each in grades) and not done:
        yield "downgraded_without_repair"
    if any(entry.kind == "leak_ended" and entry.text("how") in ("other_gas", "customers") for entry in live):
        yield "not_our_gas"


def _waits_on_project(live: Sequence[Standing]) -> bool:
    waits = False
    for entry in live:
        if entry.kind == "work_waiting":
            waits = entry.text("waits_on") == "project"
        elif entry.kind == "work_goes_on":
            waits = False
    return waits
