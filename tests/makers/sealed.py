"""Lines and values sealed without a journal."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from repairlog.records.seal import EMPTY, Frontier, NotSealable, canonical, grown, leaf


def tree_of(lines: Iterable[bytes]) -> Frontier:
    """The tree of these lines."""
    return grown(EMPTY, map(leaf, lines))


def refusal_of(value: object) -> tuple[str, str, str]:
    """Code, path and type of what cannot be sealed in a value; a test fails where all of it can."""
    with pytest.raises(NotSealable) as refused:
        canonical(value)
    return refused.value.code, refused.value.path, refused.value.found
