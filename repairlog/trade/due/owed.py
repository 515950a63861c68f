"""What is owed of a leak under a rulebook: each item with its limit and its target, until what settles it.

Pure and without a today: whether an item is late is said by whoever knows the day.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from uuid import UUID

from repairlog.trade.due.life import Graded, Life, When
from repairlog.trade.intervals import Around, Counted, count, count_from, read_interval, shorter
from repairlog.trade.rulebook import Due, RegradeLimit, Rulebook, in_force_on

AROUND = Around()


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing owed, once. `rule`, `clause`, `mark`: what asks for it. `grade`: for which it is owed. `counted_from`:
    code of what started the clock, `counted_on` its day, `entry` who says so. `due_on`: the limit, the last day in
    time; `due_at` its moment, where it is in hours; `not_before` the first day, where there is a window. `firm`: the
    rule's text was read, or an officer confirmed it; another's dates are proposed and never late. `target_on`: the
    operator's own day. `graded`: the entry that set the grade, `rank`: its rank. `until`: code of what ends it.
    `settled_on`, `settled_by`: when and by what it was settled; None and empty while it is owed."""

    task: str
    rule: str
    clause: str
    mark: str
    firm: bool
    grade: str
    counted_from: str
    counted_on: date
    due_on: date
    governed_by: str
    due_at: datetime | None = None
    not_before: date | None = None
    target_on: date | None = None
    entry: UUID | None = None
    graded: UUID | None = None
    rank: int | None = None
    until: str = ""
    settled_on: date | None = None
    settled_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """What would be owed and has no day. `why`: rule_gap (nobody gives a figure), day_not_known (the day that starts
    the clock is only known as on or before), not_countable (the interval names what is not known here, or ends beyond
    the calendar), grade_not_in_rulebook. `rule`: id, empty for a grade."""

    why: str
    grade: str
    task: str = ""
    rule: str = ""
    fill_in: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Owed:
    """`items`: those owed and those settled, by day. `missing`: what has no day, and why."""

    items: tuple[Item, ...] = ()
    missing: tuple[Missing, ...] = ()


def owed(life: Life, rulebook: Rulebook, *, confirmed: Collection[str] = (), around: Around = AROUND) -> Owed:
    """What the rulebook asks of a leak with that life. `confirmed`: ids of rules that an officer confirmed."""
    items: list[Item] = []
    missing: list[Missing] = []
    known = {grade.code for grade in rulebook.grades}
    for place, graded in enumerate(life.grades):
        after = life.grades[place + 1] if place + 1 < len(life.grades) else None
        if graded.code not in known:
            if after is None:
                missing.append(Missing(why="grade_not_in_rulebook", grade=graded.code))
            continue
        spell = _Spell(life, rulebook, graded=graded, before=life.grades[:place], after=after, around=around)
        asking = [rule for rule in rulebook.dues if _asks(rule, graded, life)]
        found = [item for rule in asking for item in _counted_of(rule, spell, missing)]
        items += _earliest(_firm(item, confirmed) for item in found)
        missing += _gaps(spell, tasks={item.task for item in found})
    items.sort(key=lambda item: (item.due_on, item.task, item.rule))
    return Owed(items=tuple(items), missing=tuple(dict.fromkeys(missing)))


class _NotCountable(Exception):
    """An interval that cannot be counted from where it began."""


@dataclass(frozen=True, slots=True)
class _Spell:
    """The time that a leak had one grade. `before`: its earlier grades; `after`: the next one, None while it stands."""

    life: Life
    rulebook: Rulebook
    graded: Graded
    before: tuple[Graded, ...]
    after: Graded | None
    around: Around

    @property
    def is_repaired_in_it(self) -> bool:
        """Whether the repair came while this grade stood: what follows the repair then hangs on it."""
        repaired = self.life.repaired or self.life.ended
        return repaired is None or self.after is None or repaired.order < self.after.since.order

    @property
    def changed(self) -> str:
        """Which way the grade went when this one was set: up (more hazardous), down, or neither."""
        if not self.before or self.before[-1].rank is None or self.graded.rank is None:
            return ""
        was = self.before[-1].rank
        return "up" if self.graded.rank < was else "down" if self.graded.rank > was else ""


def _asks(rule: Due, graded: Graded, life: Life) -> bool:
    if rule.grades and graded.code not in rule.grades:
        return False
    if rule.criteria and graded.criterion not in rule.criteria:
        return False
    return all(code in life.holds for code in rule.when) and not any(code in life.holds for code in rule.unless)


def _counted_of(rule: Due, spell: _Spell, missing: list[Missing]) -> list[Item]:
    """The items of a rule; none, and what is missing, where its interval cannot be counted: a next round that is not
    known, a day past the calendar's end, a calendar of working days that this release does not know."""
    try:
        return list(_items(rule, spell, missing))
    except _NotCountable:
        missing.append(Missing(why="not_countable", grade=spell.graded.code, task=rule.task, rule=rule.id))
        return []


