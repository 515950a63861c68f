"""What is said when a measure cannot be read: a code with facts, put into a sentence on a higher floor."""

from __future__ import annotations

from collections.abc import Sequence


class NotUnderstood(Exception):
    """A measure as typed could not be read, or not converted or compared as asked.

    `code`: stable, one of those of `repairlog.words.measures`. `facts`: texts and lists of texts, always `got` (the
    text as typed, cut to eighty characters) where there was one.
    """

    def __init__(self, code: str, facts: dict[str, str | list[str]]) -> None:
        super().__init__(code, facts)
        self.code = code
        self.facts = facts

    def __str__(self) -> str:
        told = ", ".join(f"{name} {value!r}" for name, value in self.facts.items())
        return f"{self.code}: {told}" if told else self.code


def complaint(code: str, **facts: str | Sequence[str]) -> NotUnderstood:
    """The complaint of that code, to be raised; empty facts are left out."""
    kept = {name: value if isinstance(value, str) else list(value) for name, value in facts.items() if value}
    return NotUnderstood(code, kept)
