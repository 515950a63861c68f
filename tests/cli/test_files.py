"""`repairlog files` and `repairlog journal verify --blobs`: what is missing, altered, or named by nothing."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path

import pytest

from repairlog import cli
from repairlog.records import blobs
from repairlog.records.beside.blobs import note_file
from repairlog.records.store import open_store
from repairlog.records.store.migrate import migrate
from tests.makers import book as m
from tests.makers import digs as d


@pytest.fixture
def url(tmp_path: Path) -> str:
    """A book in which two entries name files, and one file that nobody names."""
    address = f"sqlite:///{tmp_path}/book.db"
    migrate(address)
    store = open_store(address)
    book = m.opened(store)
    leak = m.leak(book)
    book.say(leak, d.attached(leak["id"]), d.attached(leak["id"], b"another"))
    folder = tmp_path / "book.db.files"
    lonely = blobs.put(folder, BytesIO(b"nobody's"), most=99)
    came = datetime.now(UTC) - timedelta(days=91)
    note_file(store, lonely, media_type="text/plain", person=book.crew.person, at=came)
    for content in (b"tag 31\n", b"another"):
        blobs.put(folder, BytesIO(content), most=99)
    store.close()
    return address


def told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = cli.run(words)
    return code, capsys.readouterr().out.strip()


def test_files_that_are_missing_or_altered_are_named(
    url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    verify = ("journal", "verify", "--blobs", "--database", url)
    assert told(capsys, *verify)[0] == 0
    first, second = (d.attached(m.new_id(), content)["digest"] for content in (b"tag 31\n", b"another"))
    blobs.take_away(tmp_path / "book.db.files", first)
    blobs.path_of(tmp_path / "book.db.files", second).write_bytes(b"another one")
    code, said = told(capsys, *verify, "--json")
    found = {(each["code"], each["digest"]) for each in json.loads(said)["problems"]}
    assert (code, found) == (1, {("file_missing", first), ("file_altered", second)})
    code, said = told(capsys, *verify)
    assert (code, f"file {second} was altered" in said, f"file {first} is missing" in said) == (1, True, True)
    assert told(capsys, *verify[:2], *verify[3:])[0] == 0


def test_files_that_no_entry_names_are_counted_and_deleted(
    url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    due = ("files", "due", "--database", url)
    assert told(capsys, *due) == (0, "1 file is due to be deleted")
    assert told(capsys, *due, "--delete", "--json") == (0, '{"files": 1, "deleted": true}')
    assert told(capsys, *due) == (0, "0 files are due to be deleted")
    left = [each for each in (tmp_path / "book.db.files" / "sha256").rglob("*") if each.is_file()]
    assert len(left) == 2
