"""`repairlog import`: an old list taken into the book, row by row; what is there already is not taken twice."""

from __future__ import annotations

import json
from datetime import datetime
from difflib import get_close_matches
from pathlib import Path
from zoneinfo import ZoneInfo

import click

from repairlog.access import EVERYTHING, Actor, may_post
from repairlog.cli import options
from repairlog.clock import now
from repairlog.entries.entry import Moments
from repairlog.intake.lists import ColumnsWrong, FileWrong, Importing, Tally, read_columns, take
from repairlog.intake.lists.columns import Wrong
from repairlog.intake.lists.declared import KINDS_OF_LIST, Columns
from repairlog.records.queries.people import memberships, people_of
from repairlog.records.queries.settings import areas
from repairlog.records.store import Busy, Store
from repairlog.trade.area import Area
from repairlog.words import _
from repairlog.words.lists import counts, file_sentence, line_of, raised_line, rows_told, sentence, shown, wrong_line

KINDS_TAKEN = ("leak_opened", "source_added", "grade_set", "repair_attempted", "leak_ended", "note")
PRINTED = 100
"""Rows sent back that are printed to a person; as JSON all that are kept."""

ROWS_BETWEEN = 5000
"""Rows after which a long list says how far it is."""

FILE = click.Path(exists=True, dir_okay=False, readable=True, path_type=Path)


@click.command(
    "import", help=_("Take FILE, an old list (CSV), into the book. What is there already is not taken twice.")
)
@click.argument("file", metavar="FILE", type=FILE)
@click.option("--kind", required=True, type=click.Choice(KINDS_OF_LIST), help=_("What the list's rows are."))
@click.option("--area", "area_named", required=True, metavar="NAME", help=_("The operating area, by name or code."))
@click.option(
    "--columns", "columns_file", required=True, type=FILE, metavar="COLUMNS.toml", help=_("What its columns mean.")
)
@click.option("--by", metavar="NAME", help=_("Who takes it in; else the first administrator on the books."))
@click.option("--check", "only_look", is_flag=True, help=_("Only look: read all of it, count the same, write nothing."))
@options.database
@options.as_json
def import_list(
    *,
    file: Path,
    kind: str,
    area_named: str,
    columns_file: Path,
    by: str | None,
    only_look: bool,
    database_url: str | None,
    as_json: bool,
) -> int:
    columns = _columns(columns_file, kind=kind)
    with options.opened(database_url) as store:
        area = _area(store, area_named)
        actor = _actor(store, area, by=by)
        of = Importing(store=store, area=area.id, columns=columns, actor=actor, moments=_moments, only_look=only_look)
        tally = _taken(of, file, columns_file=columns_file)
    click.echo(_as_json(tally) if as_json else _for_people(tally, only_look=only_look))
    return 1 if tally.refused else 0


def _moments() -> Moments:
    return Moments(received=now())


def _columns(file: Path, *, kind: str) -> Columns:
    try:
        columns = read_columns(file.read_bytes())
        if columns.kind != kind:
            raise ColumnsWrong([Wrong(key="kind", code="kind_differs", got=columns.kind, expected=kind)])
    except ColumnsWrong as problem:
        raise _usage(problem, file) from problem
    return columns


def _usage(problem: ColumnsWrong, file: Path) -> click.UsageError:
    return click.UsageError("\n".join(f"{file}: {wrong_line(wrong)}" for wrong in problem.wrongs))


def _area(store: Store, named: str) -> Area:
    with store.reading() as tx:
        every = areas(EVERYTHING, tx)
    for area in every:
        if named.casefold() in (area.name.casefold(), area.code.casefold()):
            return area
    has = ", ".join(f"{area.name} ({area.code})" for area in every)
    told = _("no area “{named}” is on the books; there are: {has}.").format(named=named, has=has)
    near = get_close_matches(named.casefold(), [area.name.casefold() for area in every], n=1)
    perhaps = next((area.name for area in every if [area.name.casefold()] == near), "")
    raise click.BadParameter(
        told + (" " + _("Perhaps “{perhaps}” is meant.").format(perhaps=perhaps) if perhaps else ""),
        param_hint="--area",
    )


