"""What is said where a whole call was not recorded."""

import pytest

from repairlog.entries.kinds import KINDS
from repairlog.words.refusals import sentence
from tests.words.spoken import refusal_codes

FACTS = (
    "expected",
    "file",
    "found",
    "got",
    "index",
    "kind",
    "mark",
    "most",
    "name",
    "names",
    "said",
    "version",
    "wanted",
)
"""What the facts of any of them are called."""


@pytest.mark.parametrize("code", sorted(refusal_codes()))
def test_what_was_not_recorded_says_why_and_what_to_do(code: str) -> None:
    message, hint = sentence(code, dict.fromkeys(FACTS, "x"))
    assert (message[-1], hint[-1], "{" in message + hint) == (".", ".", False)


def test_the_refusals_of_every_floor_are_found() -> None:
    assert {"refused", "waits", "conflict", "busy", "not_understood"} <= refusal_codes()


@pytest.mark.parametrize("kind", KINDS)
def test_a_refusal_says_in_words_what_was_refused(kind: str) -> None:
    message, _ = sentence("refused", {"kind": kind})
    assert message == f"Your roles do not let you enter this here: {KINDS[kind].says}."


@pytest.mark.parametrize("code", ["not_understood", "refused", "waits"])
def test_what_is_kept_says_that_it_is_kept(code: str) -> None:
    assert "is kept" in sentence(code)[1]


@pytest.mark.parametrize("code", ["conflict", "busy", "settings_changed"])
def test_what_is_not_kept_says_that_nothing_was_changed(code: str) -> None:
    assert sentence(code)[1].startswith("Nothing was ")
