"""What is owed of a leak under a rulebook, and by when, as a figure with a page."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from repairlog.figures.asked import needed
from repairlog.figures.by_rulebook import RULEBOOK, grade_of, rulebook
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.figures.interval import CALENDAR, WOULD_HAVE, calendar_of, day_or_moment
from repairlog.figures.moments import ZONE, zone_of
from repairlog.trade.due import Graded, Item, Life, Owed, When, owed
from repairlog.trade.intervals import Around
from repairlog.trade.rulebook import Rulebook
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _, due_items
from repairlog.words.boxes import label

HOLDS = ("residual_gas", "replacement_planned", "plastic_pipe")


def _when(name: str, said: str) -> Input:
    return Input(
        name=name, kind="text", label=said, help=_("A day or a moment: {examples}.").format(examples=WOULD_HAVE)
    )


INPUTS = (
    Input(name="grade", kind="text", label=_("Grade"), help=_("As the rulebook writes it, such as 2.")),
    _when("found", _("Found")),
    _when("reported", _("Reported, where that is another day")),
    _when("graded", _("Graded")),
    _when("repaired", _("Repaired")),
    Input(name="temporary", kind="yes", label=_("That repair is a temporary one"), help=""),
    Input(name="residual_gas", kind="yes", label=_("Gas was still read after the repair"), help=""),
    Input(name="replacement_planned", kind="yes", label=_("The pipe is in a plan to be replaced"), help=""),
    Input(name="plastic_pipe", kind="yes", label=_("The pipe is of plastic"), help=""),
    RULEBOOK,
    Input(name="criterion", kind="text", label=_("Criterion that set the grade"), help=_("By its id.")),
    ZONE,
    CALENDAR,
)


def work(asked: Asked) -> Answer:
    """Everything owed, the earliest first, and what has no day."""
    by = rulebook(asked, on=None)
    life = _life(asked, by)
    found = owed(life, by, around=Around(calendar=calendar_of(asked)))
    items = sorted((each for each in found.items if not each.settled_by), key=lambda each: each.due_on)
    return Answer(
        values=(
            Value(key="due_on", label=_("First owed by"), worth=items[0].due_on.isoformat())
            if items
            else Value(key="owed", label=_("Owed"), worth=_("nothing by a rule with a figure")),
            *(_value(each, number, life) for number, each in enumerate(items, start=1)),
        ),
        formula=_("each rule's interval from the day that it counts from, to the corresponding day"),
        source=by.title,
        steps=tuple(_step(each) for each in items) + _missing(found),
        bounds=(_("rules of this rulebook alone; what an area has not adopted binds nobody"),),
        cautions=(_("A proposed day rests on a rule whose text was not read: an officer confirms it first."),)
        if any(not each.firm for each in items)
        else (),
        understood=dict(asked.shown),
    )


def _value(item: Item, number: int, life: Life) -> Value:
    task = label(due_items.tasks()[item.task])
    return Value(key=f"item_{number}", label=task, worth=due_items.limit(item, zone=life.zone).partition(": ")[2])


def _step(item: Item) -> str:
    return _("{task}: {rule}, counted from {what} on {day}, by {bound}").format(
        task=due_items.tasks()[item.task],
        rule=item.rule,
        what=due_items.counted_from()[item.counted_from],
        day=item.counted_on.isoformat(),
        bound=item.governed_by,
    )


def _missing(found: Owed) -> tuple[str, ...]:
    return tuple(due_items.missing(each) for each in found.missing)


def _life(asked: Asked, by: Rulebook) -> Life:
    needed(asked, "grade")
    code, zone = grade_of(asked, by, name="grade"), zone_of(asked)
    found = _day(asked, "found", zone=zone)
    last, is_temporary = _read(asked, "repaired", zone=zone), "temporary" in asked.values
    holds = {name for name in HOLDS if name in asked.values} | ({"temporary_repair"} if is_temporary else set())
    since = _read(asked, "graded", zone=zone) or found
    rank = next(each.rank for each in by.grades if each.code == code)
    return Life(
        zone=zone or ZoneInfo("UTC"),
        found=found,
        reported=_read(asked, "reported", zone=zone) or found,
        grades=(Graded(code=code, since=since, criterion=_criterion(asked, by), rank=rank),),
        repaired=None if is_temporary else last,
        temporary=(last,) if is_temporary and last else (),
        made_safe=(last,) if last else (),
        holds=frozenset(holds),
    )


def _criterion(asked: Asked, by: Rulebook) -> str:
    id, known = str(asked.values.get("criterion", "")), [each.id for each in by.criteria]
    if id and id not in known:
        would_have = ", ".join(known) or _("none")
        raise Unworkable("not_a_choice", field="criterion", got=id[:80], would_have=would_have)
    return id


def _read(asked: Asked, name: str, *, zone: ZoneInfo | None) -> When | None:
    return _day(asked, name, zone=zone) if name in asked.values else None


def _day(asked: Asked, name: str, *, zone: ZoneInfo | None) -> When:
    on, at = day_or_moment(str(needed(asked, name)), zone=zone, field=name)
    return When(on=on, at=at)


DUE = Figure(
    name="due",
    version="1",
    title=_("What is owed, and by when"),
    help=_("Say what is owed of a leak of a grade by when, and by which clause."),
    inputs=INPUTS,
    work=work,
)
