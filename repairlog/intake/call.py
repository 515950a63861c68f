"""One call of raw entries understood, entry by entry in its order: each counts in for those that come after it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from repairlog.access import Actor
from repairlog.entries.entry import NOT_YET, Entry, Moments, Row, Standing, offset_ms
from repairlog.entries.ids import is_version, read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.naming import target_of
from repairlog.intake.complaint import Complaint, NotUnderstood
from repairlog.intake.known import Known, known_for, learn
from repairlog.intake.righted import hide_again, righting_understood
from repairlog.intake.said import Reading, Said, said_of
from repairlog.intake.understood import Understanding, people_named, understood_of
from repairlog.records.post import NotThere, Sent
from repairlog.records.store import Store

MOST_ENTRIES = 1000
"""Entries of one call at the most."""

FURTHEST_OFF_MS = 100 * 366 * 24 * 3600 * 1000
"""How far a device's clock may be from the server's: one that fell back to 1970 is read, one beyond a century not."""


def understand(store: Store, call: Sequence[object], *, actor: Actor, moments: Moments) -> list[Entry]:
    """The entries of a call, ready to be posted. Raises NotUnderstood with every complaint of every entry, or NotThere
    where an entry hangs on a subject that nobody knows yet."""
    return understand_sent(store, call, sent=[Sent(actor=actor, moments=moments)] * len(call))


def understand_sent(store: Store, call: Sequence[object], *, sent: Sequence[Sent]) -> list[Entry]:
    """The same for entries that came from several senders at several moments. `sent`: one an entry, in their order."""
    if not call or len(call) > MOST_ENTRIES:
        facts = {"got": str(len(call)), "most": str(MOST_ENTRIES)}
        raise NotUnderstood([Complaint(entry=0, field="", code="number_of_entries", facts=facts)])
    read = [said_of(raw, position) for position, raw in enumerate(call)]
    complaints = [each for _said, found in read for each in found]
    complaints += _of_the_senders([said for said, _ in read], sent)
    if complaints:
        raise NotUnderstood(complaints)
    known = known_for(store, [said for said, _ in read])
    entries = []
    for position, ((said, _), by) in enumerate(zip(read, sent, strict=True)):
        reading = Reading(position)
        try:
            entry = _understood(said, known=known, actor=by.actor, moments=by.moments, reading=reading)
        except NotThere:
            if complaints:  # it may hang on an entry of this call that could not be read: that is what is to be heard
                raise NotUnderstood(complaints) from None
            raise
        complaints += reading.complaints
        entries.append(entry)
        if not reading.complaints and entry.id not in known.there:
            learn(known, _as_sealed(entry, place=position))
    if complaints:
        raise NotUnderstood(complaints)
    return entries


def _of_the_senders(read: Sequence[Said], sent: Sequence[Sent]) -> Iterator[Complaint]:
    """What is wrong with an id for its sender, and with the clock of the device; of a clock once, for what it sent."""
    for position, (said, by) in enumerate(zip(read, sent, strict=True)):
        id = str(said.said.get("id", ""))
        if id and not is_version(id, 7) and not (by.actor.sure == "import" and is_version(id, 8)):
            yield Complaint(entry=position, field="id", code="id_version", facts={"got": id})
    for position, by in enumerate(sent):
        offset = offset_ms(by.moments)
        first = position == 0 or sent[position - 1] is not by
        if first and offset is not None and abs(offset) > FURTHEST_OFF_MS:
            yield Complaint(entry=position, field="sent", code="clock_too_far_off", facts={"most": "100"})


def _operator_is_one(said: Mapping[str, Any], known: Known, reading: Reading) -> None:
    """A book is one operator's: opened first, and once."""
    if said["kind"] != "operator_opened":
        if not known.operator_zone:
            reading.complain("kind", "operator_not_opened")
    elif known.operator_zone and read_id(said["id"]) not in known.subjects:
        reading.complain("kind", "operator_opened_already")


def _understood(said: Said, *, known: Known, actor: Actor, moments: Moments, reading: Reading) -> Entry:
    target = target_of(said.said)
    if read_id(said.said["id"]) in known.there:  # what came before is compared, and not understood again
        if target in known.chains:
            hide_again(said, known.chains[target])
        return _entry(said, Understanding(), actor=actor)
    _operator_is_one(said.said, known, reading)
    people_named(said, known, reading=reading)
    if target == read_id(said.said["id"]):
        reading.complain("entry", "speaks_of_itself")
    if reading.complaints:
        return _entry(said, Understanding(), actor=actor)
    if target is not None:
        if target not in known.chains:
            raise NotThere([target])
        chain = known.chains[target]
        _demand_there(said, known)
        out = righting_understood(said, known=known, moments=moments, reading=reading, chain=chain)
        out.read_up_to = max((entry.index for entry in chain if entry.index < NOT_YET), default=None)
    else:
        _demand_there(said, known)
        out = understood_of(said.said, known=known, moments=moments, reading=reading)
    return _entry(said, out, actor=actor)


def _demand_there(said: Said, known: Known) -> None:
    """What an entry's days hang on must be there: its area, or the subject in whose story it stands."""
    kind = KINDS[said.said["kind"]]
    needed = [read_id(said.said[name]) for name in ("area", kind.folds_in) if name in said.said]
    needed += [said.typed] if said.typed else []
    if missing := [id for id in needed if id not in known.subjects]:
        raise NotThere(missing)


def _entry(said: Said, out: Understanding, *, actor: Actor) -> Entry:
    person = str(actor.person)
    did: list[Row] = list(said.did) if said.did else [{"key": "d1", "person": person}]
    return Entry(
        said=said.said,
        understood=out.understood,
        did=did,
        typed=said.typed or actor.person,
        written=said.written,
        private=said.private,
        rests_on=out.rests_on,
        read_up_to=out.read_up_to,
    )


def _as_sealed(entry: Entry, *, place: int) -> Standing:
    """The entry as later entries of the same call see it."""
    return Standing(
        index=NOT_YET + place,
        said=entry.said,
        understood=entry.understood,
        by={"did": list(entry.did), "typed": str(entry.typed)},
        moments={},
        private=dict.fromkeys(entry.private, "beside"),
    )
