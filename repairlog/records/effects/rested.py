"""What leaks rest on, as their sealed entries name it, before and after corrections."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Row
from repairlog.entries.ids import as_id, read_id
from repairlog.entries.naming import named_subjects, own_subject, target_of
from repairlog.records.effects.chains import puts_ever
from repairlog.trade.rests import NAMED_AS, kinds_named, of_a_leak


def named_by(told: Sequence[tuple[Mapping[str, Any], Sequence[Row]]]) -> dict[str, set[UUID]]:
    """What leaks' entries name that they rest on, and what corrections name or named in its place, by kind.

    `told`: what was said, in the journal's order, of leaks and of others, each with who did it.
    """
    named: dict[str, set[UUID]] = defaultdict(set)
    leaks = {read_id(said["id"]) for said, _did in told if said["kind"] == "leak_opened"}
    for said, did in told:
        if target_of(said) is None and (of_a_leak(said["kind"]) or own_subject(said) in leaks):
            for subject, as_what in named_subjects(said, did):
                if as_what in NAMED_AS:
                    named[NAMED_AS[as_what]].add(subject)
    for path, to in {put for puts in puts_ever([said for said, _did in told]).values() for put in puts}:
        if id := as_id(to):
            for kind in kinds_named([path]):
                named[kind].add(id)
    return named
