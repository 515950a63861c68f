"""The closed list of what can be entered, and that it only ever grows."""

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from repairlog.entries.fields import AUTHORITIES, EntryKind, Field
from repairlog.entries.kinds import DID, KEPT_AS_TEXT, KINDS, RIGHTING, SUBJECT_KINDS, field_at, rows_named
from repairlog.intake.said import AROUND
from repairlog.records.tables.facts import NUMBER_COLUMNS
from repairlog.units import QUANTITIES

FROZEN = json.loads(Path(__file__).with_name("frozen_fields.json").read_text())
EVERY = list(KINDS.values())


def fields_of(kind: EntryKind) -> dict[str, Field]:
    """Every field of a kind by its path, `list.field` for those of rows."""
    own = {field.name: field for field in kind.fields}
    return own | {f"{rows.name}.{field.name}": field for rows in kind.rows for field in rows.fields}


def frozen(field: Field) -> dict[str, Any]:
    """What may not change of a field while its kind keeps its version."""
    kept: dict[str, Any] = {"kind": field.kind}
    kept |= {"required": True} if field.required else {}
    kept |= {"private": True} if field.private else {}
    for name in ("quantity", "refers_to"):
        kept |= {name: getattr(field, name)} if getattr(field, name) else {}
    kept |= {name: list(getattr(field, name)) for name in ("codes", "among") if getattr(field, name)}
    kept |= {"longest": field.longest} if field.kind in ("text", "measure", "when") else {}
    kept |= {"least": field.least, "most": field.most} if field.kind == "whole" else {}
    return kept


def narrowed(was: dict[str, Any], now: dict[str, Any]) -> list[str]:
    """In which ways a field takes less than it did, or something else; more codes and more room are no harm."""
    wrong = [name for name in ("kind", "private", "quantity", "refers_to") if was.get(name) != now.get(name)]
    wrong += ["required"] if now.get("required") and not was.get("required") else []
    wrong += [name for name in ("codes", "among") if set(was.get(name, ())) - set(now.get(name, ()))]
    wrong += ["among"] if now.get("among") and not was.get("among") else []
    wrong += [name for name in ("longest", "most") if now.get(name, 0) < was.get(name, 0)]
    return wrong + (["least"] if now.get("least", 0) > was.get("least", 0) else [])


def test_what_version_one_could_say_can_still_be_said() -> None:
    now = {name: {path: frozen(field) for path, field in fields_of(kind).items()} for name, kind in KINDS.items()}
    gone = [f"{kind}.{path}" for kind, fields in FROZEN.items() for path in fields if path not in now.get(kind, {})]
    less = {
        f"{kind}.{path}": wrong
        for kind, fields in FROZEN.items()
        for path, was in fields.items()
        if path in now.get(kind, {}) and (wrong := narrowed(was, now[kind][path]))
    }
    assert (gone, less) == ([], {})


def test_a_field_that_came_later_asks_for_nothing() -> None:
    added = {
        f"{name}.{path}": field
        for name, kind in KINDS.items()
        if name in FROZEN
        for path, field in fields_of(kind).items()
        if path not in FROZEN[name]
    }
    lists = {f"{name}.{path.split('.')[0]}" for name, fields in FROZEN.items() for path in fields if "." in path}
    in_new_list = {path for path in added if path.count(".") == 2 and path.rpartition(".")[0] not in lists}
    assert [path for path, field in added.items() if field.required and path not in in_new_list] == []


@pytest.mark.parametrize(
    ("was", "now", "wrong"),
    [
        ({"kind": "code", "codes": ["a", "b"]}, {"kind": "code", "codes": ["a", "b", "c"]}, []),
        ({"kind": "code", "codes": ["a", "b"]}, {"kind": "code", "codes": ["a"]}, ["codes"]),
        ({"kind": "text", "longest": 200}, {"kind": "text", "longest": 199}, ["longest"]),
        ({"kind": "text", "longest": 200}, {"kind": "text", "longest": 200, "required": True}, ["required"]),
        ({"kind": "text", "longest": 200}, {"kind": "text", "longest": 200, "private": True}, ["private"]),
        ({"kind": "whole", "least": 1, "most": 9}, {"kind": "whole", "least": 2, "most": 8}, ["most", "least"]),
        ({"kind": "measure", "quantity": "hole"}, {"kind": "measure", "quantity": "area"}, ["quantity"]),
    ],
)
def test_a_field_that_takes_less_than_it_did_is_found(was: Any, now: Any, wrong: list[str]) -> None:
    assert narrowed(was, now) == wrong


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_no_name_is_used_twice_in_a_kind(kind: EntryKind) -> None:
    names = [field.name for field in kind.fields] + [rows.name for rows in kind.rows]
    names += [name for name in AROUND if name != "did"] + [DID.name]
    assert [name for name, times in Counter(names).items() if times > 1] == []


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_the_names_in_a_row_are_columns_of_one_table(kind: EntryKind) -> None:
    for rows in (*kind.rows, DID):
        names = [field.name for field in rows.fields]
        assert [name for name, times in Counter(names).items() if times > 1] == []
        assert {"id", "index", "key", "entry_id"} & set(names) == set()
    assert {"id", "index"} & {field.name for field in kind.fields} == set()


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_every_field_holds_what_its_kind_of_field_needs(kind: EntryKind) -> None:
    for field in fields_of(kind).values():
        assert (field.kind == "measure") == (field.quantity in QUANTITIES and field.quantity in NUMBER_COLUMNS)
        assert (field.kind == "code") == bool(field.codes)
        assert len(set(field.codes)) == len(field.codes)
        assert field.refers_to == "" or (field.kind == "ref" and field.refers_to in SUBJECT_KINDS)
        assert not field.among or (field.kind == "ref" and not field.refers_to and set(field.among) < {*SUBJECT_KINDS})
        assert all(len(code) <= field.longest for code in field.codes)
        assert 0 <= field.least <= field.most < 2**53
        assert field.says
        assert list(field.asked_by) == sorted(set(field.asked_by) & set(AUTHORITIES))


