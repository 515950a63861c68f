"""A book of any size in a moment: a journal written line by line past the door, and every other row by rebuilding."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from repairlog.records import journal
from repairlog.records.rebuild import rebuild
from repairlog.records.store import Store, open_store
from tests.benchmarks.databases import Place
from tests.benchmarks.repairs import lots, whole_story
from tests.makers.book import Book, new_id, opened
from tests.makers.rulebooks import RULEBOOKS

TOGETHER = 2000
"""Lines of one commit."""


def rebuilt(at: Place, *, entries: int) -> tuple[str, Book]:
    """A book with at least that many entries, and its URL: whole stories of leaks, alike but for their ids and numbers.
    The book's store is closed.

    The first story goes through the door; the others are its lines under other names.
    """
    store = open_store(url := at.fresh(), rulebooks=RULEBOOKS)
    book = opened(store)
    story = _posted(store, book)
    with store.reading() as tx:
        missing = entries - journal.head(tx).size
    lines: list[dict[str, Any]] = []
    for number in range(-(-missing // len(story))):
        lines += _told_again(story, counter=number + 2)
        if len(lines) >= TOGETHER:
            _append(store, lines)
            lines = []
    _append(store, lines)
    rebuild(store)
    store.close()
    return url, book


def _posted(store: Store, book: Book) -> list[bytes]:
    used = lots(book)
    first = book.say(*whole_story(book, lots=used))[0].index
    with store.reading() as tx:
        return [line for _index, _id, line, _leaf in journal.lines(tx, first=first)]


def _told_again(story: list[bytes], *, counter: int) -> Iterator[dict[str, Any]]:
    ids = {json.loads(line)["said"]["id"]: new_id() for line in story}
    for line in story:
        text = line.decode()
        for old, new in ids.items():
            text = text.replace(old, new)
        sealed = json.loads(text)
        if "number" in sealed["understood"]:
            sealed["understood"] |= {"number": f"ES-26-{counter:04d}", "counter": counter}
        yield sealed


def _append(store: Store, lines: list[dict[str, Any]]) -> None:
    if lines:
        with store.writing() as tx:
            journal.append(tx, lines)
