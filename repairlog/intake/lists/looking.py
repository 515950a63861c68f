"""Only looking at a list: what it would record, folded without a word being written."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any
from uuid import UUID

from repairlog.access import Actor
from repairlog.entries.entry import NOT_YET, Entry, Moments, Standing
from repairlog.entries.ids import read_id
from repairlog.entries.moments import moment_text
from repairlog.entries.naming import own_subject
from repairlog.intake.call import understand
from repairlog.intake.complaint import NotUnderstood
from repairlog.intake.lists.declared import Columns
from repairlog.intake.lists.file import opened
from repairlog.intake.lists.refusal import Refusal
from repairlog.records.post.stories import Story
from repairlog.records.store import Store
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests


def numbers_repeated(file: Path, columns: Columns) -> frozenset[str]:
    """The numbers that more than one row of the list bears: of these leaks a run that only looks keeps what it saw."""
    if "number" not in columns.of:
        return frozenset()
    seen, repeated = set[int](), set[str]()
    with opened(file, columns) as rows:
        for row in rows.rows:
            number = "" if isinstance(row, Refusal) else " ".join(row.cells[columns.of["number"]].split())
            (repeated.add(number) if hash(number) in seen else seen.add(hash(number)))
    return frozenset(repeated)


@dataclass(slots=True)
class Looked:
    """What a run that only looks would have recorded of leaks that come again. `repeated`: their numbers."""

    repeated: frozenset[str]
    told: dict[UUID, list[Standing]] = field(default_factory=lambda: defaultdict(list))

    def counted_in(self, stories: Mapping[UUID, Story], ids: Collection[UUID]) -> dict[UUID, Story]:
        """These leaks' stories with what would stand in them by now."""
        now = dict(stories)
        for id in (id for id in ids if id in self.told):
            before = now.get(id, Story({}, ()))
            more = self.told[id]
            now[id] = Story({**before.sealed, **{each.id: each for each in more}}, (*before.standing, *more))
        return now

    def looked_at(
        self,
        store: Store,
        call: Sequence[Mapping[str, Any]],
        *,
        actor: Actor,
        moments: Moments,
        stories: Mapping[UUID, Story | None],
    ) -> list[tuple[bool, Sequence[str]]]:
        """Of each entry that it would come in, and the codes of the gaps that would stand about it. Raises
        NotUnderstood."""
        would: dict[UUID, list[Standing]] = defaultdict(list)
        for place, entry in enumerate(self._understood(store, call, actor=actor, moments=moments)):
            would[_leak_of(entry)].append(_as_it_would_stand(entry, actor, moments, place=place))
        gaps = {gap for id, told in would.items() for gap in _gaps(stories.get(id), told)}
        for id, told in would.items():
            self._keep(id, told, stories.get(id))
        return [(True, [code for entry, code in gaps if str(entry) == raw["id"]]) for raw in call]

    def _understood(
        self, store: Store, call: Sequence[Mapping[str, Any]], *, actor: Actor, moments: Moments
    ) -> list[Entry]:
        """The call understood as if the leaks that it would have opened before were in the book."""
        leaks = dict.fromkeys(read_id(raw["leak"]) for raw in call if "leak" in raw)
        leaks |= dict.fromkeys(read_id(raw["subject"]) for raw in call if "subject" in raw)
        opened = [entry.said for id in leaks for entry in self.told.get(id, ()) if entry.kind == "leak_opened"]
        try:
            return understand(store, [*opened, *call], actor=actor, moments=moments)[len(opened) :]
        except NotUnderstood as problem:
            moved = [replace(each, entry=each.entry - len(opened)) for each in problem.complaints]
            raise NotUnderstood(moved) from problem

    def _keep(self, id: UUID, told: Sequence[Standing], story: Story | None) -> None:
        opened = story.opened if story else told[0]
        numbers = {opened.text("number"), str(opened.understood.get("number", ""))}
        numbers |= {row["number"] for row in opened.rows("outside_numbers")}
        if numbers & self.repeated:
            self.told[id] += told


def _gaps(story: Story | None, told: Sequence[Standing]) -> set[tuple[UUID, str]]:
    as_is = leak([*(story.standing if story else ()), *told], rests=Rests())
    return {(gap.entry, gap.code) for gap in as_is.gaps} if as_is else set()


def _leak_of(entry: Entry) -> UUID:
    """The leak that it would stand in; a source is one of its leak's."""
    return read_id(entry.said["leak"]) if "leak" in entry.said else own_subject(entry.said)


def _as_it_would_stand(entry: Entry, actor: Actor, moments: Moments, *, place: int) -> Standing:
    return Standing(
        index=NOT_YET + place,
        said=entry.said,
        understood=entry.understood,
        by={"did": list(entry.did), "typed": str(entry.typed), "sent": str(actor.person), "sure": actor.sure},
        moments={"received": moment_text(moments.received)},
        private={},
    )
