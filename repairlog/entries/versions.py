"""Old versions of entries, lifted to the present one when they are read. Sealed bytes are never rewritten."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from repairlog.entries.kinds import KINDS

Sealed = Mapping[str, Any]
"""A parsed line of the journal."""

LIFTS: Mapping[tuple[str, int], Callable[[Sealed], Sealed]] = MappingProxyType({})
"""By kind and version, what makes of a line of that version one of the next. A lift is kept for ever; every kind is
in its first version so far, so there is none yet."""


class FromANewerRelease(Exception):
    """The journal holds a kind or version that this release does not know; a newer release wrote it. `facts`: `index`,
    `kind`, `version`."""

    code = "from_a_newer_release"

    def __init__(self, **facts: str) -> None:
        super().__init__(facts)
        self.facts = facts


def lifted(sealed: Sealed, *, lifts: Mapping[tuple[str, int], Callable[[Sealed], Sealed]] = LIFTS) -> Sealed:
    """The line as an entry of its kind's present version says it. Raises FromANewerRelease."""
    kind, version = sealed["said"]["kind"], sealed["said"]["version"]
    if kind not in KINDS or version > KINDS[kind].version:
        raise FromANewerRelease(index=str(sealed["index"]), kind=kind, version=str(version))
    while (kind, sealed["said"]["version"]) in lifts:
        sealed = lifts[kind, sealed["said"]["version"]](sealed)
    return sealed
