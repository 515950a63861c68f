"""The schema of entries and the reading of them agree: on what is right, and on what is wrong."""

from __future__ import annotations

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from repairlog import units
from repairlog.entries.examples import EXAMPLES, STANDS_BEFORE
from repairlog.entries.kinds import KINDS
from repairlog.intake import NotUnderstood
from repairlog.intake.call import understand
from repairlog.intake.said import said_of
from repairlog.intake.schema import SAID_LIKE, schema
from repairlog.records.store import Store
from repairlog.records.tables.journal import JOURNAL
from tests.makers.copies import rows
from tests.makers.every_kind import every_kind
from tests.makers.examples import LATER, example_book
from tests.makers.full_book import filled

SCHEMA = schema()
VALIDATOR = Draft202012Validator(SCHEMA, format_checker=Draft202012Validator.FORMAT_CHECKER)
FULL: dict[str, dict[str, Any]] = {kind: dict(raws[0]) for kind, raws in EXAMPLES.items()}


def is_right(raw: object) -> bool:
    return bool(VALIDATOR.is_valid(raw))


def is_read(raw: object) -> bool:
    _said, complaints = said_of(raw, 0)
    return not complaints


def sealed(store: Store) -> list[dict[str, Any]]:
    """What intake took, as it stands in the journal: said, with who did it and typed it and when it was written."""
    lines = [json.loads(row["line"]) for row in rows(store, JOURNAL)]
    about = [{name: line["by"][name] for name in ("did", "typed")} for line in lines]
    when = [{"written": it} if (it := line["moments"].get("written")) else {} for line in lines]
    return [line["said"] | who | at for line, who, at in zip(lines, about, when, strict=True)]


def test_the_schema_is_one_of_its_draft_and_names_every_kind() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert list(SCHEMA["$defs"]) == list(KINDS)
    assert [each["$ref"] for each in SCHEMA["oneOf"]] == [f"#/$defs/{kind}" for kind in KINDS]


def test_every_example_is_right_and_stands_with_its_kind() -> None:
    assert {kind: each["examples"] for kind, each in SCHEMA["$defs"].items()} == {
        kind: list(raws) for kind, raws in EXAMPLES.items()
    }
    every = [raw for raws in EXAMPLES.values() for raw in raws] + list(STANDS_BEFORE)
    assert [raw for raw in every if not is_right(raw) or not is_read(raw)] == []


def test_every_field_that_is_declared_stands_in_the_schema_and_no_other() -> None:
    around = {"kind", "version", "id", "did", "typed", "written"}
    for name, kind in KINDS.items():
        properties = SCHEMA["$defs"][name]["properties"]
        assert properties.keys() == around | {each.name for each in (*kind.fields, *kind.rows)}
        for each in kind.rows:
            row = properties[each.name]["items"]["properties"]
            assert row.keys() == {"key", *(field.name for field in each.fields)}


def test_whatever_stands_in_a_full_book_is_right(sqlite_store: Store) -> None:
    book = filled(sqlite_store).book
    book.say(*every_kind(book).values())
    said = sealed(sqlite_store)
    assert {raw["kind"] for raw in said} == set(KINDS)
    assert [raw for raw in said if not is_right(raw)] == []


@pytest.mark.parametrize("kind", KINDS)
def test_an_entry_without_a_field_that_it_needs_is_wrong(kind: str) -> None:
    needed = {"kind", "id", *(each.name for each in KINDS[kind].fields if each.required)}
    lacking = [{name: it for name, it in FULL[kind].items() if name != without} for without in sorted(needed)]
    assert [(is_right(raw), is_read(raw)) for raw in lacking] == [(False, False)] * len(needed)


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_that_is_not_declared_is_wrong_in_an_entry_and_in_a_row(kind: str) -> None:
    wrong = [FULL[kind] | {"colour": "blue"}]
    for name in (each.name for each in KINDS[kind].rows if each.name in FULL[kind]):
        wrong.append(FULL[kind] | {name: [FULL[kind][name][0] | {"colour": "blue"}]})
    assert [(is_right(raw), is_read(raw)) for raw in wrong] == [(False, False)] * len(wrong)


