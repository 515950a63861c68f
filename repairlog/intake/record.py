"""From a call as it came to its receipts: read, understood, posted; and nothing that was typed is lost on the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any
from uuid import UUID

from repairlog.access import Actor, Membership, Refused
from repairlog.entries.entry import Entry, Moments, Row, from_sealed, offset_ms
from repairlog.entries.ids import is_version, read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.moments import moment_text, read_moment
from repairlog.entries.naming import target_of
from repairlog.intake.complaint import Complaint, NotUnderstood
from repairlog.intake.known import Known, known_for, learn
from repairlog.intake.righted import righting_understood
from repairlog.intake.said import Reading, Said, said_of
from repairlog.intake.understood import Understanding, people_named, understood_of
from repairlog.records.beside.unfinished import Unfinished, keep, waiting_for
from repairlog.records.post import Conflict, NotThere, Receipt, SettingsChanged, post
from repairlog.records.store import Busy, Store

MOST_ENTRIES = 1000
"""Entries of one call at the most."""
TURNS = 3
FURTHEST_OFF_MS = 100 * 366 * 24 * 3600 * 1000
"""How far a device's clock may be from the server's: one that fell back to 1970 is read, one beyond a century not."""


class WaitsFor(Exception):
    """The call names what is not in the book yet; it is kept, and tried again when that comes. `ids`: what it names."""

    code = "waits"

    def __init__(self, ids: frozenset[UUID]) -> None:
        self.ids = ids
        super().__init__("kept until it comes: " + ", ".join(sorted(map(str, ids))))


def record(
    store: Store, call: Sequence[object], *, actor: Actor, moments: Moments, form: str = "entries"
) -> list[Receipt]:
    """Record the entries of one call, all or none, in their order; a receipt each.

    `call`: raw entries, as JSON or a form gives them. What cannot be read, is refused or waits is kept as unfinished
    before NotUnderstood, access.Refused or WaitsFor is raised. Raises Conflict and store.Busy as `post` does.
    """
    try:
        receipts = _recorded(store, call, actor=actor, moments=moments)
    except (NotUnderstood, Refused) as problem:
        _keep(store, call, because=problem.code, actor=actor, moments=moments, form=form)
        raise
    except NotThere as problem:
        _keep(store, call, because="waits", actor=actor, moments=moments, form=form, waits_for=problem.ids)
        raise WaitsFor(problem.ids) from problem
    # also what was there already: the process may have ended between that commit and this
    _try_again(store, {receipt.id for receipt in receipts})
    return receipts


def _recorded(store: Store, call: Sequence[object], *, actor: Actor, moments: Moments) -> list[Receipt]:
    for _turn in range(TURNS):
        try:
            return post(store, understand(store, call, actor=actor, moments=moments), actor=actor, moments=moments)
        except SettingsChanged:
            continue
    raise Busy("the settings of an area keep changing; nothing was saved of this call, try again")


def understand(store: Store, call: Sequence[object], *, actor: Actor, moments: Moments) -> list[Entry]:
    """The entries of a call, ready to be posted. Raises NotUnderstood with every complaint of every entry, or NotThere
    where an entry hangs on a subject that nobody knows yet."""
    if not call or len(call) > MOST_ENTRIES:
        facts = {"got": str(len(call)), "most": str(MOST_ENTRIES)}
        raise NotUnderstood([Complaint(entry=0, field="", code="number_of_entries", facts=facts)])
    read = [said_of(raw, position) for position, raw in enumerate(call)]
    complaints = [each for _said, found in read for each in found]
    complaints += _of_the_call([said for said, _ in read], actor=actor, moments=moments)
    if complaints:
        raise NotUnderstood(complaints)
    known = known_for(store, [said for said, _ in read])
    entries = []
    for position, (said, _) in enumerate(read):
        reading = Reading(position)
        try:
            entry = _understood(said, known=known, actor=actor, moments=moments, reading=reading)
        except NotThere:
            if complaints:  # it may hang on an entry of this call that could not be read: that is what is to be heard
                raise NotUnderstood(complaints) from None
            raise
        complaints += reading.complaints
        entries.append(entry)
        if not reading.complaints:
            learn(known, _as_sealed(entry, place=position))
    if complaints:
        raise NotUnderstood(complaints)
    return entries


def _of_the_call(read: Sequence[Said], *, actor: Actor, moments: Moments) -> Iterator[Complaint]:
    """What is wrong with an id for this sender, and with the clock of the device."""
    for position, id in ((place, str(said.said["id"])) for place, said in enumerate(read) if "id" in said.said):
        if not is_version(id, 7) and not (actor.sure == "import" and is_version(id, 8)):
            yield Complaint(entry=position, field="id", code="id_version", facts={"got": id})
    offset = offset_ms(moments)
    if offset is not None and abs(offset) > FURTHEST_OFF_MS:
        yield Complaint(entry=0, field="sent", code="clock_too_far_off", facts={"most": "100"})


def _operator_is_one(said: Mapping[str, Any], known: Known, reading: Reading) -> None:
    """A book is one operator's: opened first, and once."""
    if said["kind"] != "operator_opened":
        if not known.operator_zone:
            reading.complain("kind", "operator_not_opened")
    elif known.operator_zone and read_id(said["id"]) not in known.subjects:
        reading.complain("kind", "operator_opened_already")


