"""From a call as it came to its receipts: read, understood, posted; and nothing that was typed is lost on the way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from uuid import UUID

from repairlog.access import Actor, Refused
from repairlog.entries.entry import Moments
from repairlog.entries.ids import as_id
from repairlog.intake.call import understand, understand_sent
from repairlog.intake.complaint import Complaint, NotUnderstood
from repairlog.intake.sender import kept_sender, sender_read
from repairlog.records.beside.unfinished import Unfinished, keep, waiting_for
from repairlog.records.post import Conflict, NotThere, Receipt, Sent, SettingsChanged, post_sent
from repairlog.records.store import Busy, Store

TURNS = 8
"""How often a call is understood while what it is read against changes: as many may put one entry right at once."""


class WaitsFor(Exception):
    """The call names what is not in the book yet; it is kept, and tried again when that comes. `ids`: what it names."""

    code = "waits"

    def __init__(self, ids: frozenset[UUID]) -> None:
        self.ids = ids
        super().__init__("kept until it comes: " + ", ".join(sorted(map(str, ids))))


def record(
    store: Store,
    call: Sequence[object],
    *,
    actor: Actor,
    moments: Moments,
    form: str = "entries",
    asks: Sequence[Complaint] = (),
) -> list[Receipt]:
    """Record the entries of one call, all or none, in their order; a receipt each.

    `call`: raw entries, as JSON or a form gives them. `asks`: what whoever hands it in has to ask first; it is told
    together with all else that could not be read. What cannot be read, is refused or waits is kept as unfinished
    before NotUnderstood, access.Refused or WaitsFor is raised. Raises Conflict and store.Busy as `post` does.
    """
    try:
        if asks:
            raise NotUnderstood(with_asks(asks, complaints_about(store, call, actor=actor, moments=moments)))
        receipts = _recorded(store, call, sent=[Sent(actor=actor, moments=moments)] * len(call))
    except (NotUnderstood, Refused) as problem:
        _keep(store, call, because=problem.code, actor=actor, moments=moments, form=form)
        raise
    except NotThere as problem:
        _keep(store, call, because="waits", actor=actor, moments=moments, form=form, waits_for=problem.ids)
        raise WaitsFor(problem.ids) from problem
    # also what was there already: the process may have ended between that commit and this
    _try_again(store, {receipt.id for receipt in receipts})
    return receipts


def complaints_about(store: Store, call: Sequence[object], *, actor: Actor, moments: Moments) -> tuple[Complaint, ...]:
    """What could not be read of a call today; nothing of it is recorded, and nothing kept."""
    try:
        understand(store, call, actor=actor, moments=moments)
    except NotUnderstood as problem:
        return problem.complaints
    except NotThere:
        return ()
    return ()


def record_listed(store: Store, call: Sequence[object], *, actor: Actor, moments: Moments) -> list[Receipt]:
    """The same for rows of a list, which their sender holds: nothing is kept as unfinished. Raises what `understand`
    and `post` do."""
    return record_sent(store, call, sent=[Sent(actor=actor, moments=moments)] * len(call))


def record_sent(store: Store, call: Sequence[object], *, sent: Sequence[Sent]) -> list[Receipt]:
    """The same for what several senders brought at several moments, told later and in one call: all or none of it.
    `sent`: one an entry, in their order."""
    receipts = _recorded(store, call, sent=sent)
    _try_again(store, {receipt.id for receipt in receipts})
    return receipts


def with_asks(asks: Sequence[Complaint], complaints: Sequence[Complaint]) -> list[Complaint]:
    """What is asked first, then what else could not be read: of a field that is asked about, the question alone."""
    asked = {(each.entry, each.field) for each in asks}
    return [*asks, *(each for each in complaints if (each.entry, each.field) not in asked)]


def _recorded(store: Store, call: Sequence[object], *, sent: Sequence[Sent]) -> list[Receipt]:
    for _turn in range(TURNS):
        try:
            return post_sent(store, understand_sent(store, call, sent=sent), sent=sent)
        except SettingsChanged:
            continue
    raise Busy


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
    if (id := as_id(first.get("id"))) is None:
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
            actor=kept_sender(actor, moments),
            waits_for=waits_for,
        ),
    )


def _try_again(store: Store, came: set[UUID]) -> None:
    """What waited for one of these is posted now, as it was sent then; what still cannot be is kept as before."""
    for waiting in waiting_for(store, came):
        actor, moments = sender_read(waiting.actor)
        try:
            assert isinstance(waiting.raw, list)
            record(store, waiting.raw, actor=actor, moments=moments, form=waiting.form)
        except Conflict:
            keep(store, replace(waiting, because="conflict", waits_for=frozenset()))
        except (NotUnderstood, Refused, WaitsFor, Busy):
            continue  # its own reason stands beside it