def _actor(store: Store, area: Area, *, by: str | None) -> Actor:
    """Who takes the list in: the person named, else the first administrator, else the first who may do so there."""
    with store.reading() as tx:
        people = people_of(EVERYTHING, tx, area=area.id)
        held = memberships(EVERYTHING, tx, ids=[person.id for person in people])
    actors = {person: Actor(person=person.id, sure="import", memberships=held.get(person.id, ())) for person in people}
    named = [person for person in people if by is None or person.name.casefold() == by.casefold()]
    if not named:
        near = get_close_matches(by or "", [person.name for person in people], n=1)
        told = _("nobody of the name “{by}” is on the books here.").format(by=by)
        perhaps = " " + _("Perhaps “{perhaps}” is meant.").format(perhaps=near[0]) if near else ""
        raise click.BadParameter(told + perhaps, param_hint="--by")
    may = [person for person in named if _may_take(actors[person], area, at=now())]
    may.sort(key=lambda person: "administrator" not in {each.role for each in actors[person].memberships})
    if not may:
        told = _("nobody of those may take a list in here; it takes an administrator, a supervisor or an officer.")
        raise click.BadParameter(told, param_hint="--by")
    if by is not None and len(may) > 1:
        told = _("more than one person of the name “{by}” may take a list in.").format(by=by)
        raise click.BadParameter(told, param_hint="--by")
    return actors[may[0]]


def _may_take(actor: Actor, area: Area, *, at: datetime) -> bool:
    on = at.astimezone(ZoneInfo(area.zone)).date().isoformat()
    return all(may_post(actor, kind, area=area.id, on=on) for kind in KINDS_TAKEN)


def _taken(of: Importing, file: Path, *, columns_file: Path) -> Tally:
    told = Told()
    try:
        return take(of, file, tell=told.hear)
    except ColumnsWrong as problem:
        raise _usage(problem, columns_file) from problem
    except FileWrong as problem:
        told.leave()
        raise click.UsageError(f"{file}: {file_sentence(problem.reason, problem.facts)}") from problem
    except (Busy, KeyboardInterrupt):
        told.leave()
        raise


class Told:
    """What a long list has said of itself so far, on the side."""

    def __init__(self) -> None:
        self.tally = Tally()
        self.next = ROWS_BETWEEN

    def hear(self, tally: Tally) -> None:
        """Say how far the list is, now and then."""
        self.tally = tally
        if tally.rows >= self.next:
            self.next += ROWS_BETWEEN
            click.echo(
                _("{rows} read, {taken} taken in …").format(rows=rows_told(tally.rows), taken=tally.taken), err=True
            )

    def leave(self) -> None:
        """Say what stays where the list is left half-way."""
        if self.tally.taken:
            told = _("{rows} of it are in the book and stay there; the list can be taken in again.")
            click.echo(told.format(rows=rows_told(self.tally.taken)), err=True)


def _as_json(tally: Tally) -> str:
    complaints = [
        {
            "line": refusal.line,
            "column": refusal.column,
            "cell": shown(refusal.cell),
            "code": refusal.code,
            **dict(zip(("message", "hint"), sentence(refusal), strict=True)),
        }
        for refusal in tally.complaints
    ]
    told = {
        "rows": tally.rows,
        "taken": tally.taken,
        "already_here": tally.already_here,
        "refused": tally.refused,
        "raised": dict(sorted(tally.raised.items())),
        "columns_left": list(tally.columns_left),
        "complaints": complaints,
        "complaints_left_out": tally.left_out,
    }
    return json.dumps(told, ensure_ascii=False)


def _for_people(tally: Tally, *, only_look: bool) -> str:
    lines = [
        counts(
            rows=tally.rows,
            taken=tally.taken,
            already_here=tally.already_here,
            refused=tally.refused,
            only_looked=only_look,
        )
    ]
    lines += [raised_line(code, count) for code, count in sorted(tally.raised.items())]
    if tally.columns_left:
        left = ", ".join(tally.columns_left)
        lines.append(_("Not taken, since the columns file does not name them: {columns}.").format(columns=left))
    lines += [line_of(refusal) for refusal in tally.complaints[:PRINTED]]
    if more := len(tally.complaints[PRINTED:]) + tally.left_out:
        lines.append(_("And {more} more; --json says more of them.").format(more=more))
    return "\n".join(lines)
