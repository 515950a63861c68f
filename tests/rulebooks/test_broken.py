"""Rulebooks that are broken on purpose: each is told of with its line, its key, what came and what was expected."""

from __future__ import annotations

from pathlib import Path

import pytest

from repairlog.rulebooks import Shelf, shipped_shelf
from repairlog.rulebooks.shelf import shelf_of
from repairlog.words.rulebooks import wrong_line

BROKEN = sorted((Path(__file__).parent / "broken").glob("*.toml"))


@pytest.fixture(scope="module")
def shipped() -> Shelf:
    return shipped_shelf()


def told(file: str, raw: bytes, beside: Shelf) -> list[str]:
    return [wrong_line(wrong) for wrong in shelf_of([(file, raw)], beside=beside).wrongs]


@pytest.mark.parametrize("file", BROKEN, ids=[file.stem for file in BROKEN])
def test_a_broken_rulebook_is_told_of_in_the_expected_words(file, shipped):
    expected = file.with_suffix(".expected").read_text().splitlines()
    assert expected
    assert told(file.name, file.read_bytes(), shipped) == expected


def test_no_expected_words_lie_there_without_their_file():
    folder = BROKEN[0].parent
    assert {each.stem for each in folder.glob("*.expected")} == {each.stem for each in BROKEN}


def test_what_is_not_utf8_is_told_of_with_its_line(shipped):
    assert told("x.toml", b"id = 'x'\ntitle = '\xe9'\n", shipped) == [
        "x.toml:2: It is not in UTF-8 from here on; save it as UTF-8."
    ]


@pytest.mark.parametrize(("bytes_more", "lines"), [(-1, 0), (0, 0), (1, 1)])
def test_a_file_that_is_longer_than_any_rulebook_is_not_read(bytes_more, lines, shipped):
    head = b'id = "x"\ntitle = "T"\nauthority = "A"\nstatus = "in_force"\n'
    raw = head + b"#" * (1_000_000 - len(head) + bytes_more)
    assert len(told("x.toml", raw, shipped)) == lines


def test_two_texts_of_one_id_are_told_of(shipped):
    head = b'id = "x"\ntitle = "T"\nauthority = "A"\nstatus = "in_force"\n'
    wrongs = shelf_of([("a.toml", head), ("b.toml", head)], beside=shipped).wrongs
    assert [wrong_line(wrong) for wrong in wrongs] == [
        "b.toml:1: id: “x” is the id of a.toml already; give this one another."
    ]


def test_a_rulebook_that_extends_a_broken_one_is_not_blamed_for_it(shipped):
    broken = b'id = "base"\ntitle = "T"\nauthority = "A"\nstatus = "law"\n'
    whole = b'id = "own"\ntitle = "T"\nauthority = "A"\nstatus = "in_force"\nextends = ["base"]\n'
    shelf = shelf_of([("own.toml", whole), ("base.toml", broken)], beside=shipped)
    assert [(wrong.file, wrong.code) for wrong in shelf.wrongs if wrong.file == "base.toml"] == [
        ("base.toml", "not_one_of")
    ]
    assert "own" not in shelf.by_id


def test_two_rulebooks_that_extend_each_other_are_told_of_once(shipped):
    head = b'id = "%s"\ntitle = "T"\nauthority = "A"\nstatus = "in_force"\nextends = ["%s"]\n'
    shelf = shelf_of([("a.toml", head % (b"a", b"b")), ("b.toml", head % (b"b", b"a"))], beside=shipped)
    assert [wrong_line(wrong) for wrong in shelf.wrongs] == [
        "b.toml:5: extends: “a” extends this one, directly or through others; one of them must not."
    ]
    assert {"a", "b"} & set(shelf.by_id) == set()
