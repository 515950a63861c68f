"""What access is asked about each entry of a call: its area, its days, and what it speaks about."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from uuid import UUID

from repairlog.access import Ask
from repairlog.entries.entry import Entry, Standing, moment_received, written_truly
from repairlog.entries.ids import read_id
from repairlog.entries.naming import named_subjects, own_subject, target_of
from repairlog.records.effects.arranged import Arranged, arranged
from repairlog.records.effects.chains import STORY
from repairlog.records.post.companies import WORK, companies_of
from repairlog.records.post.ground import Ground
from repairlog.records.post.sealing import day_in
from repairlog.records.post.sent import Sent
from repairlog.records.store import Tx
from repairlog.trade.accepted import acceptance
from repairlog.trade.answers_to import Answers, answers_of

EVIDENCE = ("qualified", "instrument_calibrated")
"""What somebody who comes to help can show, and what their instrument can."""


def asks_of(fresh: Sequence[Entry], on: Ground, *, tx: Tx, sent: Mapping[UUID, Sent]) -> list[Ask]:
    """One question an entry, in the order of the call. `sent`: how each was sent, by its id."""
    here = {entry.id: entry for entry in fresh}
    before = arranged(on.raw.values()) if _asks_of_what_stands(fresh, on) else None
    asks = [_ask(entry, place, here=here, before=before, on=on, sent=sent) for place, entry in enumerate(fresh)]
    bounded = {each.company for entry in fresh for each in sent[entry.id].actor.memberships if each.company}
    if not bounded:
        return asks
    stories = [{_story(entry, here=here, before=before), *_work_named(entry, on)} for entry in fresh]
    whose = companies_of(tx, fresh, stories=stories, companies=bounded)
    return [replace(ask, companies=each) for ask, each in zip(asks, whose, strict=True)]


def _asks_of_what_stands(fresh: Sequence[Entry], on: Ground) -> bool:
    return any(target_of(entry.said) for entry in fresh) or any(e.kind == "subject_moved" for e in on.raw.values())


def _ask(
    entry: Entry,
    position: int,
    *,
    here: Mapping[UUID, Entry],
    before: Arranged | None,
    on: Ground,
    sent: Mapping[UUID, Sent],
) -> Ask:
    zone, moments = entry.understood["zone"], sent[entry.id].moments
    story = _story(entry, here=here, before=before)
    answered = _answered(story, before)
    written_on = day_in(zone, written_truly(entry.written, moments))
    ask = Ask(
        position=position,
        kind=entry.kind,
        subject=on.subjects[story].kind if story in on.subjects else "",
        area=answered.now if answered else _area(story, on),
        areas_since=answered.since(written_on) if answered else frozenset(),
        on=written_on,
        received_on=day_in(zone, moments.received),
        on_the_spot=_on_the_spot(entry, here),
    )
    target = target_of(entry.said)
    if target is None:
        return _of_a_move(ask, {read_id(entry.said["to_area"])}) if entry.kind == "subject_moved" else ask
    if target in here:
        spoken_of: Entry | Standing = here[target]
        received, typed_by = sent[target].moments.received, here[target].typed
    else:
        assert before is not None
        spoken_of = before.entries[target]
        received, typed_by = moment_received(spoken_of), read_id(spoken_of.by["typed"])
    root = _root(target, here=here, before=before)
    if root.kind == "subject_moved":
        touched = {read_id(root.said["to_area"]), *(to for path, to in on.anew.get(entry.id, ()) if path == "to_area")}
        ask = _of_a_move(ask, touched | (answered.all if answered else set()))
    return replace(
        ask,
        to_area=_to_area(entry, on, before),
        target_kind=root.kind,
        target_typed_by=typed_by,
        target_received_on=day_in(zone, received),
        target_accepted=target not in here and _is_accepted(target, before),
    )


def _on_the_spot(entry: Entry, here: Mapping[UUID, Entry]) -> bool:
    """Whether it adds an instrument, or a person without any role, or is the evidence of what the same call adds."""
    if entry.kind in ("person_added", "instrument_added"):
        return not entry.said.get("roles")
    if entry.kind not in EVIDENCE:
        return False
    opening = here.get(own_subject(entry.said))
    return opening is not None and (opening.kind != "person_added" or not opening.said.get("roles"))


def _is_accepted(target: UUID, before: Arranged | None) -> bool:
    assert before is not None
    root = before.entries[before.roots[target]]
    return acceptance(before.stories[before.subject_of(target)])(root)


def _of_a_move(ask: Ask, touched: Collection[UUID]) -> Ask:
    """A move is judged by where its subject answers now and by every other area that it touches: nobody takes a thing
    out of an area, or back into one, without a role there."""
    return replace(ask, areas_since=frozenset(), also_in=frozenset(touched) - {ask.area})


def _root(id: UUID, *, here: Mapping[UUID, Entry], before: Arranged | None) -> Entry | Standing:
    """What is put right: of a correction or a void, its own target, where one of these is put right."""
    while id in here:
        target = target_of(here[id].said)
        if target is None:
            return here[id]
        id = target
    assert before is not None
    return before.entries[before.roots[id]]


def _answered(story: UUID, before: Arranged | None) -> Answers | None:
    """What the subject answers to, by its own entries; None where none of these is here, or it is never moved."""
    return answers_of(before.stories.get(story, ())) if before else None


def _area(subject: UUID, on: Ground) -> UUID | None:
    found = on.subjects.get(subject)
    if found is None:
        return None
    return subject if found.kind == "area" else found.area  # what is said of an area is said in it


def _story(entry: Entry, *, here: Mapping[UUID, Entry], before: Arranged | None) -> UUID:
    """The subject in whose story it stands; of what puts an entry right, that in whose story this one does."""
    target = target_of(entry.said)
    if target is None:
        return own_subject(entry.said)
    if target in here:
        return _story(here[target], here=here, before=before)
    assert before is not None
    return before.subject_of(target)


def _work_named(entry: Entry, on: Ground) -> set[UUID]:
    """The leaks, calls, digs and sources that it names, a correction by its new values: to name one ties it to what
    names it, and whoever sees the one then sees the other."""
    named = {id for id, _as_what in named_subjects(entry.said)} | {to for _path, to in on.anew.get(entry.id, ())}
    return {id for id in named if id in on.subjects and on.subjects[id].kind in WORK}


def _to_area(entry: Entry, on: Ground, before: Arranged | None) -> UUID | None:
    """The area that a correction moves an entry to, or that of the story it moves it to; None if it moves nothing."""
    for path, to in sorted(on.anew.get(entry.id, ()), key=str):
        if path == "area":
            return to
        if path in STORY:
            answered = _answered(to, before)
            return answered.now if answered else on.subjects[to].area
    return None
