"""Which links make sense between which things: a link says how two hang together, ends nothing and moves no day."""

from __future__ import annotations

from collections.abc import Mapping

BETWEEN: Mapping[tuple[str, str], tuple[str, ...]] = {
    ("leak", "leak"): ("same_source_as", "split_from", "came_back_after", "same_dig", "waits_on"),
    ("leak", "dig"): ("same_dig", "came_back_after", "waits_on"),
    ("leak", "call"): ("same_source_as", "came_back_after"),
    ("leak", "place"): ("waits_on",),
    ("dig", "leak"): ("same_dig", "waits_on"),
    ("dig", "dig"): ("same_dig", "split_from", "waits_on"),
    ("dig", "place"): ("waits_on",),
    ("call", "leak"): ("same_source_as", "came_back_after"),
    ("call", "call"): ("same_source_as", "came_back_after"),
    ("call", "dig"): ("came_back_after",),
    ("place", "leak"): ("waits_on",),
    ("place", "place"): ("split_from", "waits_on"),
}
"""By the kinds of both, the ways that a page offers, each said of the first. A program may say any of them of anything;
it is kept as it was said."""

LINKED = tuple(dict.fromkeys(kind for kind, _other in BETWEEN))
"""Kinds of subjects from whose pages a link is made."""


def others(kind: str) -> tuple[str, ...]:
    """The kinds of what something of that kind is linked to on a page; none where its page links nothing."""
    return tuple(other for of, other in BETWEEN if of == kind)
