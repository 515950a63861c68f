"""`repairlog journal head` and `verify`, as a person and as a program read them."""

from __future__ import annotations

import json

import pytest

from repairlog.records.store import open_store
from repairlog.records.verify import head
from tests.makers.cells import do
from tests.makers.command import process
from tests.makers.owner import drop_triggers, line_at, put_line


@pytest.fixture
def store(made):
    opened = open_store(made)
    yield opened
    opened.close()


def test_the_head_is_printed_as_size_and_root(say, made, store):
    now = head(store)
    assert (now.size, len(now.root.hex())) == (3, 64)
    text, as_json = say("journal", "head", "--database", made), say("journal", "head", "--json", "--database", made)
    assert (text.code, text.out, text.err) == (0, f"3:{now.root.hex()}\n", "")
    assert (as_json.code, json.loads(as_json.out)) == (0, {"size": 3, "root": now.root.hex()})


def test_a_journal_that_holds_is_told_in_a_line_and_ends_0(say, made, store):
    root = head(store).root.hex()
    text = say("journal", "verify", "--database", made)
    assert (text.code, text.out, text.err) == (0, f"3 lines hold; root {root}\n", "")
    as_json = say("journal", "verify", "--json", "--database", made)
    assert (as_json.code, json.loads(as_json.out)) == (0, {"size": 3, "root": root, "problems": []})


def test_what_the_head_printed_can_be_given_back_as_it_stands(say, made):
    noted = say("journal", "head", "--database", made).out
    assert say("journal", "verify", "--against", noted, "--database", made).code == 0


def test_an_altered_line_is_told_with_its_place_and_ends_1(say, made, store):
    drop_triggers(store)
    put_line(store, 1, line_at(store, 1).replace(b"Eastmarsh", b"Westmarsh"))
    text = say("journal", "verify", "--database", made)
    assert (text.code, text.err) == (1, "")
    lines = text.out.splitlines()
    assert [line.partition(";")[0] for line in lines[:1]] == ["line 1: altered"]
    assert len(lines) == 3
    as_json = say("journal", "verify", "--json", "--database", made)
    found = json.loads(as_json.out)
    assert as_json.code == 1
    assert found.keys() == {"size", "root", "problems"}
    assert [(each["code"], each["index"]) for each in found["problems"]] == [
        ("line_altered", 1),
        ("root_differs", None),
        ("peaks_differ", None),
    ]
    assert [each["message"] for each in found["problems"]] == lines


def test_a_noted_head_that_the_journal_belies_is_told_and_ends_1(say, made, store):
    root = head(store).root.hex()
    longer = say("journal", "verify", "--against", f"4:{root}", "--database", made)
    assert (longer.code, longer.out) == (1, "the journal has 3 lines; the noted head counted 4\n")
    other = say("journal", "verify", "--against", f"3:{'0' * 64}", "--database", made)
    assert other.out == f"at the noted size the lines make the root {root}; noted was {'0' * 64}\n"
    assert other.code == 1


@pytest.mark.parametrize("noted", ["3", "3:", ":", "three:" + "0" * 64, "-1:" + "0" * 64, "3:" + "0" * 62, "3:xyz"])
def test_a_noted_head_that_cannot_be_read_is_told_and_ends_2(say, made, noted):
    answer = say("journal", "verify", "--against", noted, "--database", made)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.startswith("Usage: repairlog journal verify [OPTIONS]\n")
    assert "--against: expected SIZE:ROOT, such as 417:" in answer.err


def test_a_head_that_is_gone_is_told_in_a_sentence(say, made, store):
    drop_triggers(store)
    do(store, "DELETE FROM head")
    answer = say("journal", "head", "--database", made)
    told = (
        "The journal has no head any more: somebody took it away. Nothing was written. "
        "`repairlog journal verify` says what else is wrong; restore the last backup.\n"
    )
    assert (answer.code, answer.out, answer.err) == (2, "", told)
    verified = say("journal", "verify", "--database", made)
    assert (verified.code, verified.out) == (1, "the head: 0 rows stand where one should\n")


def test_both_are_there_as_a_process_of_their_own(made):
    noted = process("journal", "head", "--database", made)
    verified = process("journal", "verify", "--against", noted.out.strip(), "--database", made)
    assert (noted.code, verified.code, verified.err) == (0, 0, "")
