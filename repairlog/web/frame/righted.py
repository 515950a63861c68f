"""An entry that somebody wants to put right: as it stands, as it stood when its page was drawn, and who may do so."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.access import Ask, may_put_right
from repairlog.entries.entry import Standing, moment_received
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.naming import own_subject
from repairlog.entries.standing import standing
from repairlog.records.queries.private import Private
from repairlog.records.story import Story
from repairlog.trade.accepted import acceptance
from repairlog.trade.answers_to import answers_of
from repairlog.web.frame.asking import asker
from repairlog.words import _

Raw = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """`chain`: the entry, all that puts it right, and what it puts right itself, as sealed. `drawn_at`: the index of
    the last of these when the page was drawn."""

    id: UUID
    chain: Sequence[Standing]
    drawn_at: int

    @property
    def newest(self) -> int:
        """The index of the last entry that puts the same matter right by now."""
        return max(each.index for each in self.chain)

    @property
    def now(self) -> Standing:
        """As it stands now."""
        return self._at(self.newest)

    @property
    def as_drawn(self) -> Standing:
        """As it stood when the page was drawn."""
        return self._at(self.drawn_at)

    @property
    def meanwhile(self) -> list[Standing]:
        """What put the same matter right since the page was drawn."""
        return [each for each in self.chain if each.index > self.drawn_at]

    @property
    def root(self) -> Standing:
        """The entry that is spoken of in the end, as it stands."""
        return next(each for each in standing(self.chain) if each.kind not in RIGHTING)

    @property
    def subject(self) -> UUID:
        """In whose story it stands."""
        return own_subject(self.root.said)

    def _at(self, index: int) -> Standing:
        there = standing([each for each in self.chain if each.index <= index])
        return next(each for each in there if each.id == self.id)


def target(id: UUID, chain: Sequence[Standing], *, drawn_at: str) -> Target:
    """`drawn_at`: as the page sent it back; what is no index of the chain counts as drawn now."""
    first = next(each.index for each in chain if each.id == id)
    newest = max(each.index for each in chain)
    given = int(drawn_at) if drawn_at.isdecimal() and len(drawn_at) < 16 else newest
    return Target(id=id, chain=chain, drawn_at=min(max(given, first), newest))


def as_raw(entry: Standing, private: Mapping[str, Private]) -> Raw:
    """The entry as whoever typed it would have sent it, private values put in for their digests."""
    raw: Raw = {name: value for name, value in entry.said.items() if name not in ("id", "kind", "version")}
    raw = {name: [dict(row) for row in it] if isinstance(it, list | tuple) else it for name, it in raw.items()}
    raw["did"] = [dict(row) for row in entry.by.get("did", ())]
    for path, digest in entry.private.items():
        value = private[digest].value if digest in private else ""
        name, _, rest = path.partition(".")
        key, _, field = rest.partition(".")
        if value and not rest:
            raw[name] = value
        elif value:
            raw[name] = [row | {field: value} if row["key"] == key else row for row in raw[name]]
    return raw


def rights(story: Story, *, area: UUID | None) -> Callable[[Standing, Standing], bool]:
    """Tells whether the asker may put right an entry of that story today. It is asked with the entry and with the one
    that it speaks of in the end, itself for most."""
    entries = [told.entry for told in story.told]
    is_accepted = acceptance(entries)
    who = asker()

    def may(entry: Standing, root: Standing) -> bool:
        zone = ZoneInfo(entry.understood["zone"])
        ask = Ask(
            position=0,
            kind="corrected",
            area=area,
            **(_of_a_move(entries, root) if root.kind == "subject_moved" else {}),
            companies=None,
            on=who.at.astimezone(zone).date().isoformat(),
            received_on=who.at.astimezone(zone).date().isoformat(),
            target_kind=root.kind,
            target_typed_by=read_id(entry.by["typed"]),
            target_received_on=moment_received(entry).astimezone(zone).date().isoformat(),
            target_accepted=is_accepted(root),
        )
        return may_put_right(who.actor, ask)

    return may


def _of_a_move(entries: Sequence[Standing], move: Standing) -> dict[str, Any]:
    """What is asked beside, where a move is put right: the kind of its subject, and every area that it touches."""
    of = own_subject(move.said)
    story = [entry for entry in entries if own_subject(entry.said) == of]
    opened, answered = next(entry for entry in story if entry.id == of), answers_of(story)
    touched = {read_id(move.said["to_area"]), *(answered.all if answered else ())}
    return {"subject": KINDS[opened.kind].opens, "also_in": frozenset(touched)}


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysToRight:
    """What the asker may put right on a story's page: by entry that stands, and by correction or void that counts, the
    name and address of each way."""

    of_entry: Mapping[UUID, Sequence[tuple[str, str]]]
    of_righting: Mapping[UUID, Sequence[tuple[str, str]]]


def ways_to_right(
    story: Story, *, area: UUID | None, right: Callable[[UUID], str], void: Callable[[UUID], str]
) -> WaysToRight:
    """`area`: of the subject; None where it belongs to none. `right`, `void`: the addresses of the pages by which an
    entry is corrected or made void."""
    may = rights(story, area=area)
    of_entry = {
        each.entry.id: [(_("Put right"), right(each.entry.id)), (_("Make void"), void(each.entry.id))]
        for each in story.told
        if each.entry.void is None and may(each.entry, each.entry)
    }
    of_righting: dict[UUID, list[tuple[str, str]]] = {}
    for of in story.told:
        every = [*of.corrections, *of.undone, *of.rightings, *([of.voided_by] if of.voided_by else [])]
        for each in (each for each in every if each.void is None and may(each, of.entry)):
            if each.kind == "void":
                of_righting[each.id] = [(_("Restore"), void(each.id))]
            else:
                of_righting[each.id] = [(_("Put this right"), right(each.id)), (_("Take it back"), void(each.id))]
    return WaysToRight(of_entry=of_entry, of_righting=of_righting)
