"""The demo's files are read whole or not at all: every fault is told with its place, all of them at once."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from repairlog.cli.demo.player import play, roles_in, saves
from repairlog.cli.demo.sign_ins import let_in, passwords_told
from repairlog.cli.demo.told import BookUnclear
from repairlog.entries.entry import Moments
from repairlog.entries.moments import moment_text, read_moment

NOW = datetime(2026, 11, 20, 15, tzinfo=UTC)
BOOK = """
[[save]]
when = "2024-01-02 09:00"
by = "R. Tolland"
sure = "system"
operator_opened = { name = "Saltmarsh Gas", zone = "America/New_York" }
area_opened = { name = "Eastmarsh", code = "ES", zone = "America/New_York" }
person_added = [
  { name = "R. Tolland", roles = [{ role = "administrator", from_on = "2024-01-02" }] },
  { name = "M. Aldous", roles = [{ role = "crew", area = "ES", from_on = "2024-01-02" }] },
]
"""
LEAK = """
area = "ES"
[[save]]
when = "9 days ago 08:00"
by = "M. Aldous"
leak_opened = { street = "Quarry Lane" }
"""
SAVE = """
[[save]]
when = "8 days ago 08:00"
by = "M. Aldous"
"""


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "book.toml").write_text(BOOK)
    return tmp_path


def faults(folder, text="", *, name="leak.toml"):
    (folder / name).write_text(text)
    with pytest.raises(BookUnclear) as unclear:
        saves(folder, now=NOW)
    return unclear.value.faults


def read(folder, text):
    """The raw entries of the last save of a leak's file."""
    (folder / "leak.toml").write_text(LEAK + SAVE + text)
    return saves(folder, now=NOW)[-1].entries


def test_names_become_ids_rows_get_keys_and_short_readings_stand_among_the_readings(folder):
    entries = read(
        folder,
        """
[save.visit]
purpose = "re_evaluation"
outcome = "looked"
did = ["M. Aldous", { named = "R. Sandoe" }]
places = [
  { kind = "bar_hole", label = "at the wall", reads = "0 %LEL", peak = "2 %LEL" },
  { kind = "vault" },
  { kind = "bar_hole", reads = "5 %LEL" },
]
readings = [{ place = "p2", value = "35 ppm CO" }]
[save.grade_set]
happened = "08:20"
grade = "2"
""",
    )
    visit, grade = entries
    by_name = {raw["name"]: raw["id"] for raw in saves(folder, now=NOW)[0].entries}
    assert visit["did"] == [{"key": "d1", "person": by_name["M. Aldous"]}, {"key": "d2", "named": "R. Sandoe"}]
    assert visit["places"] == [
        {"key": "p1", "kind": "bar_hole", "label": "at the wall"},
        {"key": "p2", "kind": "vault"},
        {"key": "p3", "kind": "bar_hole"},
    ]
    assert visit["readings"] == [
        {"key": "r1", "place": "p2", "value": "35 ppm CO"},
        {"key": "r2", "place": "p1", "kind": "sustained", "value": "0 %LEL"},
        {"key": "r3", "place": "p1", "kind": "peak", "value": "2 %LEL"},
        {"key": "r4", "place": "p3", "kind": "sustained", "value": "5 %LEL"},
    ]
    assert visit["leak"] == grade["leak"] == saves(folder, now=NOW)[1].entries[0]["id"]
    assert (visit["happened"], grade["happened"]) == ("2026-11-12 08:00", "2026-11-12 08:20")


def test_a_bar_hole_is_named_by_its_number_among_those_that_the_file_tells_of(folder):
    first, again = (
        "[save.visit]\nplaces = [{ kind = 'vault' }, { kind = 'bar_hole' }]\n",
        "{ kind = 'bar_hole', same_as = %d }",
    )
    second = f"[save.visit]\nplaces = [{again % 1}, {{ kind = 'bar_hole' }}]\n"
    third = f"[save.visit]\nplaces = [{again % 2}, {again % 1}]\n"
    (visit,) = read(folder, first + SAVE + second + SAVE + third)
    ids = [save.entries[0]["id"] for save in saves(folder, now=NOW)[2:]]
    assert [place["same_as"] for place in visit["places"]] == [f"{ids[1]}/p2", f"{ids[0]}/p2"]


