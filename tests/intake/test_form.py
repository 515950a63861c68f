"""A form is made from the fields that a kind of entry declares: all of them, and none a second time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import wtforms

from repairlog.entries.fields import HAPPENED_KNOWN, EntryKind
from repairlog.entries.kinds import DID, KEPT_AS_TEXT, KINDS
from repairlog.intake.form import form_of, form_with
from repairlog.words import codes
from tests.house import reading

OWN_FORMS = {"repairlog/web/frame/sign_in.py"}
"""Forms that enter nothing into the book."""

BOXES = {name for name in dir(wtforms) if name.endswith("Field") or name == "FieldList"}


def declared(kind: EntryKind) -> dict[str, Any]:
    """Every field of a kind by its path, with who did it."""
    own = {each.name: each for each in kind.fields if each is not HAPPENED_KNOWN}
    rows = [rows for rows in (*kind.rows, DID) if rows is not KEPT_AS_TEXT]
    return own | {f"{each.name}.{field.name}": field for each in rows for field in each.fields}


def choices_for(kind: EntryKind) -> dict[str, list[tuple[str, str]]]:
    """A choice for each field that only choices can ask for."""
    chosen = ("ref", "entry", "hole")
    return {path: [("x", "the only one")] for path, field in declared(kind).items() if field.kind in chosen}


def boxes(form: wtforms.Form) -> Iterator[tuple[str, Any]]:
    """Every box that a person sees, by its path."""
    for box in form:
        if box.type == "FieldList":
            yield from ((f"{box.short_name}.{each.short_name}", each) for each in box[0].form if each.id[-4:] != "-key")
        elif box.short_name not in ("id", "kept_as_text"):
            yield box.short_name, box


def empty(name: str) -> dict[str, Any]:
    kind = KINDS[name]
    return dict(boxes(form_with(form_of(kind, choices=choices_for(kind)), prefix="x")))


@pytest.mark.parametrize("name", KINDS)
def test_a_form_has_a_box_for_every_field_of_its_kind(name: str) -> None:
    assert list(empty(name)) == list(declared(KINDS[name]))


@pytest.mark.parametrize("name", KINDS)
def test_what_stands_above_a_box_is_what_the_field_says(name: str) -> None:
    said = {path: field.says[:1].upper() + field.says[1:] for path, field in declared(KINDS[name]).items()}
    assert {path: box.label.text for path, box in empty(name).items()} == said


@pytest.mark.parametrize("name", KINDS)
def test_what_is_required_is_marked_and_nothing_else(name: str) -> None:
    required = {path for path, field in declared(KINDS[name]).items() if field.required}
    assert {path for path, box in empty(name).items() if box.flags.required} == required


@pytest.mark.parametrize("name", KINDS)
def test_a_code_is_chosen_by_its_word_and_none_is_chosen_beforehand(name: str) -> None:
    coded = {path: field for path, field in declared(KINDS[name]).items() if field.kind == "code"}
    shown = {path: [(it.value, it.label) for it in empty(name)[path].iter_choices()] for path in coded}
    assert shown == {
        path: [("", "Choose"), *((each, codes.word(each)) for each in of.codes)] for path, of in coded.items()
    }
    assert {path: box.data for path, box in empty(name).items() if path in coded and box.data} == {}


def test_no_field_is_declared_a_second_time() -> None:
    making = {
        reading.place(file)
        for file in reading.python_files("repairlog")
        if "wtforms" in file.read_text() and {name for _line, name in reading.called(file.read_text())} & BOXES
    }
    assert making - OWN_FORMS == {"repairlog/intake/form/boxes.py", "repairlog/intake/form/build.py"}


def test_a_field_that_only_choices_can_ask_for_wants_them_said() -> None:
    with pytest.raises(ValueError, match="no choices for the field 'source'"):
        form_of(KINDS["repair_attempted"], choices=choices_for(KINDS["repair_attempted"]) | {"source": None})  # type: ignore[dict-item]


def test_what_the_page_does_not_ask_for_has_no_box() -> None:
    kind = KINDS["visit"]
    form = form_with(form_of(kind, choices=choices_for(kind), without=["leak", "readings", "places.owner"]), prefix="x")
    assert set(declared(kind)) - set(dict(boxes(form))) == {
        "leak",
        "places.owner",
        *(path for path in declared(kind) if path.startswith("readings.")),
    }


def test_a_line_of_text_stops_at_its_longest_and_a_long_text_is_never_cut_off() -> None:
    repair = empty("repair_attempted")
    assert 'maxlength="80"' in repair["method"]()
    assert "maxlength" not in repair["remarks"]()


def test_a_box_says_what_becomes_of_what_is_written_there() -> None:
    assert empty("leak_opened")["reporter_name"].description == "Kept apart from the record, and can be removed later."
    assert empty("note")["text"].description.startswith("Stands in the record for good: it cannot be removed")
    assert empty("leak_opened")["town"].description == ""


def test_a_box_says_whose_rules_ask_for_it_where_it_may_stay_empty() -> None:
    source = empty("source_added")
    assert source["material"].flags.asked == "asked for: federal, guide, NH, TX, WA"
    unasked = {path for path, box in source.items() if not box.flags.asked and not path.startswith("did.")}
    assert unasked == {"leak", "happened", "typed_from", "defect", "location", "place"}
    assert empty("leak_ended")["how"].flags.asked is None  # it is needed, and marked so


def test_a_box_brings_the_keyboard_and_the_picker_that_fit() -> None:
    assert 'inputmode="numeric"' in empty("source_added")["installed_year"]()
    assert 'type="date"' in empty("lot_received")["expires_on"]()
    assert empty("source_added")["pressure"].description == "such as 45 psi or 7 in wc"


def test_what_no_picker_would_show_is_left_standing_as_text() -> None:
    kind = KINDS["lot_received"]
    form = form_with(
        form_of(kind, choices=choices_for(kind)), prefix="x", raw={"expires_on": "31 May", "happened": "in May"}
    )
    assert 'type="text" value="31 May"' in form["expires_on"]()
    assert form["happened"].picked is None  # type: ignore[attr-defined]


def test_what_was_chosen_and_is_offered_no_longer_is_still_shown() -> None:
    kind = KINDS["repair_attempted"]
    form = form_with(form_of(kind, choices=choices_for(kind)), prefix="x", raw={"source": "gone", "cause": "worms"})
    assert '<option selected value="gone">gone</option>' in form["source"]()
    assert '<option selected value="worms">worms</option>' in form["cause"]()
