"""Text as it is looked up: what the table of streets holds, and what a part of a street's name is made into."""

from __future__ import annotations

MOST_WORDS = 60
"""Different words that are looked for at once; nobody types more of an address, and databases bound how much is asked
of one row."""


def words_in(text: str) -> list[str]:
    """The different words of what somebody looks for, as they are looked up; the first of them where they are very
    many."""
    return list(dict.fromkeys(search_key(text).split()))[:MOST_WORDS]


def search_key(text: str) -> str:
    """Case folded, every run of what is neither letter nor digit one space."""
    folded = "".join(char if char.isalnum() else " " for char in text.casefold())
    return " ".join(folded.split())