def test_who_asks_for_what_stands_as_their_rules_were_read() -> None:
    """Source of each: WAC 480-93-187 (Washington), 16 NYCRR 255.825 (New York), 220 CMR 114.08 (Massachusetts),
    N.H. En 509.11 (New Hampshire), 16 TAC 8.205 (Texas), 49 CFR 192.517(a), 192.807 and the form F 7100.1-1."""
    asked = {
        f"{name}.{path}": " ".join(each.removeprefix("us-") for each in field.asked_by)
        for name, kind in KINDS.items()
        for path, field in fields_of(kind).items()
    }
    wanted = {
        "leak_opened.detected_by": "guide nh",
        "source_added.material": "federal guide nh tx wa",
        "source_added.size": "federal guide tx wa",
        "source_added.pressure": "guide nh",
        "visit.ground": "nh",
        "visit.extent": "ma",
        "visit.readings.value": "guide ma wa",
        "repair_attempted.cause": "federal guide nh tx wa",
        "repair_attempted.people.task": "federal",
        "tested.duration": "federal",
        "leak_ended.how": "federal ma",
    }
    assert {path: asked[path] for path in wanted} == wanted


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_every_kind_says_when_it_happened_but_those_that_put_right(kind: EntryKind) -> None:
    happened = [field for field in kind.fields if field.name == "happened"]
    assert (kind.name in RIGHTING) == (happened == [])
    assert all(field.required and field.kind == "when" for field in happened)


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_the_story_that_an_entry_goes_into_is_one_that_it_must_name(kind: EntryKind) -> None:
    named = [field for field in kind.fields if field.name == kind.folds_in]
    assert bool(kind.folds_in) == (len(named) == 1)
    assert all(field.required and field.refers_to in (*SUBJECT_KINDS, "") for field in named)
    assert kind.folds_in or kind.opens or kind.name in RIGHTING


def test_a_name_under_which_stories_go_on_never_only_names_a_subject() -> None:
    """Else every entry that only names an area would be read as a part of the area's own story."""
    stories = {kind.folds_in for kind in EVERY if kind.folds_in}
    named = {(kind.name, f.name) for kind in EVERY for f in kind.fields if f.kind == "ref" and f.name != kind.folds_in}
    assert {(kind, name) for kind, name in named if name in stories} == set()


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_what_measures_may_be_kept_as_text(kind: EntryKind) -> None:
    measures = [field for field in fields_of(kind).values() if field.kind == "measure"]
    assert bool(measures) == (KEPT_AS_TEXT in kind.rows)


@pytest.mark.parametrize("kind", EVERY, ids=lambda kind: kind.name)
def test_what_a_row_needs_one_of_are_fields_of_its_list_that_may_each_be_left_out(kind: EntryKind) -> None:
    for rows in (*kind.rows, DID):
        may_lack = {field.name for field in rows.fields if not field.required}
        assert set(rows.needs_one_of) <= may_lack
        assert len(rows.needs_one_of) != 1


def test_a_kind_of_subject_is_opened_by_one_kind_of_entry() -> None:
    opened = [kind.opens for kind in EVERY if kind.opens]
    assert (sorted(opened), len(set(opened))) == (sorted(SUBJECT_KINDS), len(opened))


@pytest.mark.parametrize(
    ("path", "found"),
    [
        ("outcome", "outcome"),
        ("readings.r1.value", "value"),
        ("did.d1.person", "person"),
        ("kept_as_text.k1.field", "field"),
        ("readings", None),
        ("readings.r1", None),
        ("readings.r1.value.x", None),
        ("readings.r1.label", None),
        ("street", None),
        ("", None),
    ],
)
def test_a_field_is_found_by_its_path(path: str, found: str | None) -> None:
    field = field_at(KINDS["visit"], path)
    assert (field.name if field else None) == found


def test_a_list_is_found_by_its_name() -> None:
    found = [rows_named(KINDS["visit"], name) for name in ("places", "did", "materials")]
    assert [rows.name if rows else None for rows in found] == ["places", "did", None]
