"""A figure as its command and its page work it out: the answer to what is typed, or the codes of why there is none."""

from __future__ import annotations

from typing import Any

from repairlog.figures import told
from repairlog.figures.answered import answered
from repairlog.figures.declared import Figure

Typed = str | bool | list[str]


def worked(figure: Figure, **typed: Typed) -> dict[str, Any]:
    """The answer as its JSON has it; AssertionError, with the complaints, where there is none."""
    answer, complaints = answered(figure, typed)
    assert answer is not None, [str(it) for it in complaints]
    return told.as_plain(figure, answer)


def refused(figure: Figure, **typed: Typed) -> list[tuple[str, str]]:
    """Field and code of each complaint, each of which has its sentence; empty where there is an answer."""
    _answer, complaints = answered(figure, typed)
    assert all(it["message"] and it["hint"] and "{" not in it["message"] for it in told.refusals(complaints))
    return [(it.field, it.code) for it in complaints]