def test_the_save_that_opens_the_book_comes_from_no_device(folder):
    (opening,) = saves(folder, now=NOW)
    assert opening.moments == Moments(received=datetime(2024, 1, 2, 14, tzinfo=UTC))
    assert [raw for raw in opening.entries if "written" in raw] == []


def test_a_correction_names_what_it_puts_in_as_the_entry_itself_would(folder):
    (correction,) = read(
        folder,
        """
[save.corrected]
entry = "leak_opened 1"
reason = "misread"
changes = [
  { field = "area", to = "ES" },
  { field = "happened", to = "10 days ago" },
  { field = "town" },
  { field = "street", to = "ES" },
]
""",
    )
    area = next(raw["id"] for raw in saves(folder, now=NOW)[0].entries if raw["kind"] == "area_opened")
    assert [row.get("to") for row in correction["changes"]] == [area, "2026-11-10", None, "ES"]
    assert correction["entry"] == saves(folder, now=NOW)[1].entries[0]["id"]
    assert "happened" not in correction


def test_the_same_files_give_the_same_ids_whenever_they_are_played(folder):
    (folder / "leak.toml").write_text(LEAK)
    ids = [
        [raw["id"] for save in saves(folder, now=at) for raw in save.entries]
        for at in (NOW, datetime(2026, 12, 24, 15, tzinfo=UTC))
    ]
    assert ids[0] == ids[1]
    assert len(set(ids[0])) == 5


def test_nothing_comes_in_later_than_the_demo_s_own_moment(folder):
    (folder / "leak.toml").write_text(LEAK.replace("9 days ago 08:00", "1 minutes ago"))
    (last,) = saves(folder, now=NOW)[1:]
    assert (last.moments.received, last.entries[0]["happened"]) == (NOW, "2026-11-20 09:59")
    assert last.entries[0]["written"] < "2026-11-20T15:00:01.000Z"


@pytest.mark.parametrize(
    ("said", "written", "received"),
    [
        ('written = "7 days ago 07:00"', "2026-11-13T12:00", "2026-11-13T12:00"),
        ('received = "8 days ago 18:00"', "2026-11-12T13:0", "2026-11-12T23:00"),
    ],
)
def test_a_save_may_say_that_it_was_written_or_came_in_later(folder, said, written, received):
    (entry,) = read(folder, said + '\nnote = { text = "late" }')
    (_book, _leak, save) = saves(folder, now=NOW)
    truly = read_moment(entry["written"]) - timedelta(milliseconds=save.moments.offset_ms)
    assert moment_text(truly).startswith(written)
    assert moment_text(save.moments.received).startswith(received)
    assert abs(save.moments.offset_ms) <= 128


