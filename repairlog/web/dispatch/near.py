"""What is known near an address: earlier calls and open leaks in the same street."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.records.queries.calls import CallRow, WantedCalls, calls
from repairlog.records.queries.leaks import LeakRow, Wanted, leaks
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker

SHOWN = 6
"""Calls, and leaks, that are shown near an address at the most."""

LETTERS = 3
"""Letters of a street from which on it is looked up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """`calls`: the newest in the street, whatever came of them. `leaks`: those of the street that are open."""

    calls: Sequence[CallRow] = ()
    leaks: Sequence[LeakRow] = ()


def near(tx: Tx, *, street: str, town: str, without: UUID | None = None) -> Near:
    """What is near that street, as far as it is typed. `without`: a call that is not to be found near itself."""
    if len(street.strip()) < LETTERS:
        return Near()
    scope = asker().scope
    streets = tuple(streets_named(scope, tx, part=f"{street} {town}"))
    found = calls(scope, tx, wanted=WantedCalls(streets=streets), beyond=None, most=SHOWN + 1)
    return Near(
        calls=[call for call in found if call.id != without][:SHOWN],
        leaks=leaks(scope, tx, where=Wanted(status="open", streets=streets), beyond=None, most=SHOWN),
    )
