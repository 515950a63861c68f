"""Blank forms are made of the declared fields: each is asked for once, with its codes to tick and its unit asked."""

from __future__ import annotations

import pytest

from repairlog.entries.fields import HAPPENED_KNOWN, TYPED_FROM
from repairlog.entries.kinds import KEPT_AS_TEXT, KINDS
from repairlog.web.crew.paper import FORMS
from repairlog.words import boxes, codes
from repairlog.words.paper import LONG_LINES, ROWS, Blank, BlankRows, paper

AGAIN = {
    "from_named",
    "to_named",
    "authorised_by_named",
    "watched_by_named",
    "cylinder_named",
    "evaluator_named",
    "instrument_used",
}
"""What a screen asks for twice, on the books and by its name or mark: one line on paper takes either."""


def stands_already(field, kind):
    """Whether another line of the form takes it: that of its thing, or the head, which asks for the area."""
    a_name = field.name == "named" and {"person", "lot", "crew"} & {each.name for each in kind.fields}
    return a_name or field.name in AGAIN or field.refers_to == "area"


def test_a_card_of_who_comes_to_help_is_about_a_person_and_no_leak():
    made = paper(KINDS["qualified"])
    assert (made.group, [blank.says for blank in made.about]) == ("Who comes to help", ["Name", "Company"])


def test_a_sheet_of_how_warm_it_is_where_material_lies_is_about_a_shelf_and_no_leak():
    made = paper(KINDS["temperature_logged"])
    assert (made.group, [blank.says for blank in made.about]) == (
        "Stores, instruments and places",
        ["Shelf or truck", "Where it is"],
    )


def test_the_crew_s_forms_are_the_kinds_that_a_crew_enters_and_none_that_puts_right():
    assert {"leak_opened", "source_added", "visit", "grade_set", "repair_attempted", "tested", "note"} <= set(FORMS)
    assert not {"corrected", "void", "repair_reviewed", "lot_received", "attached", "figure_kept"} & set(FORMS)


@pytest.mark.parametrize("name", FORMS)
def test_every_field_is_asked_for_once_in_its_order(name):
    kind, made = KINDS[name], paper(KINDS[name])
    wanted = [
        boxes.label(field.says)
        for field in kind.fields
        if field not in (HAPPENED_KNOWN, TYPED_FROM) and field.name != kind.folds_in and not stands_already(field, kind)
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
    assert (made.title, made.version, made.group, made.lists) == ("A repair is tested", 1, "On a leak", ())
    assert made.about == (Blank(says="Leak number"), Blank(says="Address"))
    assert made.blanks[0] == Blank(says="The attempt that is tested", hint="day, and what it was", needed=True)
    result = next(blank for blank in made.blanks if blank.says == "Result")
    assert result.choices == ("Tight", "Not tight", "Cannot say")


def test_readings_name_their_place_as_a_person_does():
    readings = paper(KINDS["visit"]).lists[1]
    assert (readings.says, readings.rows, readings.columns[0]) == ("Readings", ROWS, Blank(says="At which place"))
    assert isinstance(readings, BlankRows)


@pytest.mark.parametrize("name", FORMS)
def test_every_form_asks_first_for_what_it_is_about_unless_it_opens_that(name):
    assert bool(paper(KINDS[name]).about) is not bool(KINDS[name].opens) or name == "source_added"


def test_what_is_about_no_leak_asks_for_what_it_is_about():
    firsts = {
        name: paper(KINDS[name]).about[0].says for name in ("lot_moved", "call_outcome", "dig_backfilled", "note")
    }
    assert firsts | {"check": paper(KINDS["instrument_checked"]).about[0].says} == {
        "lot_moved": "Lot number",
        "call_outcome": "Call number",
        "dig_backfilled": "Leak number",
        "note": "Leak or call number",
        "check": "Instrument",
    }
    assert paper(KINDS["dig_backfilled"]).about[2].says == "Which dig"
