"""`repairlog figure due`: what is owed of a leak under a rulebook, and by when."""

from __future__ import annotations

import json
from typing import Any

import click

from repairlog.cli.figure.anchor import Anchor, read_anchor
from repairlog.cli.figure.shelf import rulebook_of, unknown
from repairlog.cli.figure.unclear import CAUTION, told
from repairlog.trade.due import Graded, Item, Life, Missing, Owed, When, owed
from repairlog.trade.intervals import CALENDARS, USUAL_CALENDAR, Around
from repairlog.trade.rulebook import TASKS, Rulebook
from repairlog.words import _, due_items


@click.command(
    "due",
    help=_("Say what is owed of a leak by when: {tasks}.").format(tasks=", ".join(TASKS)),
)
@click.option("--rulebook", required=True, metavar="ID", help=_("The rulebook, such as us-guide."))
@click.option("--grade", required=True, metavar="CODE", help=_("The leak's grade, as the rulebook writes it."))
@click.option("--criterion", metavar="ID", help=_("The criterion that set the grade."))
@click.option("--found", required=True, metavar="DATE", help=_("The day or moment on which it was found."))
@click.option("--reported", metavar="DATE", help=_("When it was reported, where that is another day."))
@click.option("--graded", metavar="DATE", help=_("The day of classification or designation."))
@click.option("--repaired", metavar="DATE", help=_("When it was repaired."))
@click.option("--temporary", is_flag=True, help=_("That repair is a temporary one."))
@click.option("--residual-gas", is_flag=True, help=_("Gas was still read after the repair."))
@click.option("--replacement-planned", is_flag=True, help=_("The pipe is in a plan to be replaced."))
@click.option("--plastic-pipe", is_flag=True, help=_("The pipe is of plastic."))
@click.option("--task", type=click.Choice(TASKS), help=_("That task alone."))
@click.option("--zone", metavar="NAME", help=_("The zone whose days count, such as America/New_York."))
@click.option(
    "--calendar",
    type=click.Choice(sorted(CALENDARS)),
    metavar="NAME",
    default=USUAL_CALENDAR,
    help=_("Whose holidays are no working days: US, US-NY, GB-SCT."),
)
@click.option("--json", "as_json", is_flag=True, help=_("Print one JSON object."))
@click.pass_context
def due(
    context: click.Context,
    /,
    *,
    rulebook: str,
    task: str | None,
    calendar: str,
    as_json: bool,
    **said: Any,
) -> None:
    """Print what is owed; the exit code is 2 where something cannot be understood.

    As JSON: `due`, a list of `task`, `due_on`, `clause`, `mark` and what more is known of each; `missing`, what would
    be owed and has no day.
    """
    with told(context, as_json=as_json):
        by = rulebook_of(rulebook, on=None)
        life = _life(by, **said)
        found = owed(life, by, around=Around(calendar=calendar))
        items = [each for each in found.items if not each.settled_by and task in (None, each.task)]
        click.echo(_as_json(items, found, life) if as_json else _for_people(items, found, life))


def _life(
    by: Rulebook,
    *,
    grade: str,
    criterion: str | None,
    found: str,
    reported: str | None,
    graded: str | None,
    repaired: str | None,
    temporary: bool,
    residual_gas: bool,
    replacement_planned: bool,
    plastic_pipe: bool,
    zone: str | None,
) -> Life:
    ranks = {each.code: each.rank for each in by.grades}
    if grade not in ranks:
        said = _("{rulebook} has no grade “{got}”.").format(rulebook=by.title, got=grade)
        raise unknown("grade_unknown", said, got=grade, known=list(ranks))
    if criterion is not None and criterion not in (known := [each.id for each in by.criteria]):
        said = _("{rulebook} has no criterion “{got}”.").format(rulebook=by.title, got=criterion)
        raise unknown("criterion_unknown", said, got=criterion, known=known)
    first = read_anchor(found, zone=zone)
    last = _when(repaired, zone=zone) if repaired else None
    holds = {
        "residual_gas": residual_gas,
        "replacement_planned": replacement_planned,
        "plastic_pipe": plastic_pipe,
        "temporary_repair": temporary,
    }
    since = _when(graded, zone=zone) if graded else _of(first)
    return Life(
        zone=first.zone,
        found=_of(first),
        reported=_when(reported, zone=zone) if reported else _of(first),
        grades=(Graded(code=grade, since=since, criterion=criterion or "", rank=ranks[grade]),),
        repaired=None if temporary else last,
        temporary=(last,) if temporary and last else (),
        made_safe=(last,) if last else (),
        holds=frozenset(code for code, so in holds.items() if so),
    )


def _when(text: str, *, zone: str | None) -> When:
    return _of(read_anchor(text, zone=zone))


def _of(anchor: Anchor) -> When:
    return When(on=anchor.on, at=anchor.at)


def _as_json(items: list[Item], found: Owed, life: Life) -> str:
    shown = {"due": [_item(each, life) for each in items], "missing": [_missing(each) for each in found.missing]}
    return json.dumps(shown, ensure_ascii=False)


def _item(item: Item, life: Life) -> dict[str, Any]:
    shown: dict[str, Any] = {"task": item.task, "due_on": item.due_on.isoformat()}
    if item.due_at:
        there = item.due_at.astimezone(life.zone)
        shown["due_at"] = there.isoformat(timespec="seconds" if there.second else "minutes")
    if item.not_before:
        shown["not_before"] = item.not_before.isoformat()
    if item.target_on:
        shown["target_on"] = item.target_on.isoformat()
    return shown | {
        "clause": item.clause,
        "mark": item.mark,
        "rule": item.rule,
        "proposed": not item.firm,
        "governed_by": item.governed_by,
        "counted_from": item.counted_from,
        "counted_on": item.counted_on.isoformat(),
    }


def _missing(missing: Missing) -> dict[str, str]:
    told = {"why": missing.why, "task": missing.task, "rule": missing.rule, "fill_in": missing.fill_in}
    return {name: text for name, text in told.items() if text}


def _for_people(items: list[Item], found: Owed, life: Life) -> str:
    told = [due_items.limit(each, zone=life.zone) for each in items] or [_("Nothing is owed by a rule with a figure.")]
    return "\n".join((*told, *(due_items.missing(each) for each in found.missing), CAUTION))
