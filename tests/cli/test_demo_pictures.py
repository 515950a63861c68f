"""The demo's photographs: drawn from a seed, small, named by their entries, and there to be seen."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from repairlog.app import create_app
from repairlog.cli.demo.pictures.drawn import PICTURES, drawn
from repairlog.cli.demo.player import saves
from repairlog.cli.demo.told import BookUnclear
from repairlog.records.beside.blobs import named_files, unnamed
from repairlog.records.blobs import media_type_of, state_of
from repairlog.records.store import open_store
from repairlog.records.tables.beside import BLOB
from repairlog.records.tables.facts import OF_KIND
from repairlog.settings import Settings
from tests.cli.test_demo_told import BOOK, LEAK, NOW, SAVE
from tests.makers.copies import rows
from tests.makers.site import TOKEN


@pytest.mark.parametrize("kind", PICTURES)
def test_a_picture_is_small_the_same_for_one_seed_and_another_for_another(kind):
    content = drawn(kind, seed="1")
    image = Image.open(BytesIO(content))
    assert (image.format, image.size, len(content) < 40_000) == ("JPEG", (480, 360), True)
    assert len(image.getcolors(maxcolors=1 << 20)) > 1000
    assert drawn(kind, seed="1") == content
    assert drawn(kind, seed="2") != content


def test_a_picture_that_nobody_draws_is_told_with_those_that_are_drawn(tmp_path):
    (tmp_path / "book.toml").write_text(BOOK)
    (tmp_path / "leak.toml").write_text(LEAK + SAVE + '[save.attached]\npicture = "sunset"\n')
    with pytest.raises(BookUnclear) as unclear:
        saves(tmp_path, now=NOW)
    known = "clamp, coupling, dig, meter_set, pipe, tape, valve"
    assert unclear.value.faults == [
        f"leak.toml, save 2, attached: nobody draws “sunset”; known are: {known}",
    ]


def test_every_picture_of_the_demo_lies_beside_it_as_its_entry_says(sqlite_demo):
    store, folder = open_store(sqlite_demo.url), Settings(database_url=sqlite_demo.url).files
    told = rows(store, OF_KIND["attached"])
    pictures = {row["digest"]: row for row in told if row["media_type"] == "image/jpeg"}
    assert len(pictures) >= 10
    for digest, row in pictures.items():
        assert (state_of(folder, digest), media_type_of(folder, digest)) == ("here", "image/jpeg"), row["name"]
    sent = {(row["digest"], row["length"]) for row in rows(store, BLOB)}
    assert sent == {(row["digest"], row["length"]) for row in told}
    (tag,) = (row["digest"] for row in told if row["name"] == "tag.txt")
    assert set(named_files(store)) - pictures.keys() == {tag}
    assert (state_of(folder, tag), media_type_of(folder, tag)) == ("here", "text/plain")
    assert unnamed(store, at=NOW) == []
    store.close()


def test_a_crew_sees_the_picture_on_the_sheet_of_its_leak(sqlite_demo):
    store = open_store(sqlite_demo.url)
    attached = next(row for row in rows(store, OF_KIND["attached"]) if row["caption"] == "the opening in the lane")
    store.close()
    app = create_app(Settings(database_url=sqlite_demo.url))
    client, crew = app.test_client(), sqlite_demo.signs_in("crew")
    token = TOKEN.search(client.get("/sign-in").text)[1]
    client.post("/sign-in", data={"name": crew["name"], "password": crew["password"], "csrf_token": token})
    assert f"/files/{attached['digest']}/picture" in client.get(f"/leaks/{attached['subject_id']}").text
    shown = client.get(f"/files/{attached['digest']}/picture")
    assert (shown.status_code, shown.content_type, shown.data[:3]) == (200, "image/jpeg", b"\xff\xd8\xff")
    shown.close()
    app.extensions["repairlog.store"].close()


def test_a_demo_that_is_moved_aside_takes_its_pictures_along(say, sqlite_demo, tmp_path):
    there = sorted(file.name for file in (tmp_path / "demo.db.files").rglob("*") if file.is_file())
    assert say("demo", "--no-serve", "--years", "0", "--at", str(tmp_path), "--fresh").code == 0
    (aside,) = tmp_path.glob("demo-*.db.files")
    assert sorted(file.name for file in Path(aside).rglob("*") if file.is_file()) == there
    assert any((tmp_path / "demo.db.files").rglob("*"))
