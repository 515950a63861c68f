"""Whatever its owner does to the journal past the triggers is named, or belies a head that was noted before."""

from __future__ import annotations

import random
from hashlib import sha256

import pytest

from repairlog.records import seal
from repairlog.records.journal import HeadMissing
from repairlog.records.verify import Noted, Problem, Verified, head, verify
from tests.makers import book
from tests.makers.cells import do
from tests.makers.owner import drop_triggers, line_at, put_line, set_head
from tests.makers.sealed import tree_of


@pytest.fixture
def open_book(store):
    """A book of some twenty lines."""
    made = book.opened(store)
    leak = book.leak(made, reporter_name="J. Penrose")
    attempt = book.attempt(leak["id"])
    made.say(leak, book.visit(leak["id"]), book.source(leak["id"]), book.grade(leak["id"]), attempt)
    made.say(book.test_of(leak["id"], attempt["id"]), book.review(leak["id"], attempt["id"]))
    made.say(book.ending(leak["id"], [attempt["id"]]), book.corrected(leak["id"], ("street", "Mill Lane")))
    return made


def lines(store):
    return [line_at(store, index) for index in range(head(store).size)]


def noted(store):
    now = head(store)
    return Noted(now.size, now.root)


def codes(verified):
    """What was found of lines, and what of the head."""
    of_lines = [(problem.code, problem.index) for problem in verified.problems if problem.index is not None]
    return of_lines, [problem.code for problem in verified.problems if problem.index is None]


def test_a_journal_as_it_was_posted_holds_with_the_root_of_its_lines(open_book):
    every = lines(open_book.store)
    root = seal.root(tree_of(every))
    assert verify(open_book.store) == Verified(len(every), root, ())
    assert verify(open_book.store, against=noted(open_book.store)) == Verified(len(every), root, ())


def test_an_empty_journal_holds_with_the_root_of_nothing(store):
    # RFC 9162 section 2.1.1: the hash of an empty list is the hash of an empty string.
    empty = sha256(b"").digest()
    assert verify(store) == verify(store, against=Noted(0, empty)) == Verified(0, empty, ())
    assert [each.code for each in verify(store, against=Noted(1, empty)).problems] == ["shorter_than_noted"]


def test_every_head_that_was_ever_noted_holds_after_more_posts(store):
    heads = [noted(store)]
    made = book.opened(store)
    for _ in range(4):
        heads.append(noted(store))
        leak = book.leak(made)
        made.say(leak, book.grade(leak["id"]))
    for each in [*heads, noted(store)]:
        assert verify(store, against=each).problems == ()
        other = Noted(each.size, bytes([each.root[0] ^ 1]) + each.root[1:])
        assert codes(verify(store, against=other)) == ([], ["not_the_noted_journal"])


def test_every_single_byte_of_a_line_that_is_another_is_named(open_book):
    """Each byte of one line in turn, every bit of it turned: of all else, nothing is said but of the root."""
    store, index = open_book.store, 9
    drop_triggers(store)
    line = line_at(store, index)
    size = len(line) if store.dialect == "sqlite" else 40  # there the bytes go the same way
    for place in random.Random(index).sample(range(len(line)), k=size):
        altered = line[:place] + bytes([line[place] ^ 0xFF]) + line[place + 1 :]
        put_line(store, index, altered)
        found = verify(store)
        named = Problem(code="line_altered", index=index, stands=seal.leaf(altered).hex(), should=seal.leaf(line).hex())
        assert named in found.problems, place
        assert {problem.index for problem in found.problems} == {index, None}
    put_line(store, index, line)
    assert verify(store).problems == ()


def test_a_byte_of_any_line_that_is_another_is_named(open_book):
    store, chance = open_book.store, random.Random(7)
    drop_triggers(store)
    for index, line in enumerate(lines(store)):
        place = chance.randrange(len(line))
        put_line(store, index, line[:place] + bytes([line[place] ^ 1 << chance.randrange(8)]) + line[place + 1 :])
        assert ("line_altered", index) in codes(verify(store))[0]
        put_line(store, index, line)


@pytest.mark.parametrize("altered", [b"", b"{}", b"\x00\xff"], ids=["empty", "other", "no-text"])
def test_a_line_that_is_something_else_altogether_is_named(open_book, altered):
    drop_triggers(open_book.store)
    put_line(open_book.store, 5, altered)
    of_lines = [("line_altered", 5), ("id_altered", 5), ("line_of_another_place", 5)]
    assert codes(verify(open_book.store)) == (of_lines, ["root_differs", "peaks_differ"])


