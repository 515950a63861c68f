"""A file that no entry names is its sender's alone, and goes after 90 days."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path

import pytest

from repairlog.records import blobs
from repairlog.records.beside.blobs import drop_unnamed, is_own, named_files, note_file, unnamed
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import digs as d

CAME = datetime(2026, 3, 5, 12, tzinfo=UTC)


@pytest.mark.parametrize(("days", "goes"), [(89, False), (90, False), (91, True)])
def test_a_file_that_no_entry_names_goes_after_90_days(store: Store, tmp_path: Path, days: int, goes: bool) -> None:
    book = m.opened(store)
    leak = m.leak(book)
    named = d.attached(leak["id"])
    book.say(leak, named)
    files = [blobs.put(tmp_path, BytesIO(content), most=99) for content in (b"tag 31\n", b"nobody's")]
    for file in files:
        note_file(store, file, media_type="text/plain", person=book.crew.person, at=CAME)
    at = CAME + timedelta(days=days)
    assert unnamed(store, at=at) == ([files[1].digest] if goes else [])
    assert drop_unnamed(store, tmp_path, at=at) == int(goes)
    assert [blobs.is_here(tmp_path, each.digest) for each in files] == [True, not goes]
    assert [is_own(store, each.digest, person=book.crew.person) for each in files] == [True, not goes]
    assert named_files(store) == [named["digest"]]


def test_a_file_is_its_senders_and_nobody_elses_and_kept_from_when_it_came_last(store: Store, tmp_path: Path) -> None:
    book = m.opened(store)
    file = blobs.put(tmp_path, BytesIO(b"x"), most=1)
    for at in (CAME, CAME + timedelta(days=50)):
        note_file(store, file, media_type="text/plain", person=book.crew.person, at=at)
    assert is_own(store, file.digest, person=book.crew.person)
    assert not is_own(store, file.digest, person=book.supervisor.person)
    assert unnamed(store, at=CAME + timedelta(days=100)) == []
