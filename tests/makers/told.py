"""Entries as they come out of the journal, made without one: for tests of what is worked out from them."""

from __future__ import annotations

from typing import Any

from repairlog.entries.entry import Standing
from repairlog.trade.grade import rank_of

PERSON = "019cb4d0-1180-7abc-9def-00000000aaaa"


def told(index: int, said: dict[str, Any], **also: Any) -> Standing:
    """That entry as sealed at `index`. A `happened` with a time is taken as UTC, what
    puts others right happened on 2026-03-06. `by`, `private` as given, `understood` beside what is worked out here."""
    return Standing(
        index=index,
        said={"version": 1} | {name: value for name, value in said.items() if value not in ([], None)},
        understood=_understood(said) | also.get("understood", {}),
        by={"did": [{"key": "d1", "person": PERSON}], "typed": PERSON, "sent": PERSON, "sure": "password"}
        | also.get("by", {}),
        moments={"received": "2026-03-06T12:00:00.000Z"},
        private=also.get("private", {}),
    )


def story(*said: dict[str, Any]) -> list[Standing]:
    """Those entries, sealed in that order."""
    return [told(index, each) for index, each in enumerate(said)]


def _understood(said: dict[str, Any]) -> dict[str, Any]:
    typed = said.get("happened", "2026-03-06")
    day = typed[:10]
    made: dict[str, Any] = {"happened_on": day, "zone": "UTC"}
    if len(typed) == 16:
        made["happened_at"] = f"{day}T{typed[11:]}:00.000Z"
    if "happened_known" in said:
        made["happened_known"] = said["happened_known"]
    if "grade" in said and (rank := rank_of(said["grade"], given=said.get("rank"))) is not None:
        made["rank"] = rank
    return made