@pytest.mark.parametrize("place", range(32))
def test_a_byte_of_a_leaf_that_is_another_is_named(sqlite_store, place):
    book.opened(sqlite_store)
    drop_triggers(sqlite_store)
    leaf = seal.leaf(line_at(sqlite_store, 3))
    altered = leaf[:place] + bytes([leaf[place] ^ 1]) + leaf[place + 1 :]
    do(sqlite_store, "UPDATE journal SET leaf = ? WHERE journal_index = 3", altered)
    problem = Problem(code="line_altered", index=3, stands=leaf.hex(), should=altered.hex())
    assert verify(sqlite_store).problems == (problem,)


def test_a_leaf_or_an_id_that_is_another_is_named(open_book):
    store = open_book.store
    drop_triggers(store)
    leaf = seal.leaf(line_at(store, 3))
    do(store, "UPDATE journal SET leaf = ? WHERE journal_index = 3", leaf[::-1])
    assert codes(verify(store)) == ([("line_altered", 3)], [])
    do(store, "UPDATE journal SET leaf = ? WHERE journal_index = 3", leaf)
    other = book.read_id(book.new_id())
    do(store, "UPDATE journal SET id = ? WHERE journal_index = 4", other.bytes if store.dialect == "sqlite" else other)
    assert codes(verify(store)) == ([("id_altered", 4)], [])


@pytest.mark.parametrize(
    ("column", "value", "named"),
    [
        ("id", "019cbe95-c5c4-7000-8000-000000000003", ("id_altered", 3)),
        ("id", b"short", ("id_altered", 3)),
        ("id", 3, ("id_altered", 3)),
        ("line", "text", ("line_no_bytes", 3)),
        ("line", 7, ("line_no_bytes", 3)),
        ("leaf", "text", ("line_altered", 3)),
        ("leaf", 7, ("line_altered", 3)),
        ("journal_index", "three", ("line_missing", 3)),
        ("journal_index", 3.5, ("line_missing", 3)),
        ("journal_index", -3, ("line_missing", 3)),
    ],
)
def test_a_cell_of_another_type_which_sqlite_lets_stand_is_named(sqlite_store, column, value, named):
    book.opened(sqlite_store)
    drop_triggers(sqlite_store)
    do(sqlite_store, f"UPDATE journal SET {column} = ? WHERE journal_index = 3", value)
    assert named in codes(verify(sqlite_store))[0]


@pytest.mark.parametrize("as_text", [str, lambda id: id.hex, lambda id: f"{{{id}}}"])
def test_the_right_id_kept_as_text_is_named(sqlite_store, as_text):
    made = book.opened(sqlite_store)
    drop_triggers(sqlite_store)
    operator = book.read_id(made.operator)
    do(sqlite_store, "UPDATE journal SET id = ? WHERE journal_index = 0", as_text(operator))
    assert codes(verify(sqlite_store)) == ([("id_altered", 0)], [])


def test_the_same_bytes_kept_as_text_are_named(sqlite_store):
    """They read the same and hash the same; but the journal keeps bytes, and somebody was at it."""
    book.opened(sqlite_store)
    drop_triggers(sqlite_store)
    do(sqlite_store, "UPDATE journal SET line = CAST(line AS TEXT) WHERE journal_index = 3")
    do(sqlite_store, "UPDATE journal SET line = CAST(x'ff00fe' AS TEXT) WHERE journal_index = 4")
    of_lines = [("line_no_bytes", 3), ("line_no_bytes", 4), ("line_altered", 4), ("id_altered", 4)]
    assert codes(verify(sqlite_store))[0] == [*of_lines, ("line_of_another_place", 4)]


def test_two_lines_in_each_other_s_place_are_named(open_book):
    store = open_book.store
    drop_triggers(store)
    for was, now in ((4, 1000), (6, 4), (1000, 6)):
        do(store, "UPDATE journal SET journal_index = ? WHERE journal_index = ?", now, was)
    of_lines = [("line_of_another_place", 4), ("line_of_another_place", 6)]
    assert codes(verify(store)) == (of_lines, ["root_differs", "peaks_differ"])


def test_a_line_taken_from_the_middle_is_named_once(open_book):
    store = open_book.store
    drop_triggers(store)
    do(store, "DELETE FROM journal WHERE journal_index = 4")
    assert codes(verify(store)) == ([("line_missing", 4)], ["size_differs", "root_differs", "peaks_differ"])


def test_a_line_taken_from_the_middle_is_named_where_the_rest_was_moved_up(open_book):
    """With the head set to what is left: every line that was moved up says that it was sealed for another place."""
    store = open_book.store
    drop_triggers(store)
    size = head(store).size
    do(store, "DELETE FROM journal WHERE journal_index = 4")
    for index in range(5, size):
        do(store, "UPDATE journal SET journal_index = ? WHERE journal_index = ?", index - 1, index)
    set_head(store, [line_at(store, index) for index in range(size - 1)])
    assert codes(verify(store)) == ([("line_of_another_place", index) for index in range(4, size - 1)], [])


