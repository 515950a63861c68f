"""A leak is ended, in one of its ways; by repair it names the tight repair on each source."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.ids import as_id
from repairlog.entries.leak import ENDINGS
from repairlog.intake import Complaint
from repairlog.records.queries.joined import goes_on_as
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.queries.sources import AttemptRow, SourceRow, attempts_of, sources_of
from repairlog.trade.ending import lacks
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import Where, leak_numbered, where_of
from repairlog.words import _, codes, endings, sources

routes = room("endings", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """What was found and done on a leak: its sources and its attempts, in their order."""

    sources: Sequence[SourceRow]
    attempts: Sequence[AttemptRow]


@routes.route("/leaks/<uuid:leak>/end", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """End that leak."""
    where = where_of(leak)
    with store().reading() as tx:
        done = Done(
            sources=sources_of(asker().scope, tx, leak=leak), attempts=attempts_of(asker().scope, tx, leak=leak)
        )
    return on_leak(
        where,
        leak,
        template="supervisor/ending.html",
        parts=[_ending(leak, where, done)],
        means=lambda call: _means(call, leak),
        shows=_shows,
        around={
            "ways": [(how, codes.word(how), endings.meaning(how)) for how in ENDINGS],
            "groups": grouped(done),
            "ticked": ticked,
            "saying": lambda row: sources.attempt(row.attempt, method=row.method),
            "reviewed": endings.reviewed,
            "prospect": lambda form: prospect(form, done),
        },
    )


def _ending(leak: UUID, where: Where, done: Done) -> Part:
    attempts = [(str(each.attempt.id), sources.attempt(each.attempt, method=each.method)) for each in done.attempts]
    rows = [{"key": f"a{place}", "attempt": str(id)} for place, id in enumerate(sure_ones(done), start=1)]
    return Part(
        name="ending",
        kind="leak_ended",
        said={"leak": str(leak)},
        choices={"attempts.attempt": attempts, "joined_to": [], "did.person": where.people},
        begins={"attempts": rows},
        labels={
            "happened": _("When it was ended"),
            "how": _("In which way"),
            "joined_to": _("Joined: the number of the other leak"),
        },
    )


def sure_ones(done: Done) -> list[UUID]:
    """The attempts that the page ticks by itself: of each source the tight permanent one, where there is only one."""
    holding: defaultdict[UUID | None, list[UUID]] = defaultdict(list)
    for each in done.attempts:
        if each.attempt.holds:
            holding[each.attempt.source].append(each.attempt.id)
    wanted: list[UUID | None] = [each.id for each in done.sources]
    wanted = wanted or [None]
    return [holding[source][0] for source in wanted if len(holding[source]) == 1]


def grouped(done: Done) -> list[tuple[str, list[AttemptRow]]]:
    """Each source in words with the attempts on it, and those on no source with none in words."""
    by_source: defaultdict[UUID | None, list[AttemptRow]] = defaultdict(list)
    for each in done.attempts:
        by_source[each.attempt.source].append(each)
    groups = [(sources.source(each.number, **each.said), by_source.pop(each.id, [])) for each in done.sources]
    return groups + [("", rows) for rows in by_source.values()]


def ticked(form: Form) -> set[str]:
    """The attempts that are ticked on the page, by id as text."""
    rows: Any = form["attempts"]
    return {row.form["attempt"].data for row in rows if row.form["attempt"].data}


def prospect(form: Form, done: Done) -> tuple[list[str], list[str]]:
    """What would keep the leak open if it were ended by repair as ticked, and what would be raised of it, in words."""
    by_id = {each.attempt.id: each.attempt for each in done.attempts}
    named = [id for each in sorted(ticked(form)) if (id := as_id(each))]
    lacking = lacks(named, done=by_id, sources=[each.id for each in done.sources])
    reviews = {by_id[id].review for id in named if id in by_id} - {"accepted"}
    return [endings.lack(code) for code in lacking], [endings.raised(review) for review in sorted(reviews)]


def _means(call: Call, leak: UUID) -> tuple[Call, list[Complaint]]:
    """The call with the number of the leak that it is joined to looked up, and with repairs only where it ends so."""
    if "ending" not in call:
        return call, []
    raw = dict(call["ending"])
    if raw.get("how", "repaired") != "repaired":
        raw.pop("attempts", None)  # ticked by the page itself; they speak of a repair alone
    number = str(raw.get("joined_to", "")).strip()
    if not number or as_id(number):
        return {**call, "ending": raw}, []
    found = leak_numbered(number)
    if asks := _asks_again(found, number, leak=leak):
        return {**call, "ending": raw}, [asks]
    return {**call, "ending": {**raw, "joined_to": str(found)}}, []


def _asks_again(other: UUID | None, number: str, *, leak: UUID) -> Complaint | None:
    """Why the leak cannot go on under that number; None where it can. Where numbers lead to each other in a ring, the
    hazard is open under none of them."""
    facts = {"got": number}
    if other is None:
        return Complaint(entry=0, field="joined_to", code="leak_number_unknown", facts=facts)
    if other == leak:
        return Complaint(entry=0, field="joined_to", code="joined_to_itself", facts=facts)
    with store().reading() as tx:
        onward = goes_on_as(asker().scope, tx, leak=other)
        there = leak_with_id(asker().scope, tx, leak=other)
    if there and there.ended_how == "opened_in_error":
        return Complaint(entry=0, field="joined_to", code="joined_to_one_opened_in_error", facts=facts)
    if onward and leak in {id for id, _number in onward.under}:
        return Complaint(entry=0, field="joined_to", code="joined_in_a_ring", facts=facts)
    return None


def _shows(call: Call) -> Call:
    """The call as its boxes show it: the leak that it is joined to by its number."""
    raw: Mapping[str, Any] = call.get("ending", {})
    joined = as_id(raw.get("joined_to"))
    if joined is None:
        return call
    with store().reading() as tx:
        other = leak_with_id(asker().scope, tx, leak=joined)
    return {**call, "ending": {**raw, "joined_to": other.number}} if other else call