def test_everything_that_cannot_be_read_is_told_at_once_with_its_place(folder):
    text = LEAK + SAVE
    text += """
repair_attempted = { source = 1, lasting = "permanent", outcome = "tight", materials = [{ lot = "W-9" }] }
tested = { attempt = 2, happened = "noon" }
visit = { typed = "M. Aldus", places = [{ kind = "bar_hole", same_as = 7 }] }
"""
    told = faults(folder, text)
    assert [fault.partition(": ")[0] + ": " + fault.split(": ")[1] for fault in told] == [
        "leak.toml, save 2, repair_attempted: source",
        "leak.toml, save 2, repair_attempted: materials.m1.lot",
        "leak.toml, save 2, tested: attempt",
        "leak.toml, save 2, tested: happened",
        "leak.toml, save 2, visit: typed",
        "leak.toml, save 2, visit: places.p1.same_as",
    ]
    assert told[4].endswith("nothing is called “M. Aldus” here; known are: M. Aldous, R. Tolland")
    assert "“noon” is no day; a day is told as “12 days ago”" in told[3]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("area = ", "leak.toml: Invalid value (at end of document)"),
        ('saves = "x"', "leak.toml: “saves” is not known; a file of the demo has “area” and a list of [[save]]"),
        ('area = "XX"' + SAVE, "leak.toml, save 1: nothing is called “XX” here; known are: ES"),
        ('[[save]]\nwhen = "1 day ago"', "leak.toml, save 1: “by” is missing"),
        ('[[save]]\nby = "M. Aldous"', "leak.toml, save 1: “when” is missing"),
        (SAVE.replace("M. Aldous", "M. Aldus"), "leak.toml, save 1: nothing is called “M. Aldus” here"),
        (SAVE.replace("8 days ago", "8 days before"), "leak.toml, save 1: when: “8 days before 08:00” is no day"),
        (
            SAVE + 'person_added = { name = "R. Tolland" }',
            "leak.toml, save 1, person_added: “R. Tolland” is there twice",
        ),
        (
            SAVE + 'visits = { purpose = "x" }',
            "leak.toml, save 1: “visits” is no table of a kind of entry; a save has:",
        ),
        (SAVE + 'visit = "x"', "leak.toml, save 1: “visit” is no table of a kind of entry; a save has: when"),
    ],
)
def test_a_file_that_is_not_what_it_should_be_is_told(folder, text, fault):
    assert [each[: len(fault)] for each in faults(folder, text)][:1] == [fault]


def test_what_the_door_sends_back_is_told_with_its_place(folder, sqlite_store):
    (folder / "leak.toml").write_text(
        LEAK + SAVE + 'repair_attempted = { lasting = "for good", pressure_found = "45 psy" }'
    )
    with pytest.raises(BookUnclear) as unclear:
        play(sqlite_store, ready := saves(folder, now=NOW), roles=roles_in(ready))
    places = [fault.split(": ")[:2] for fault in unclear.value.faults]
    where = "leak.toml, save 2, repair_attempted"
    assert sorted(places) == [[where, "lasting"], [where, "outcome"]]


def test_whoever_may_not_post_it_is_told(folder, sqlite_store):
    (folder / "leak.toml").write_text(LEAK + SAVE + 'leak_ended = { how = "no_reading" }')
    with pytest.raises(BookUnclear) as unclear:
        play(sqlite_store, ready := saves(folder, now=NOW), roles=roles_in(ready))
    assert unclear.value.faults[0].startswith("leak.toml, save 2, leak_ended: ")


def test_what_hangs_on_a_leak_that_came_later_is_told(folder, sqlite_store):
    text = LEAK.replace("9 days", "7 days") + SAVE + 'note = { text = "too early" }'
    (folder / "leak.toml").write_text(text)
    with pytest.raises(BookUnclear) as unclear:
        play(sqlite_store, ready := saves(folder, now=NOW), roles=roles_in(ready))
    assert unclear.value.faults[0].startswith("leak.toml, save 2, note: ")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ('[[sign_in]]\nname = "M. Aldous"', "sign_ins.toml, sign_in 1: it has “name” and “password”"),
        ("x", "sign_ins.toml: Expected '=' after a key in a key/value pair (at end of document)"),
    ],
)
def test_sign_ins_that_cannot_be_read_are_told(folder, text, fault):
    (folder / "sign_ins.toml").write_text(text)
    with pytest.raises(BookUnclear) as unclear:
        passwords_told(folder)
    assert unclear.value.faults == [fault]


def test_a_sign_in_of_nobody_on_the_books_is_told(sqlite_store):
    with pytest.raises(BookUnclear) as unclear:
        let_in(sqlite_store, {}, passwords={"M. Aldus": "demo a b c"}, at=NOW)
    assert unclear.value.faults == ["sign_ins.toml: nobody on the books is named “M. Aldus”"]
