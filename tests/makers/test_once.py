"""A book that is copied is the one that was filled, and no test finds another's entries in it or loses its own."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from repairlog.intake import NotUnderstood
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.verify import verify
from tests.makers import book as m
from tests.makers.copies import changed, copy_of
from tests.makers.once import once
from tests.makers.rulebooks import RULEBOOKS


def test_a_copy_has_what_the_first_had_before_anything_was_said_in_it(sqlite_template: Path, tmp_path: Path) -> None:
    files = [shutil.copy(sqlite_template, tmp_path / f"{name}.db") for name in ("first", "second", "other")]
    first, second, other = (open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS) for file in files)
    opened = once(m.opened)
    book = opened(first)
    held = copy_of(first)
    book.say(m.leak(book))
    assert changed(held, copy_of(first)) >= {"leak", "journal"}

    copy = opened(second)
    assert (copy.store, copy.area, copy.crew) == (second, book.area, book.crew)
    assert changed(held, copy_of(second)) == set()
    assert (verify(second).problems, check(second).differences) == ((), ())
    copy.say(leak := m.leak(copy))
    with pytest.raises(NotUnderstood, match="operator_opened_already"):
        opened(second)
    assert [row[0] for row in copy_of(second)["leak"]] == [m.read_id(leak["id"])], "what was said is gone"

    assert opened(other).area == book.area
    for each in (first, second, other):
        each.close()
