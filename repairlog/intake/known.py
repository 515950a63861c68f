"""What must be known to understand a call: areas, kinds of subjects, entries that are put right. The entries of the
call itself count in as they are understood, in their order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any
from uuid import UUID

from repairlog.access import EVERYTHING
from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.naming import ids_brought, named_subjects, target_of
from repairlog.intake.rulebooks import digests_said
from repairlog.intake.said import Said
from repairlog.records.post.chain import chain_of, entries_there
from repairlog.records.queries.adopted import rulebook_with
from repairlog.records.queries.settings import MoveRow, SubjectRow, areas, operator_zone, subjects
from repairlog.records.store import Store
from repairlog.trade.area import Area, area
from repairlog.trade.rulebook import Rulebook

NOT_THERE_YET = 0
"""Version of the settings of an area that the call itself opens: nothing can have changed them meanwhile."""


@dataclass(slots=True)
class Known:
    """`areas`, `subjects`: by id. `chains`: for an entry that is put right, that entry and all that puts it right, as
    sealed. `there`: those entries of the call that are in the book already. `operator_zone`: empty before the operator
    is opened. `rulebooks`: by digest, those that the call names and that can be opened."""

    operator_zone: str = ""
    areas: dict[UUID, Area] = field(default_factory=dict)
    subjects: dict[UUID, SubjectRow] = field(default_factory=dict)
    chains: dict[UUID, list[Standing]] = field(default_factory=dict)
    there: frozenset[UUID] = frozenset()
    rulebooks: dict[str, Rulebook] = field(default_factory=dict)

    def area_of(self, subject: UUID, *, on: str = "") -> Area | None:
        """The area of a subject, on that day (`YYYY-MM-DD`) where one is given; of an area, itself."""
        row = self.subjects.get(subject)
        area = (row.area_on(on) if on else row.area) if row else None
        return self.areas.get(area or subject)

    def as_before(self, index: int) -> Known:
        """The same as it was before that place in the journal, as far as subjects moved since: an entry that is put
        right is read by the clock and the settings by which it was read first."""
        return replace(self, subjects={id: row.as_known_before(index) for id, row in self.subjects.items()})

    def zone_of(self, subject: UUID) -> str:
        """The zone whose days count for a subject: its area's, else the operator's."""
        area = self.area_of(subject)
        return area.zone if area else self.operator_zone


def known_for(store: Store, read: Sequence[Said]) -> Known:
    """Read what these entries need to be understood."""
    call = [each.said for each in read]
    ids = {subject for each in read for subject, _as_what in named_subjects(each.said, each.did or ())}
    ids |= {each.typed for each in read if each.typed}
    targets = [target for said in call if (target := target_of(said))]
    with store.reading() as tx:
        known = Known(
            operator_zone=operator_zone(EVERYTHING, tx) or "",
            areas={area.id: area for area in areas(EVERYTHING, tx)},
            chains={target: chain for target in targets if (chain := chain_of(tx, target))},
            there=entries_there(tx, [read_id(said["id"]) for said in call]),
        )
        for chain in known.chains.values():
            ids |= _subjects_of(chain)
        ids |= {id for said in call for id in ids_brought(said)}
        for digest in digests_said(call, chains=known.chains.values()):
            if found := rulebook_with(EVERYTHING, tx, digest=digest):
                known.rulebooks[digest] = found
        known.subjects = {row.id: row for row in subjects(EVERYTHING, tx, ids=ids)}
    return known


def _subjects_of(chain: Iterable[Standing]) -> set[UUID]:
    told = {subject for entry in chain for subject, _as_what in named_subjects(entry.said)}
    return told | {id for entry in chain for id in ids_brought(entry.said)}


def learn(known: Known, entry: Standing) -> None:
    """Count in an entry of the same call, understood already."""
    said, kind = entry.said, KINDS[entry.kind]
    if kind.opens:
        known.subjects[entry.id] = SubjectRow(id=entry.id, kind=kind.opens, area=_area_said(known, said, kind.folds_in))
    if kind.opens == "operator":
        known.operator_zone = said["zone"]
    if opened := area([entry]):
        known.areas[entry.id] = replace(opened, settings_version=NOT_THERE_YET)
    if entry.kind == "typing_time_set" and (of := known.areas.get(read_id(said["subject"]))):
        known.areas[of.id] = replace(of, typing_hours=said["hours"])
    if entry.kind == "subject_moved" and (row := known.subjects.get(read_id(said["subject"]))):
        move = MoveRow(index=entry.index, on=entry.on, to_area=read_id(said["to_area"]))
        first = row.first or row.area
        known.subjects[row.id] = replace(row, area=move.to_area, first=first, moves=(*row.moves, move))
    target = target_of(said)
    known.chains[entry.id] = [entry] if target is None else [*known.chains.get(target, ()), entry]
    if target is not None:
        for chain in known.chains.values():
            if any(each.id == target for each in chain) and entry not in chain:
                chain.append(entry)


def _area_said(known: Known, said: Mapping[str, Any], folds_in: str) -> UUID | None:
    if "area" in said:
        return read_id(said["area"])
    row = known.subjects.get(read_id(said[folds_in])) if folds_in else None
    return row.area if row else None
