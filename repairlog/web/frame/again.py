"""What somebody left unfinished, opened again: their own, or what was refused them where the asker oversees."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from flask import abort, request

from repairlog.entries.ids import as_id
from repairlog.intake import Complaint, complaints_about
from repairlog.records.beside.unfinished import Unfinished, of_person, refused
from repairlog.records.queries.settings import subjects
from repairlog.records.store import Store
from repairlog.web.frame.asking import Asker

OVERSEES = "repair_reviewed"
"""Who may post this in an area is shown there what others were refused for want of the right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """`raw`: its entries, with who did them. `because`: why it was not recorded. `complaints`: what cannot be read of
    it today."""

    raw: Sequence[Mapping[str, Any]]
    because: str
    complaints: Sequence[Complaint]


def opened_again(store: Store, asker: Asker) -> Again | None:
    """What the address's `unfinished` names; None where it names nothing. 404 where there is none for this asker."""
    if "unfinished" not in request.args:
        return None
    found = unfinished_for(store, asker, id=as_id(request.args["unfinished"]))
    if found is None:
        abort(404)
    raw = [_with_who(each, found.person, asker) for each in entries_in(found)]
    told = complaints_about(store, raw, actor=asker.actor, moments=asker.moments)
    return Again(raw=raw, because=found.because, complaints=told if found.because == "not_understood" else ())


def typed_by(store: Store, asker: Asker) -> UUID | None:
    """Who typed what another saves now, having taken it over: it is theirs, and sent by the other."""
    found = unfinished_for(store, asker, id=as_id(request.form["unfinished"])) if "unfinished" in request.form else None
    return found.person if found and found.person != asker.actor.person else None


def unfinished_for(store: Store, asker: Asker, *, id: UUID | None) -> Unfinished | None:
    """The asker's own of that id, else another's that they oversee."""
    every = [*of_person(store, asker.actor.person), *overseen(store, asker)]
    return next((each for each in every if each.id == id), None)


def overseen(store: Store, asker: Asker) -> list[Unfinished]:
    """What others were refused in areas that the asker oversees, the newest first."""
    others = [each for each in refused(store) if each.person != asker.actor.person]
    with store.reading() as tx:
        rows = subjects(asker.scope, tx, ids={id for each in others for id in places_in(each)})
    area_of = {row.id: row.area or row.id for row in rows}
    return [each for each in others if _oversees(asker, {area_of.get(id) for id in places_in(each)})]


def entries_in(unfinished: Unfinished) -> list[Mapping[str, Any]]:
    """The raw entries in it that are objects at all."""
    raw = unfinished.raw if isinstance(unfinished.raw, list) else []
    return [each for each in raw if isinstance(each, dict)]


def places_in(unfinished: Unfinished) -> set[UUID]:
    """What says where each of its entries belongs."""
    named = {raw.get(name) for raw in entries_in(unfinished) for name in ("area", "leak", "dig", "call", "subject")}
    return {id for each in named if (id := as_id(each)) is not None}


def _oversees(asker: Asker, areas: set[UUID | None]) -> bool:
    here = areas - {None}
    return bool(here) and all(asker.may(OVERSEES, area=area) for area in here)


def _with_who(raw: Mapping[str, Any], person: UUID, asker: Asker) -> Mapping[str, Any]:
    """Whoever saves it now, it was done by whoever typed it, unless they named others."""
    if raw.get("did") or person == asker.actor.person:
        return raw
    return {**raw, "did": [{"key": "d1", "person": str(person)}]}
