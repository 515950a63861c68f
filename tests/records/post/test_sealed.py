"""Sealed examples that may never change: not one byte, in no release.

`sealed/calls.json` holds calls to the door with every id, clock and salt fixed; `sealed/lines.txt` the lines that they
became in the first release, each after its leaf. A line that differs means that books already sealed would no longer
be written, compared or read as they were: put the code right, never the file. Kinds that came later, and a new version
of a kind, may get a folder of their own beside these: its calls are posted to the book that the first two calls open.
"""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

import orjson
import pytest

import repairlog.units
from repairlog.access import Actor, Membership
from repairlog.entries.entry import Moments, from_sealed
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.moments import read_moment
from repairlog.intake import record
from repairlog.records import seal
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.tables.journal import HEAD, JOURNAL
from repairlog.records.verify import verify
from tests.makers.copies import rows

SEALED = Path(__file__).parent / "sealed"
CALLS = json.loads((SEALED / "calls.json").read_text("utf-8"))
FROZEN = [line.split(b" ", 1) for line in (SEALED / "lines.txt").read_bytes().splitlines()]
BOOK = CALLS[:2]
"""What opens the book and its first leak: what came later stands on these alone, whatever is added behind them."""

LATER = sorted(folder for folder in SEALED.iterdir() if folder.is_dir())
UNITS = "58a6407b7d1185f3a192534846d3c9d58237343c82e16c54638b5542fa0f4752"
ROOT = "bde3cea6948f7863b362174d95e6aa6853d7e9924b5cc0017fc347336adb242e"
SALT = bytes(range(32))


def actor(call):
    held = Membership(role="crew", area=None, from_on="2025-01-02")
    roles = () if call["sure"] == "system" else (held,)
    return Actor(person=read_id(call["by"]), sure=call["sure"], memberships=roles, signed_in_on="2025-01-02")


def moments(call):
    sent = read_moment(call["sent"]) if "sent" in call else None
    return Moments(received=read_moment(call["received"]), sent=sent, offset_ms=call.get("offset_ms"))


@pytest.fixture
def as_then(monkeypatch):
    """What chance and a later release bring to a line: a salt, and the digest of a table of units that only grows.

    Both are put in as they were then, so that all else can be asked to be the same.
    """
    monkeypatch.setattr(seal, "new_salt", lambda: SALT)
    monkeypatch.setattr(repairlog.units, "TABLE_DIGEST", UNITS)


def post_all(store, calls=CALLS):
    for call in calls:
        record(store, call["entries"], actor=actor(call), moments=moments(call))


def test_the_same_calls_are_sealed_as_the_same_bytes_under_the_same_leaves_for_ever(store, as_then):
    post_all(store)
    lines = [(row["leaf"].hex().encode(), row["line"]) for row in rows(store, JOURNAL)]
    assert lines == [(leaf, line) for leaf, line in FROZEN]
    assert [row["root"].hex() for row in rows(store, HEAD)] == [ROOT]
    assert verify(store).problems == ()


@pytest.mark.parametrize("folder", LATER, ids=lambda folder: folder.name)
def test_what_came_later_is_sealed_as_the_same_bytes_in_the_book_of_the_first(store, as_then, folder):
    post_all(store, [*BOOK, *json.loads((folder / "calls.json").read_text("utf-8"))])
    lines = [(row["leaf"].hex().encode(), row["line"]) for row in rows(store, JOURNAL)]
    own = [tuple(line.split(b" ", 1)) for line in (folder / "lines.txt").read_bytes().splitlines()]
    assert lines[-len(own) :] == own
    assert verify(store).problems == ()


def test_the_private_values_of_the_examples_stand_beside_with_their_salt(store, as_then):
    post_all(store)
    kept = [(r["path"], r["value"], r["salt"], r["digest"]) for r in rows(store, PRIVATE_VALUE)]
    assert kept == [
        ("reporter_name", "J. Thwaité", SALT, sha256(SALT + "J. Thwaité".encode()).hexdigest()),
        ("changes.c1.to", "J. Thwaites", SALT, sha256(SALT + b"J. Thwaites").hexdigest()),
    ]
    assert b"Thwait" not in b"".join(line for _leaf, line in FROZEN)


@pytest.mark.parametrize("place", range(len(FROZEN)))
def test_a_frozen_line_is_under_its_leaf_canonical_and_still_read(place):
    leaf, line = FROZEN[place]
    assert sha256(b"\x00" + line).hexdigest().encode() == leaf
    assert seal.canonical(json.loads(line)) == line
    read, sealed = from_sealed(orjson.loads(line)), json.loads(line)
    assert (read.index, read.id, read.kind) == (place, read_id(sealed["said"]["id"]), sealed["said"]["kind"])
    assert read.said == sealed["said"]
    assert (read.understood, read.by, read.moments) == (sealed["understood"], sealed["by"], sealed["moments"])
    assert dict(read.private) == sealed.get("private", {})


def test_every_kind_is_among_the_frozen_lines_in_its_first_version():
    later = [line.split(b" ", 1)[1] for folder in LATER for line in (folder / "lines.txt").read_bytes().splitlines()]
    said = [json.loads(line)["said"] for line in (*later, *(line for _leaf, line in FROZEN))]
    assert {(each["kind"], each["version"]) for each in said} == {(kind, 1) for kind in KINDS}
