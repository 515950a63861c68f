"""A lower grade after venting: the wait that the rulebook asks for, and the reading after it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.entries.moments import read_moment
from repairlog.trade.intervals import Around, count, count_from, read_interval
from repairlog.trade.rulebook import Rulebook, RuleGap, VentingWait, in_force_on

_NO_HOUR = datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """`on`: the legal day. `at`: the moment, None where only the day was told."""

    on: date
    at: datetime | None = None

    @property
    def order(self) -> tuple[date, datetime]:
        """Sorts as things happened; a day without an hour after the moments of that day."""
        return self.on, self.at or _NO_HOUR


@dataclass(frozen=True, slots=True, kw_only=True)
class Venting:
    """Venting that was told of a leak, and who read after it. `stopped`: when it stopped last; None while it goes on,
    by all that was told. `reads`: the looks with readings since then, in their order. `zone`: of the leak."""

    stopped: Moment | None
    reads: tuple[Moment, ...]
    zone: ZoneInfo


@dataclass(frozen=True, slots=True, kw_only=True)
class Waited:
    """Venting against a rule. `lacks`: `stop` (nobody said that venting stopped), `reading` (none since then), `wait`
    (the last came too soon), empty where nothing is known to be wrong."""

    rule: VentingWait
    venting: Venting
    lacks: str


def venting_of(visits: Sequence[Standing], *, zone: ZoneInfo) -> Venting | None:
    """What visits tell of venting; None where they tell of none. `visits`: in the order they happened."""
    started = [when for each in visits if (when := _moment(each.understood, "venting_started"))]
    stopped = [when for each in visits if (when := _moment(each.understood, "venting_stopped"))]
    if not started and not stopped:
        return None
    last = max(stopped, key=_order, default=None)
    if last is None or any(last.on < each.on or _is_before(last, each) for each in started):
        return Venting(stopped=None, reads=(), zone=zone)
    looks = [_happened(each) for each in visits if each.rows("readings")]
    since = tuple(each for each in looks if each.on >= last.on and not _is_before(each, last))
    return Venting(stopped=last, reads=since, zone=zone)


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedAfterVenting:
    """`rule`: by which a leak waits, None where none is known. `gap`: the figure that the rulebook leaves open then."""

    rule: VentingWait | None = None
    gap: RuleGap | None = None


def asked_after_venting(rulebook: Rulebook, *, grade: str, on: str) -> AskedAfterVenting:
    """What a rulebook asks of a leak of that grade before it is lowered on that day (`YYYY-MM-DD`)."""
    day = date.fromisoformat(on)
    for rule in rulebook.venting_waits:
        if in_force_on(rule.cited, day) and (not rule.grades or grade in rule.grades):
            return AskedAfterVenting(rule=rule)
    gaps = (each for each in rulebook.gaps if each.instead_of == "venting_wait")
    return AskedAfterVenting(gap=next(gaps, None))


def waited(rule: VentingWait, venting: Venting, *, around: Around) -> Waited:
    """Whether the wait was kept and a reading made after it.

    Where only a day is known, the hours that suit best are taken: nothing is said to lack that may be there. A wait
    that cannot be counted here lacks nothing either.
    """
    if venting.stopped is None:
        return Waited(rule=rule, venting=venting, lacks="stop")
    if not venting.reads:
        return Waited(rule=rule, venting=venting, lacks="reading")
    kept = any(_is_over(rule.wait, venting.stopped, read, zone=venting.zone, around=around) for read in venting.reads)
    return Waited(rule=rule, venting=venting, lacks="" if kept else "wait")


def _is_over(wait: str, stopped: Moment, read: Moment, *, zone: ZoneInfo, around: Around) -> bool:
    interval = read_interval(wait)
    try:
        if not interval.in_hours:
            return count(interval, stopped.on, around=around).due_on <= read.on
        ends = count_from(interval, stopped.at or _midnight(stopped.on, zone), zone=zone, around=around)
    except (ValueError, OverflowError, KeyError):
        return True
    latest = read.at or _midnight(read.on + timedelta(days=1), zone)
    return ends.due_at <= latest if ends.due_at else ends.due_on <= read.on


def _midnight(on: date, zone: ZoneInfo) -> datetime:
    return datetime.combine(on, datetime.min.time(), tzinfo=zone)


def _is_before(one: Moment, other: Moment) -> bool:
    """Whether of two moments of one day the first is known to come before the other."""
    return one.on == other.on and one.at is not None and other.at is not None and one.at < other.at


def _order(moment: Moment) -> tuple[date, datetime]:
    return moment.order


def _happened(visit: Standing) -> Moment:
    moment = _moment(visit.understood, "happened")
    assert moment is not None
    return moment


def _moment(understood: Mapping[str, Any], name: str) -> Moment | None:
    on, at = understood.get(f"{name}_on"), understood.get(f"{name}_at")
    return Moment(on=date.fromisoformat(on), at=read_moment(at) if at else None) if on else None
