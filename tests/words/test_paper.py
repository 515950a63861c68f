"""Blank forms are made of the declared fields: each is asked for once, with its codes to tick and its unit asked."""

from __future__ import annotations

import pytest

from repairlog.entries.fields import HAPPENED_KNOWN, TYPED_FROM
from repairlog.entries.kinds import KEPT_AS_TEXT, KINDS
from repairlog.web.crew.paper import FORMS
from repairlog.words import boxes, codes
from repairlog.words.paper import LONG_LINES, ROWS, Blank, BlankRows, paper

THINGS = {"person", "lot", "crew"}


def short_of_its_name(field, kind):
    """The name of what is not on the books: the line for the thing itself takes the name, too."""
    names = {each.name for each in kind.fields}
    return (field.name == "named" and THINGS & names) or (field.name.endswith("_named") and field.name[:-6] in names)


def test_the_crew_s_forms_are_the_kinds_that_a_crew_enters_and_none_that_puts_right():
    assert {"leak_opened", "source_added", "visit", "grade_set", "repair_attempted", "tested", "note"} <= set(FORMS)
    assert not {"corrected", "void", "repair_reviewed", "lot_received"} & set(FORMS)


@pytest.mark.parametrize("name", FORMS)
def test_every_field_is_asked_for_once_in_its_order(name):
    kind, made = KINDS[name], paper(KINDS[name])
    wanted = [
        boxes.label(field.says)
        for field in kind.fields
        if field not in (HAPPENED_KNOWN, TYPED_FROM)
        and field.name != kind.folds_in
        and not short_of_its_name(field, kind)
    ]
    assert [blank.says for blank in made.blanks] == wanted
    assert [rows.says for rows in made.lists] == [boxes.label(r.says) for r in kind.rows if r is not KEPT_AS_TEXT]
    by_says = {boxes.label(field.says): field for field in kind.fields}
    for blank in made.blanks:
        field = by_says[blank.says]
        assert blank.choices == tuple(codes.word(code) for code in field.codes)
        assert blank.needed is field.required
        assert field.kind != "measure" or blank.hint == f"with its unit, {boxes.how_said(field.quantity)}"
        assert (blank.lines == LONG_LINES) is (field.kind == "text" and field.longest >= boxes.LONG_TEXT)


def test_a_test_of_a_repair_on_paper():
    made = paper(KINDS["tested"])
    assert (made.title, made.of_leak, made.lists) == ("A repair is tested", True, ())
    assert made.blanks[0] == Blank(says="The attempt that is tested", hint="day, and what it was", needed=True)
    result = next(blank for blank in made.blanks if blank.says == "Result")
    assert result.choices == ("Tight", "Not tight", "Cannot say")


def test_readings_name_their_place_as_a_person_does():
    readings = paper(KINDS["visit"]).lists[1]
    assert (readings.says, readings.rows, readings.columns[0]) == ("Readings", ROWS, Blank(says="At which place"))
    assert isinstance(readings, BlankRows)