def _understood(said: Said, *, known: Known, actor: Actor, moments: Moments, reading: Reading) -> Entry:
    target = target_of(said.said)
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
    )


def _as_sealed(entry: Entry, *, place: int) -> Any:
    """The entry as later entries of the same call see it."""
    by = {"did": list(entry.did), "typed": str(entry.typed)}
    private = dict.fromkeys(entry.private, "beside")
    line = {"index": (1 << 60) + place, "said": entry.said, "understood": entry.understood, "by": by}
    return from_sealed({**line, "moments": {}, "private": private})


def _keep(
    store: Store,
    call: Sequence[object],
    *,
    because: str,
    actor: Actor,
    moments: Moments,
    form: str,
    waits_for: frozenset[UUID] = frozenset(),
) -> None:
    first = call[0] if call and isinstance(call[0], Mapping) else {}
    try:
        id = read_id(str(first.get("id")))
    except ValueError:
        return  # without a name it cannot be found again; the sender still holds it and reads the complaint
    keep(
        store,
        Unfinished(
            id=id,
            person=actor.person,
            because=because,
            form=form,
            raw=list(call),
            kept_at=moments.received,
            actor=_actor_text(actor, moments),
            waits_for=waits_for,
        ),
    )


def _try_again(store: Store, came: set[UUID]) -> None:
    """What waited for one of these is posted now, as it was sent then; what still cannot be is kept as before."""
    for waiting in waiting_for(store, came):
        actor, moments = _actor_read(waiting.actor)
        try:
            assert isinstance(waiting.raw, list)
            record(store, waiting.raw, actor=actor, moments=moments, form=waiting.form)
        except Conflict:
            keep(store, replace(waiting, because="conflict", waits_for=frozenset()))
        except (NotUnderstood, Refused, WaitsFor, Busy):
            continue  # its own reason stands beside it


def _actor_text(actor: Actor, moments: Moments) -> dict[str, Any]:
    return {
        "person": str(actor.person),
        "sure": actor.sure,
        "signed_in_on": actor.signed_in_on,
        "memberships": [[m.role, str(m.area) if m.area else "", m.from_on, m.until_on] for m in actor.memberships],
        "received": moment_text(moments.received),
        "sent": moment_text(moments.sent) if moments.sent else "",
        "offset_ms": moments.offset_ms,
    }


def _actor_read(kept: Any) -> tuple[Actor, Moments]:
    memberships = tuple(
        Membership(role=role, area=read_id(area) if area else None, from_on=from_on, until_on=until_on)
        for role, area, from_on, until_on in kept["memberships"]
    )
    actor = Actor(
        person=read_id(kept["person"]),
        sure=kept["sure"],
        memberships=memberships,
        signed_in_on=kept["signed_in_on"],
    )
    sent = read_moment(kept["sent"]) if kept["sent"] else None
    return actor, Moments(received=read_moment(kept["received"]), sent=sent, offset_ms=kept["offset_ms"])