def _items(rule: Due, spell: _Spell, missing: list[Missing]) -> Iterator[Item]:
    """The item of a rule, and of one that repeats each that followed it."""
    anchor = _ANCHOR[rule.counted_from](spell)
    if anchor is None or not in_force_on(rule.cited, anchor.on):
        return
    over = _over(rule, spell)
    if not anchor.known:
        if over is None:
            missing.append(Missing(why="day_not_known", grade=spell.graded.code, task=rule.task, rule=rule.id))
        return
    for look in _looks_after(anchor, rule, spell):
        if over is not None and look.order > over[0].order:
            break
        yield _settled(_item(rule, spell, anchor), look, by="looked_at")
        if not _goes_on(rule) or (over is not None and over[0].order == look.order):
            return
        anchor = look
    if over is None:
        yield _item(rule, spell, anchor)
    elif over[0].order >= anchor.order:
        yield _settled(_item(rule, spell, anchor), over[0], by=over[1])


def _looks_after(anchor: When, rule: Due, spell: _Spell) -> list[When]:
    """The looks that do what a rule asks for again and again, from the setting of the grade on."""
    if not _goes_on(rule) and rule.task != "re_evaluate":
        return []
    after = max(anchor.order, spell.graded.since.order)
    return [look.when for look in spell.life.looks if look.when.order > after]


def _goes_on(rule: Due) -> bool:
    return rule.repeats or rule.counted_from == "looked_at"


def _item(rule: Due, spell: _Spell, anchor: When) -> Item:
    counted = _counted(rule.within, anchor, spell)
    counted = _after_upgrade(rule, counted, spell)
    target = next((each for each in spell.rulebook.targets if each.beside == rule.id), None)
    return Item(
        task=rule.task,
        rule=rule.id,
        clause=rule.cited.clause,
        mark=rule.cited.mark,
        firm=rule.cited.firm,
        grade=spell.graded.code,
        counted_from=rule.counted_from,
        counted_on=anchor.on,
        due_on=counted.due_on,
        governed_by=counted.governed_by,
        due_at=counted.due_at,
        not_before=counted.not_before,
        target_on=_counted(target.within, anchor, spell).due_on if target else None,
        entry=anchor.entry,
        graded=spell.graded.since.entry,
        rank=spell.graded.rank,
        until=rule.until,
    )


def _counted(within: str, anchor: When, spell: _Spell) -> Counted:
    """Days from the legal day, hours from the moment. Where only the day is known, hours are counted from its end and
    no moment is due: only then is what came after it certainly late."""
    interval = read_interval(within)
    try:
        if not interval.in_hours:
            return count(interval, anchor.on, around=spell.around)
        zone = spell.life.zone
        end_of_day = datetime.combine(anchor.on + timedelta(days=1), datetime.min.time(), tzinfo=zone)
        counted = count_from(interval, anchor.at or end_of_day, zone=zone, around=spell.around)
    except (ValueError, OverflowError, KeyError) as problem:
        raise _NotCountable from problem
    return counted if anchor.at else replace(counted, due_at=None)


def _after_upgrade(rule: Due, counted: Counted, spell: _Spell) -> Counted:
    """Where the rulebook says so, what was left before a change of grade if that ends sooner. What is done again and
    again leaves nothing over: its last time started it anew."""
    if not spell.changed or _goes_on(rule) or _clock(spell) != "shorter_of_both":
        return counted
    was = _Spell(spell.life, spell.rulebook, spell.before[-1], spell.before[:-1], spell.graded, spell.around)
    for each in spell.rulebook.dues:
        anchor = _ANCHOR[each.counted_from](was)
        if each.task == rule.task and anchor is not None and _asks(each, was.graded, spell.life):
            counted = shorter(_counted(each.within, anchor, was), counted)
    return counted


def _clock(spell: _Spell) -> str:
    return next((limit.clock for limit in spell.rulebook.regrades if limit.clock and _is_of(limit, spell)), "")


def _is_of(limit: RegradeLimit, spell: _Spell) -> bool:
    return (
        limit.direction in (spell.changed, "either")
        and (not limit.from_grades or spell.before[-1].code in limit.from_grades)
        and (not limit.to_grades or spell.graded.code in limit.to_grades)
    )


def _settled(item: Item, when: When, *, by: str) -> Item:
    return replace(item, settled_on=when.on, settled_by=by)


def _earliest(items: Iterable[Item]) -> Iterator[Item]:
    """Of several limits on one task the earliest: of the firm ones, and a proposed one only where it is earlier."""
    open_by_task: dict[str, list[Item]] = {}
    for item in items:
        if item.settled_by:
            yield item
        else:
            open_by_task.setdefault(item.task, []).append(item)
    for of_task in open_by_task.values():
        ends = sorted(of_task, key=lambda item: (item.due_on, not item.firm))
        firm = next((item for item in ends if item.firm), None)
        if not ends[0].firm:
            yield ends[0]
        if firm is not None:
            yield firm


def _firm(item: Item, confirmed: Collection[str]) -> Item:
    return replace(item, firm=True) if item.rule in confirmed else item


