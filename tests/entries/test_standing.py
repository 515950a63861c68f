"""How an entry stands after what was said about it later."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.entry import Standing
from repairlog.entries.standing import paths_unknown, standing, touches
from tests.makers import book as m
from tests.makers.told import PERSON, story, told

LEAK = m.new_id()
OPENED = {
    "kind": "leak_opened",
    "id": LEAK,
    "area": m.new_id(),
    "happened": "2026-03-03 07:52",
    "street": "Quarry Lane",
    "house_number": "14",
    "outside_numbers": [{"key": "n1", "what": "call", "number": "C-771"}],
}


def stands(*said: dict[str, Any]) -> Standing:
    """The first of these entries as it stands after the others."""
    return standing(story(*said))[0]


def test_a_correction_changes_the_field_that_it_names_and_is_noted() -> None:
    now = stands(OPENED, m.corrected(LEAK, ("house_number", "41")))
    assert (now.said, now.corrected) == ({"version": 1, **OPENED, "house_number": "41"}, (1,))


def test_what_was_sealed_stays_as_it_was() -> None:
    sealed = story(OPENED, m.corrected(LEAK, ("outside_numbers.n1.number", "C-772")))
    standing(sealed)
    assert sealed[0].said["outside_numbers"] == [{"key": "n1", "what": "call", "number": "C-771"}]


def test_a_correction_without_a_new_value_takes_the_old_one_away() -> None:
    assert "house_number" not in stands(OPENED, m.corrected(LEAK, ("house_number", None))).said


@pytest.mark.parametrize(
    ("changes", "rows"),
    [
        ([("outside_numbers.n1.number", "C-772")], [{"key": "n1", "what": "call", "number": "C-772"}]),
        (
            [("outside_numbers.n2.what", "premise"), ("outside_numbers.n2.number", "P-9")],
            [
                {"key": "n1", "what": "call", "number": "C-771"},
                {"key": "n2", "what": "premise", "number": "P-9"},
            ],
        ),
        ([("outside_numbers.n1", None)], None),
        ([("outside_numbers.n1.what", None), ("outside_numbers.n1.number", None)], None),
        ([("outside_numbers.n9", None)], [{"key": "n1", "what": "call", "number": "C-771"}]),
    ],
    ids=["a field of a row", "a row added", "a row taken away", "a row left empty", "a row that is not there"],
)
def test_a_correction_reaches_into_rows(changes: list[Any], rows: list[Any] | None) -> None:
    assert stands(OPENED, m.corrected(LEAK, *changes)).said.get("outside_numbers") == rows


def test_who_did_it_can_be_corrected_while_who_typed_and_sent_it_stay() -> None:
    now = stands(OPENED, m.corrected(LEAK, ("did.d1.person", None), ("did.d2.named", "a passing crew")))
    assert now.by == {
        "did": [{"key": "d2", "named": "a passing crew"}],
        "typed": PERSON,
        "sent": PERSON,
        "sure": "password",
    }


def test_a_person_who_did_it_is_taken_away() -> None:
    assert stands(OPENED, m.corrected(LEAK, ("did.d1", None))).by["did"] == []


def test_a_private_value_is_corrected_by_its_digest_alone() -> None:
    opened = told(0, OPENED, private={"reporter_name": "old"})
    correction = told(1, m.corrected(LEAK, ("reporter_name", None)), private={"changes.c1.to": "new"})
    now = standing([opened, correction])[0]
    assert (dict(now.private), now.said.get("reporter_name")) == ({"reporter_name": "new"}, None)


def test_a_private_value_is_taken_away() -> None:
    opened = told(0, OPENED, private={"reporter_name": "old"})
    assert standing([opened, told(1, m.corrected(LEAK, ("reporter_name", None)))])[0].private == {}


def test_of_two_corrections_of_one_field_the_later_stands_and_both_are_noted() -> None:
    now = stands(OPENED, m.corrected(LEAK, ("street", "Mill Lane")), m.corrected(LEAK, ("street", "Mill Row")))
    assert (now.said["street"], now.corrected) == ("Mill Row", (1, 2))


def test_a_correction_of_a_correction_changes_what_the_first_one_says() -> None:
    first = m.corrected(LEAK, ("street", "Mill Lane"))
    second = m.corrected(first["id"], ("changes.c1.to", "Mill Row"))
    assert stands(OPENED, first, second).said["street"] == "Mill Row"


def test_a_correction_is_led_to_another_field_by_its_own_correction() -> None:
    first = m.corrected(LEAK, ("street", "Mill Lane"))
    second = m.corrected(first["id"], ("changes.c1.field", "cross_street"))
    now = stands(OPENED, first, second)
    assert (now.said["street"], now.said["cross_street"]) == ("Quarry Lane", "Mill Lane")


def test_a_correction_that_is_void_does_not_count() -> None:
    first = m.corrected(LEAK, ("street", "Mill Lane"))
    now = stands(OPENED, first, m.void(first["id"]))
    assert (now.said["street"], now.corrected, now.void) == ("Quarry Lane", (), None)


def test_where_the_later_of_two_corrections_is_void_the_earlier_stands_again() -> None:
    first, second = m.corrected(LEAK, ("street", "Mill Lane")), m.corrected(LEAK, ("street", "Mill Row"))
    assert stands(OPENED, first, second, m.void(second["id"])).said["street"] == "Mill Lane"


def test_a_void_marks_the_entry_with_its_own_place() -> None:
    assert stands(OPENED, m.void(LEAK)).void == 1


def test_a_void_of_a_void_restores_and_a_third_takes_away_again() -> None:
    first = m.void(LEAK)
    second = m.void(first["id"])
    assert stands(OPENED, first, second).void is None
    assert stands(OPENED, first, second, m.void(second["id"])).void == 1


def test_of_two_voids_of_one_entry_the_first_is_named_and_either_is_enough() -> None:
    first, second = m.void(LEAK), m.void(LEAK)
    assert stands(OPENED, first, second).void == 1
    assert stands(OPENED, first, second, m.void(first["id"])).void == 2


def test_a_void_that_names_a_later_entry_does_not_count() -> None:
    assert [entry.void for entry in standing(story(m.void(LEAK), OPENED))] == [None, None]


def test_a_correction_that_names_a_later_entry_does_not_count() -> None:
    assert standing(story(m.corrected(LEAK, ("street", "Mill Lane")), OPENED))[1].said["street"] == "Quarry Lane"


def test_an_entry_is_corrected_while_it_is_void() -> None:
    now = stands(OPENED, m.void(LEAK), m.corrected(LEAK, ("street", "Mill Lane")))
    assert (now.void, now.said["street"]) == (1, "Mill Lane")


def test_what_was_understood_gives_way_to_what_the_correction_understood() -> None:
    source = m.source(LEAK) | {"id": m.new_id()}
    sealed = told(0, source, understood={"pressure": "310.264078 kPa gauge", "size": "19.05 mm"})
    correction = told(1, m.corrected(source["id"], ("pressure", "60 psi")), understood={"now.pressure": "413.685438"})
    now = standing([sealed, correction])[0]
    assert (now.understood["pressure"], now.understood["size"]) == ("413.685438", "19.05 mm")


def test_what_was_understood_of_a_field_goes_with_the_field() -> None:
    source = m.source(LEAK) | {"id": m.new_id()}
    sealed = told(0, source, understood={"pressure": "310.264078 kPa gauge"})
    assert "pressure" not in standing([sealed, told(1, m.corrected(source["id"], ("pressure", None)))])[0].understood


@pytest.mark.parametrize(
    ("kind", "path", "goes"),
    [
        ("visit", "happened", {"happened_on", "happened_at", "happened_known", "zone", "utc_offset"}),
        ("leak_opened", "discovered", {"discovered_on", "discovered_at", "discovered_utc_offset"}),
        ("visit", "readings.r1.gas", {"readings.r1.value", "readings.r1.lel_basis"}),
        ("grade_set", "grade", {"rank"}),
        ("grade_set", "rank", {"rank"}),
        ("source_added", "pressure", {"pressure"}),
        ("corrected", "changes.c1.to", {"now.street"}),
    ],
)
def test_what_hangs_on_a_field_is_worked_out_again(kind: str, path: str, goes: set[str]) -> None:
    keys = {
        *("happened_on", "happened_at", "happened_known", "zone", "utc_offset", "rank", "number", "counter"),
        *("discovered_on", "discovered_at", "discovered_utc_offset", "pressure", "now.street"),
        *("readings.r1.value", "readings.r1.lel_basis", "readings.r11.value"),
    }
    hangs = touches(kind, path)
    assert {key for key in keys if hangs(key)} == goes


@pytest.mark.parametrize(("kind", "path"), [("leak_opened", "area"), ("visit", "leak")])
def test_a_move_has_all_worked_out_again_but_what_the_door_gave(kind: str, path: str) -> None:
    hangs = touches(kind, path)
    assert [hangs(key) for key in ("happened_on", "atmosphere", "readings.r1.value", "number", "counter")] == [
        *(True, True, True),
        *(False, False),
    ]


@pytest.mark.parametrize(
    ("path", "to", "known"),
    [
        ("street", "x", True),
        ("did.d1.named", "x", True),
        ("outside_numbers.n1.what", "x", True),
        ("outside_numbers.n1", None, True),
        ("did.d1", None, True),
        ("outside_numbers.n1", "x", False),
        ("outside_numbers", None, False),
        ("outside_numbers.n1.what.more", "x", False),
        ("strete", "x", False),
        ("kind", "x", False),
        ("id", "x", False),
        ("typed", "x", False),
        ("places.p1.kind", "x", False),
        ("", "x", False),
        (".", "x", False),
    ],
)
def test_a_correction_names_a_field_of_the_entry_and_no_other(path: str, to: str | None, known: bool) -> None:
    assert paths_unknown("leak_opened", m.corrected(LEAK, (path, to))) == ([] if known else [path])


@st.composite
def told_stories(draw: st.DrawFn) -> list[Standing]:
    said: list[dict[str, Any]] = [OPENED]
    for _ in range(draw(st.integers(0, 8))):
        target = draw(st.sampled_from(said))
        to = draw(st.sampled_from(["Mill Lane", "Mill Row", None]))
        path = "changes.c1.to" if target["kind"] == "corrected" else draw(st.sampled_from(["street", "town"]))
        rights_a_void = target["kind"] == "void" or draw(st.booleans())
        said.append(m.void(target["id"]) if rights_a_void else m.corrected(target["id"], (path, to)))
    return story(*said)


@given(told_stories(), st.randoms())
def test_the_order_in_which_entries_are_given_changes_nothing(entries: list[Standing], random: Any) -> None:
    shuffled = list(entries)
    random.shuffle(shuffled)
    assert standing(shuffled) == standing(entries)


@given(told_stories())
def test_an_entry_is_void_while_some_void_of_it_is_not(entries: list[Standing]) -> None:
    after = standing(entries)
    live = {entry.said["entry"] for entry in after if entry.kind == "void" and entry.void is None}
    assert [entry.void is not None for entry in after] == [str(entry.id) in live for entry in after]


@given(told_stories())
def test_an_entry_stands_the_same_after_each_further_void_and_its_void(entries: list[Standing]) -> None:
    last = len(entries)
    first = told(last, m.void(LEAK))
    assert standing([*entries, first, told(last + 1, m.void(str(first.id)))])[:last] == standing(entries)
