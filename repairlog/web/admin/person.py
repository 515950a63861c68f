"""A person on the books: what they may do, what they are qualified for and what rests on it, their crews, their
sign-in, and every entry about them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.entry import Standing
from repairlog.entries.ids import as_id
from repairlog.records.beside.sign_ins import sign_ins_of
from repairlog.records.queries.companies import companies_called
from repairlog.records.queries.made_one import Record, one_with, sameness
from repairlog.records.queries.people_listed import crews_with
from repairlog.records.queries.rests_on import DoneRow, done_by, work_of
from repairlog.records.queries.settings import areas
from repairlog.records.story import Story
from repairlog.trade.person import Person, Qualification, Role, qualifications_as_one, qualified, same_task
from repairlog.trade.person import person as fold
from repairlog.trade.qualified_on import TaskStanding, tasks_on
from repairlog.web.admin.people_filter import SOON
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import stories_of, told_of
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import people as words
from repairlog.words.codes import word
from repairlog.words.days import day

OF_WORK = 20
"""Repairs of a person that are shown; all of them stand in the records."""

routes = room("person", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Evaluated:
    """A qualification with the evaluation that gave it: `how`, by `whom`, in which `document`. `record`: on which of
    the person's records it stands."""

    of: Qualification
    record: Record
    standing: str
    how: str
    whom: str
    document: str


@routes.get("/people/<uuid:person>")
def page(person: UUID) -> ResponseReturnValue:
    """Everything about that person; one's own page is open to everybody."""
    who = asker()
    if person != who.actor.person and not who.holds(*KEEP_THE_BOOKS):
        abort(403)
    with store().reading() as tx:
        told = told_of(tx, person)
        as_is = fold([each.entry for each in told.story.told])
        if as_is is None:
            abort(404)
        names = {area.id: area.name for area in areas(who.scope, tx)}
        crews = crews_with(who.scope, tx, ids=[person])
        same, others = sameness(who.scope, tx, id=person), one_with(who.scope, tx, id=person)
        ids = [person, *(each.id for each in others)]
        done, work = done_by(who.scope, tx, people=ids), work_of(who.scope, tx, people=ids, most=OF_WORK)
        records = [(Record(id=person, called=as_is.name), told.story), *stories_of(tx, others)]
        company = companies_called(who.scope, tx, names=[as_is.company]).get(as_is.company)
        come_in = sign_ins_of(tx, [person]).get(person)
    soon = (date.fromisoformat(who.on) + timedelta(days=int(SOON[0]))).isoformat()
    evaluated = _evaluated(records, on=who.on, soon=soon)
    tasks = tasks_on([each.of for each in evaluated], on=who.on, soon_until=soon)
    return render_template(
        "admin/person.html",
        person=as_is,
        of=told,
        same=same,
        company=company if who.holds(*KEEP_THE_BOOKS) else None,
        roles=[(role, _where(role, names)) for role in as_is.roles],
        evaluated=evaluated,
        several=bool(others),
        tasks=tasks,
        rests=_rests(tasks, done),
        not_qualified=[each for each in done if not any(same_task(each.task, task.task) for task in tasks)],
        crews=crews,
        keeps_books=who.holds(*KEEP_THE_BOOKS),
        work=work,
        come_in=come_in,
        may_let_in=who.may("lets_in", area=None),
        ways=list(_ways(as_is)),
        on=who.on,
        words=words,
        word=word,
        day=day,
        in_force=_in_force,
    )


def _in_force(of: Role, on: str) -> bool:
    return of.from_on <= on and (not of.until_on or on <= of.until_on)


def _where(role: Role, names: Mapping[UUID, str]) -> str:
    return names.get(role.area, _("another area")) if role.area else _("every area")


def _evaluated(records: Sequence[tuple[Record, Story]], *, on: str, soon: str) -> list[Evaluated]:
    """Every evaluation on every record of the person, the newest first, with who made it and how."""
    folded = [qualified([each.entry for each in story.told]) for _record, story in records]
    of = {each.entry.id: (each.entry, record, story) for record, story in records for each in story.told}
    found = []
    for each in qualifications_as_one([one for one in folded if one]):
        entry, record, story = of[each.entry]
        how = entry.text("method")
        found.append(
            Evaluated(
                of=each,
                record=record,
                standing=tasks_on([each], on=on, soon_until=soon)[0].standing,
                how=word(how) if how else "",
                whom=_whom(entry, story),
                document=entry.text("document"),
            )
        )
    return sorted(found, key=lambda each: each.of.from_on, reverse=True)


def _whom(entry: Standing, story: Story) -> str:
    """Who evaluated, with the company."""
    named = as_id(entry.text("evaluator"))
    name = story.named[named].called if named and named in story.named else entry.text("evaluator_named")
    return ", ".join(filter(None, (name, entry.text("company"))))


def _rests(tasks: Sequence[TaskStanding], done: Sequence[DoneRow]) -> dict[UUID, list[DoneRow]]:
    """By the evaluation that decides over a task, what was done of it."""
    return {task.entry: [each for each in done if same_task(each.task, task.task)] for task in tasks}


def _ways(person: Person) -> Iterator[tuple[str, str]]:
    """What the asker may say of the person."""
    offered = [
        ("qualified", "qualified", _("Say what they are qualified for")),
        ("role_given", "role", _("Give a role")),
    ]
    if person.qualifications:
        offered.append(("qualification_ended", "not-qualified", _("End a qualification")))
    if person.roles:
        offered.append(("role_ended", "role-ended", _("End a role")))
    if not person.left_on:
        offered.append(("person_left", "left", _("Say that they left")))
    for kind, said, name in offered:
        if asker().may(kind, area=None):
            yield name, url_for("person_said.page", person=person.id, said=said)
    if asker().may("made_one", area=None):
        yield _("The same as another"), url_for("made_one.choose", subject=person.id)