BAD: list[tuple[str, str, Any]] = [
    ("note", "id", "019CBEC3-7C40-7A10-8B1C-2F7F1D2C3B4A"),
    ("note", "id", "019cbec3-7c40-8a10-8b1c-2f7f1d2c3b4a"),
    ("note", "id", "019cbec37c407a108b1c2f7f1d2c3b4a"),
    ("note", "id", 7),
    ("note", "version", 2),
    ("note", "version", True),
    ("note", "version", "one"),
    ("note", "typed", "M. Aldous"),
    ("note", "typed", 0),
    ("note", "typed", False),
    ("note", "written", "2026-10-06 15:20"),
    ("note", "written", "2026-10-06T24:00:00.000Z"),
    ("note", "written", 0),
    ("note", "did", "M. Aldous"),
    ("note", "did", {"key": "d1"}),
    ("note", "did", [{"key": "d1", "named": 7}]),
    ("note", "did", [{"named": "a helper"}]),
    ("note", "did", [{"key": "D 1", "named": "a helper"}]),
    ("note", "did", [{"key": f"d{place}", "named": "x"} for place in range(51)]),
    ("note", "text", 7),
    ("note", "text", ["x"]),
    ("note", "text", {}),
    ("note", "text", "  \n "),
    ("note", "text", "x" * 4001),
    ("note", "text", "bell \x07"),
    ("note", "happened", "5 March 2026"),
    ("note", "happened", "2026-3-5"),
    ("note", "happened", "2026-03-05 10"),
    ("note", "happened", 20260305),
    ("note", "happened_known", "about"),
    ("note", "subject", "ES-26-0417"),
    ("visit", "purpose", "First_Investigation"),
    ("visit", "purpose", 1),
    ("visit", "places", [{"key": "p1", "kind": "bar_hole", "same_as": "p2"}]),
    ("visit", "places", [{"key": "p1", "kind": "bar_hole", "same_as": "019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a"}]),
    ("visit", "places", [{"key": "p1"}]),
    ("visit", "readings", [{"key": "r1", "value": 45}]),
    ("visit", "readings", [{"key": "r1", "value": "4" * 61}]),
    ("lot_received", "expires_on", "2026-02-30"),
    ("lot_received", "expires_on", "2026-3-5"),
    ("lot_received", "expires_on", "2026-03-05 10:02"),
    ("source_added", "installed_year", 1799),
    ("source_added", "installed_year", 2201),
    ("source_added", "installed_year", 1968.5),
    ("source_added", "installed_year", "19 68"),
    ("source_added", "installed_year", True),
    ("source_added", "pressure", 45),
    ("repair_attempted", "materials", [{"key": "m1", "used": "1"}]),
    ("repair_attempted", "materials", [{"key": "m1", "lot": "C-2207"}]),
    ("corrected", "changes", [{"key": "c1", "to": "x"}]),
    ("void", "entry", "the last one"),
]


GOOD: list[tuple[str, str, Any]] = [
    ("note", "version", 1),
    ("note", "text", "x" * 4000),
    ("note", "text", " a\n\tb "),
    ("note", "happened", "2026-03-05T10:02:30-05:00"),
    ("note", "happened", "2026-03-05 10:02 Z"),
    ("note", "happened_known", "on_or_before"),
    ("note", "did", [{"key": f"d{place}", "named": "x"} for place in range(50)]),
    ("source_added", "installed_year", 1800),
    ("source_added", "installed_year", "2200"),
    ("lot_received", "expires_on", "2028-02-29"),
    ("visit", "instrument", "x" * 60),
]


def test_schema_and_reading_agree_on_what_is_right_and_what_is_wrong(sqlite_store: Store) -> None:
    book = example_book(sqlite_store)

    def is_taken(raw: dict[str, Any]) -> bool:
        try:
            return bool(understand(sqlite_store, [raw], actor=book.everyone, moments=LATER))
        except NotUnderstood:
            return False

    wrong, right = ([FULL[kind] | {field: value} for kind, field, value in cases] for cases in (BAD, GOOD))
    assert ([raw for raw in wrong if is_right(raw)], [raw for raw in wrong if is_taken(raw)]) == ([], [])
    assert ([raw for raw in right if not is_right(raw)], [raw for raw in right if not is_taken(raw)]) == ([], [])


@pytest.mark.parametrize(("quantity", "said"), [(name, said) for name, every in SAID_LIKE.items() for said in every])
def test_a_measure_is_read_as_the_schema_says_it_like(quantity: str, said: str) -> None:
    assert units.read(said, quantity).canonical


def test_every_quantity_that_a_field_measures_is_shown_as_people_say_it() -> None:
    fields = [
        field for kind in KINDS.values() for field in (*kind.fields, *(f for rows in kind.rows for f in rows.fields))
    ]
    assert set(SAID_LIKE) == {field.quantity for field in fields if field.quantity}
