"""Sealed entries about digs, places, ties and files that may never change: not one byte, in no release.

The same as `test_sealed.py` for the kinds that came with them; they stand in files of their own, after the book and the
leak of the first release.
"""

from __future__ import annotations

import json
from hashlib import sha256

import orjson
import pytest

import repairlog.units
from repairlog.entries import attached, dig, place, tied
from repairlog.entries.entry import from_sealed
from repairlog.intake import record
from repairlog.records import seal
from repairlog.records.tables.journal import JOURNAL
from repairlog.records.verify import verify
from tests.makers.copies import rows
from tests.records.post.test_sealed import SALT, SEALED, UNITS, actor, moments

CALLS = json.loads((SEALED / "digs" / "calls.json").read_text("utf-8"))
FROZEN = [line.split(b" ", 1) for line in (SEALED / "digs" / "lines.txt").read_bytes().splitlines()]
KINDS = {kind.name for module in (dig, place, tied, attached) for kind in module.KINDS}


def test_the_same_calls_about_digs_are_sealed_as_the_same_bytes_for_ever(store, monkeypatch):
    monkeypatch.setattr(seal, "new_salt", lambda: SALT)
    monkeypatch.setattr(repairlog.units, "TABLE_DIGEST", UNITS)
    for call in CALLS:
        record(store, call["entries"], actor=actor(call), moments=moments(call))
    assert [(row["leaf"].hex().encode(), row["line"]) for row in rows(store, JOURNAL)] == list(map(tuple, FROZEN))
    assert verify(store).problems == ()


@pytest.mark.parametrize("place_in_journal", range(len(FROZEN)))
def test_a_frozen_line_about_digs_is_under_its_leaf_and_still_read(place_in_journal):
    leaf, line = FROZEN[place_in_journal]
    assert sha256(b"\x00" + line).hexdigest().encode() == leaf
    assert seal.canonical(json.loads(line)) == line
    assert (from_sealed(orjson.loads(line)).index, from_sealed(orjson.loads(line)).said) == (
        place_in_journal,
        json.loads(line)["said"],
    )


def test_every_kind_about_digs_is_among_the_frozen_lines_with_every_field():
    said = [json.loads(line)["said"] for _leaf, line in FROZEN]
    later = (SEALED / "asked_for" / "lines.txt").read_bytes().splitlines()  # fields that came after the first release
    said += [json.loads(line.split(b" ", 1)[1])["said"] for line in later]
    found = {name: {key for each in said if each["kind"] == name for key in each} for name in KINDS}
    declared = {kind.name: kind for module in (dig, place, tied, attached) for kind in module.KINDS}
    lacking = {name: {f.name for f in declared[name].fields} - keys for name, keys in found.items()}
    assert {name: fields for name, fields in lacking.items() if fields} == {}
