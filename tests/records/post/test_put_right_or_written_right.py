"""An entry put right says what one written right from the start says: every kind, every field, rows too.

One book takes an entry as it was first typed and a correction of all that differs; another takes it written right.
Their facts and worked rows are the same, but for the marks. What an entry names is left as it is, and so is the number
that a leak bore before: the door gives one by the first that it is told.
"""

from __future__ import annotations

import random
import shutil
from itertools import count
from typing import Any

import pytest

from repairlog.entries.fields import EntryKind, Field
from repairlog.entries.kinds import DID, KEPT_AS_TEXT, KINDS, RIGHTING
from repairlog.intake.changes import changes_between
from repairlog.records.rebuild import check
from repairlog.records.store import Store, open_store
from repairlog.records.tables import of_kind
from repairlog.records.tables.facts import OF_KIND, OF_ROWS, WHO_DID
from tests.makers import book as m
from tests.makers.any_history import MEASURES
from tests.makers.copies import Copy, copy_of
from tests.makers.every_kind import every_kind
from tests.makers.once import anew
from tests.makers.rulebooks import RULEBOOKS

KNOWN = {
    "rulebook": ("saltmarsh-practice",),
    "digest": (m.PRACTICE,),
    "rule": ("repair-2", "permanent", "act-1"),
    "calendar": ("US-NY", "GB"),
}
"""Fields that hold what is known here, by name."""
MARKS = {"engine", "settings_version", "reporter_name_digest"}
"""What may tell the two apart: how many entries an area has, what its salt makes of a private value."""
EVERY = [
    kind
    for name, kind in KINDS.items()
    if name not in RIGHTING and (kind.folds_in in ("leak", "subject") or kind.opens in ("leak", "source"))
]
EVERY = [kind for kind in EVERY if kind.name != "attached"]  # its digest is no text that can be varied


def other(raw: dict[str, Any], kind: EntryKind, chance: random.Random) -> dict[str, Any]:
    """The entry with some of its fields said otherwise, left out or added, and a row more or less in its lists."""
    made = dict(raw)
    for field in kind.fields:
        if field.name not in ("number", "happened_known") and chance.random() < 0.9:
            made = _varied(made, field, chance)
    for rows in kind.rows:
        if rows is not KEPT_AS_TEXT and rows.name in raw:
            every = [_row(row, rows.fields, chance) for row in raw[rows.name]]
            made[rows.name] = every[1:] if len(every) > 1 and chance.random() < 0.4 else every
    if chance.random() < 0.5:
        made["did"] = [{"key": "d1", "named": "L. Farrow"}, {"key": "d9", "named": "a helper"}]
    return {name: value for name, value in made.items() if value is not None}


def _row(row: dict[str, Any], fields: tuple[Field, ...], chance: random.Random) -> dict[str, Any]:
    for field in fields:
        if field.name in row and field.name != "place" and chance.random() < 0.5:
            row = _varied(row, field, chance)
    return {name: value for name, value in row.items() if value is not None}


def _varied(said: dict[str, Any], field: Field, chance: random.Random) -> dict[str, Any]:
    if field.kind in ("ref", "entry", "hole"):
        return said
    if not field.required and field.name in said and chance.random() < 0.2:
        return said | {field.name: None}
    return said | {field.name: chance.choice(KNOWN[field.name]) if field.name in KNOWN else _value(field, chance)}


def _value(field: Field, chance: random.Random) -> str:
    if field.codes:
        return chance.choice(field.codes)
    if field.kind == "measure":
        return chance.choice(MEASURES[field.quantity])
    if field.kind == "when":
        return chance.choice(("2026-03-02", "2026-03-03 08:30", "2026-03-04 23:50"))
    if field.kind == "day":
        return chance.choice(("2026-03-02", "2026-12-31"))
    if field.kind == "whole":
        return str(chance.randint(field.least, min(field.most, field.least + 40)))
    return chance.choice(("Mill Lane", "ünder the path\nat the wall", "2"))[: field.longest]


def told_in(store: Store, *, kind: EntryKind, corrected: bool) -> tuple[Copy, bool]:
    """What the tables hold of an entry that was put right, or written right; whether anything of it was changed."""
    book = anew(m.opened)(store)
    first = every_kind(book)[kind.name]
    first = first | {"did": [{"key": "d1", "person": str(book.crew.person)}]}
    right = other(first, kind, random.Random(kind.name))
    changes = changes_between(kind, was=first, now=right)
    if corrected and changes:
        correction = {"kind": "corrected", "id": m.new_id(), "entry": first["id"], "reason": "misread"}
        book.say(first, correction | {"changes": changes})
    else:
        book.say(first if not changes else right)
    assert check(store).differences == ()
    own = [OF_KIND[kind.name], *(OF_ROWS[kind.name, rows.name] for rows in kind.rows if rows is not DID)]
    found = copy_of(store, *own, *of_kind("worked"), without=MARKS)
    who = copy_of(store, WHO_DID)[WHO_DID.name]
    return found | {"who": [row for row in who if row[0] == m.read_id(first["id"])]}, bool(changes)


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_an_entry_put_right_is_one_written_right(kind: EntryKind, sqlite_template: Any, tmp_path: Any) -> None:
    found = []
    for corrected in (True, False):
        store = open_store(
            f"sqlite:///{shutil.copy(sqlite_template, tmp_path / f'{corrected}.db')}", rulebooks=RULEBOOKS
        )
        with pytest.MonkeyPatch.context() as patched:
            patched.setattr(m, "_numbers", count(1))  # the same ids in every book
            found.append(told_in(store, kind=kind, corrected=corrected))
        store.close()
    (put_right, any_change), (written_right, _same) = found
    assert any_change
    assert put_right == written_right
