"""Text as it is looked up: what the table of streets holds, and what a part of a street's name is made into."""

from __future__ import annotations


def search_key(text: str) -> str:
    """Case folded, every run of what is neither letter nor digit one space."""
    folded = "".join(char if char.isalnum() else " " for char in text.casefold())
    return " ".join(folded.split())
