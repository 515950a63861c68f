"""Every code of every field has a word of its own; no raw code reaches a screen."""

from repairlog.entries.kinds import DID, KINDS
from repairlog.words.codes import word

CODES = {
    code
    for kind in KINDS.values()
    for field in (*kind.fields, *(field for rows in (*kind.rows, DID) for field in rows.fields))
    for code in field.codes
}


def test_every_code_of_every_field_has_a_word_for_the_screen() -> None:
    assert {code: word(code) for code in CODES if not word(code) or "_" in word(code)} == {}


def test_a_word_begins_as_a_sentence_does() -> None:
    assert [word(code) for code in CODES if word(code)[0] != word(code)[0].upper()] == []