def test_lines_cut_off_the_end_are_found_by_the_head(open_book):
    store = open_book.store
    drop_triggers(store)
    size = head(store).size
    do(store, "DELETE FROM journal WHERE journal_index >= ?", size - 2)
    found = verify(store)
    assert found.problems[0] == Problem(code="size_differs", stands=str(size - 2), should=str(size))
    assert codes(found) == ([], ["size_differs", "root_differs", "peaks_differ"])


def test_lines_cut_off_with_the_head_set_back_belie_a_head_that_was_noted_before(open_book):
    store = open_book.store
    drop_triggers(store)
    before = noted(store)
    do(store, "DELETE FROM journal WHERE journal_index >= ?", before.size - 2)
    set_head(store, [line_at(store, index) for index in range(before.size - 2)])
    assert verify(store).problems == ()
    assert verify(store, against=before).problems == (
        Problem(code="shorter_than_noted", stands=str(before.size - 2), should=str(before.size)),
    )


def test_a_line_sealed_anew_with_its_leaf_and_the_head_belies_a_head_that_was_noted_before(open_book):
    store = open_book.store
    drop_triggers(store)
    before, after = noted(store), lines(store)
    after[8] = after[8].replace(b"Quarry Lane", b"Quarry Lawn")
    assert after[8] != line_at(store, 8)
    put_line(store, 8, after[8])
    assert codes(verify(store)) == ([("line_altered", 8)], ["root_differs", "peaks_differ"])
    do(store, "UPDATE journal SET leaf = ? WHERE journal_index = 8", seal.leaf(after[8]))
    assert codes(verify(store)) == ([], ["root_differs", "peaks_differ"])
    set_head(store, after)
    assert verify(store).problems == ()
    assert codes(verify(store, against=before)) == ([], ["not_the_noted_journal"])
    assert verify(store, against=Noted(8, seal.root(tree_of(after[:8])))).problems == ()


@pytest.mark.parametrize(("column", "code"), [("root", "root_differs"), ("peaks", "peaks_differ")])
@pytest.mark.parametrize("byte", [0, 17, 31])
def test_a_byte_of_the_head_that_is_another_is_named(open_book, column, code, byte):
    store = open_book.store
    drop_triggers(store)
    with store.reading() as tx:
        stood = bytes(tx.connection.exec_driver_sql(f"SELECT {column} FROM head").scalar_one())
    altered = stood[:byte] + bytes([stood[byte] ^ 1]) + stood[byte + 1 :]
    do(store, f"UPDATE head SET {column} = ?", altered)
    assert verify(store).problems == (Problem(code=code, stands=stood.hex(), should=altered.hex()),)


@pytest.mark.parametrize("off", [-1, 1])
def test_a_size_of_the_head_that_is_another_is_named(open_book, off):
    store = open_book.store
    drop_triggers(store)
    size = head(store).size
    do(store, "UPDATE head SET size = ?", size + off)
    assert verify(store).problems == (Problem(code="size_differs", stands=str(size), should=str(size + off)),)


def test_text_in_the_head_which_sqlite_lets_stand_is_named(sqlite_store):
    book.opened(sqlite_store)
    drop_triggers(sqlite_store)
    do(sqlite_store, "UPDATE head SET size = 'many', peaks = CAST(x'ff' AS TEXT), root = CAST(root AS INTEGER)")
    assert codes(verify(sqlite_store)) == ([], ["size_differs", "root_differs", "peaks_differ"])


def test_a_head_that_was_taken_away_is_named_and_nothing_can_be_told_of_it(open_book):
    store = open_book.store
    drop_triggers(store)
    do(store, "DELETE FROM head")
    assert verify(store).problems == (Problem(code="head_missing", stands="0", should="1"),)
    with pytest.raises(HeadMissing):
        head(store)


def test_the_text_of_an_adopted_rulebook_that_is_another_or_gone_is_named(store):
    """A rulebook that extends another: what is extended is kept, too, and missed."""
    made = book.opened(store)
    proposal = {"rulebook": "saltmarsh-proposal", "digest": book.PROPOSAL, "although_proposed": "yes"}
    made.say(book.adopted(made.area, **proposal), book.leak(made))
    assert verify(store).problems == ()
    drop_triggers(store)
    do(store, "UPDATE rulebook_text SET text = text || '#' WHERE id = 'saltmarsh-practice'")
    (altered,) = verify(store).problems
    assert (altered.code, altered.index, altered.should) == ("rulebook_altered", None, book.PRACTICE)
    do(store, "DELETE FROM rulebook_text WHERE id = 'saltmarsh-practice'")
    assert [(each.code, each.should) for each in verify(store).problems] == [("rulebook_missing", book.PRACTICE)]
    do(store, "DELETE FROM rulebook_text")
    assert [(each.code, each.should) for each in verify(store).problems] == [("rulebook_missing", book.PROPOSAL)]