def _gaps(spell: _Spell, *, tasks: Collection[str]) -> Iterator[Missing]:
    """The figures that nobody gives, for what is owed while this grade stands. `tasks`: those that have an item."""
    if spell.after is not None or spell.life.joined:
        return
    for gap in spell.rulebook.gaps:
        of_grade = not gap.grades or spell.graded.code in gap.grades
        of_criterion = not gap.criteria or spell.graded.criterion in gap.criteria
        if gap.task and gap.task not in tasks and of_grade and of_criterion and _is_asked(gap.task, spell.life):
            yield Missing(why="rule_gap", grade=spell.graded.code, task=gap.task, rule=gap.id, fill_in=gap.fill_in)


def _is_asked(task: str, life: Life) -> bool:
    if task == "follow_up":
        return life.repaired is not None and "residual_gas" in life.holds
    if task == "permanent_repair":
        return bool(life.temporary) and life.repaired is None and life.ended is None
    return life.ended is None


def _over(rule: Due, spell: _Spell) -> tuple[When, str] | None:
    """When and by what the rule stopped asking; None while it still does. A joined leak owes nothing of its own."""
    life = spell.life
    if life.joined and life.ended is not None:
        return life.ended, "joined"
    found = [(when, by) for when, by in _ENDS[rule.until](rule, spell) if when is not None]
    if spell.after is not None and rule.counted_from not in ("repaired", "temporarily_repaired"):
        found.append((spell.after.since, "graded_anew"))
    return min(found, key=lambda each: each[0].order) if found else None


_Ends = Iterator[tuple[When | None, str]]


def _made_safe(_: Due, spell: _Spell) -> _Ends:
    since = spell.graded.since.order
    later = (when for when in spell.life.made_safe if when.order >= since or not spell.before)
    yield next(later, None), "made_safe"
    yield from _repaired(_, spell)


def _repaired(_: Due, spell: _Spell) -> _Ends:
    yield spell.life.repaired, "repaired"
    yield spell.life.ended, "ended"


def _ended(_: Due, spell: _Spell) -> _Ends:
    yield spell.life.ended, "ended"


def _no_reading(_: Due, spell: _Spell) -> _Ends:
    since = spell.graded.since.order
    yield from ((look.when, "no_reading") for look in spell.life.looks if look.gas is False and look.when.order > since)
    yield from _repaired(_, spell)


def _done_once(rule: Due, spell: _Spell) -> _Ends:
    """By saying so; a look after a repair also by looking, within its window where there is one."""
    yield spell.life.done.get(rule.task), "done"
    anchor = _ANCHOR[rule.counted_from](spell)
    if rule.task != "follow_up" or anchor is None:
        return
    first = _counted(rule.within, anchor, spell).not_before or anchor.on
    after = (look for look in spell.life.looks if look.when.order > anchor.order and look.when.on >= first)
    yield next((look.when for look in after if look.follows or look.gas is False), None), "looked_at"


_ENDS: Mapping[str, Callable[[Due, _Spell], _Ends]] = {
    "made_safe": _made_safe,
    "repaired": _repaired,
    "permanently_repaired": _repaired,
    "ended": _ended,
    "no_reading": _no_reading,
    "done_once": _done_once,
}


def _graded(spell: _Spell) -> When:
    """The setting of the grade; where the rulebook lets the clock run on, that of the leak's first grade."""
    return spell.before[0].since if spell.before and _clock(spell) == "runs_on" else spell.graded.since


def _changed(spell: _Spell, *, way: str) -> When | None:
    return spell.graded.since if spell.changed == way else None


def _looked_at(spell: _Spell) -> When | None:
    """The last look up to the setting of the grade, the day it was found the first; later ones follow on it."""
    since = spell.graded.since
    looks = [look.when for look in spell.life.looks if look.when.order <= since.order]
    return looks[-1] if looks else spell.life.found or since


def _repaired_on(spell: _Spell) -> When | None:
    return spell.life.repaired if spell.is_repaired_in_it and _stood_by(spell, spell.life.repaired) else None


def _temporarily(spell: _Spell) -> When | None:
    if not spell.life.temporary:
        return None
    first = spell.life.temporary[0]
    return first if _stood_by(spell, first) and (spell.after is None or first.order < spell.after.since.order) else None


def _stood_by(spell: _Spell, when: When | None) -> bool:
    """Whether the grade stood by then; the first one counts for what came before it, too."""
    return when is not None and (not spell.before or spell.graded.since.order <= when.order)


_ANCHOR: Mapping[str, Callable[[_Spell], When | None]] = {
    "reported": lambda spell: spell.life.reported,
    "told": lambda spell: spell.life.reported,
    "found": lambda spell: spell.life.found,
    "graded": _graded,
    "upgraded": lambda spell: _changed(spell, way="up"),
    "downgraded": lambda spell: _changed(spell, way="down"),
    "repaired": _repaired_on,
    "temporarily_repaired": _temporarily,
    "looked_at": _looked_at,
}
