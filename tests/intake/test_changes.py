"""The changes of a correction: what differs of an entry as it stands and as somebody would have it, and back."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.kinds import KINDS
from repairlog.intake.changes import Raw, changes_between, with_changes_made

VISIT = KINDS["visit"]
WAS: Raw = {
    "happened": "2026-03-03 08:26",
    "remarks": "smell at the gate\nand the wall",
    "places": [{"key": "p1", "kind": "bar_hole", "label": "6 ft"}, {"key": "p2", "kind": "vault"}],
    "did": [{"key": "d1", "named": "a helper"}],
}


def changes(**now: object) -> set[tuple[str, str | None]]:
    """What changes if these fields are said instead; None takes one away."""
    said = {name: value for name, value in {**WAS, **now}.items() if value is not None}
    return {(row["field"], row.get("to")) for row in changes_between(VISIT, was=WAS, now=said)}


def test_the_same_is_no_change_however_lines_end() -> None:
    assert changes() == changes(remarks="smell at the gate\r\nand the wall ") == set()


def test_a_field_is_changed_added_and_taken_away() -> None:
    assert changes(ground="wet") == {("ground", "wet")}
    assert changes(happened="2026-03-03") == {("happened", "2026-03-03")}
    assert changes(remarks=None) == {("remarks", None)}


def test_a_row_is_changed_added_and_taken_away() -> None:
    first, second = WAS["places"]
    assert changes(places=[first | {"label": "7 ft"}, second]) == {("places.p1.label", "7 ft")}
    assert changes(places=[first]) == {("places.p2", None)}
    added = {"key": "p3", "kind": "manhole", "owner": "sewer"}
    assert changes(places=[first, second, added]) == {("places.p3.kind", "manhole"), ("places.p3.owner", "sewer")}
    assert changes(places=[{"key": "p1", "kind": "bar_hole"}, second]) == {("places.p1.label", None)}
    assert changes(did=[{"key": "d1", "named": "L. Farrow"}]) == {("did.d1.named", "L. Farrow")}


def test_a_measure_kept_as_written_is_added_and_never_taken_away() -> None:
    kept = [{"key": "k1", "field": "readings.r1.value"}]
    assert changes(kept_as_text=kept) == {("kept_as_text.k1.field", "readings.r1.value")}
    assert changes_between(VISIT, was={"kept_as_text": kept}, now={}) == []
    again = changes_between(VISIT, was={"kept_as_text": kept}, now={"kept_as_text": [{"key": "k1", "field": "extent"}]})
    assert [(row["field"], row.get("to")) for row in again] == [("kept_as_text.k2.field", "extent")]


_texts = st.text("abcä7", min_size=1, max_size=4)
_row = st.fixed_dictionaries({"kind": _texts}, optional={"label": _texts, "owner": _texts})
_rows = st.dictionaries(st.sampled_from(["p1", "p2", "p3"]), _row).map(
    lambda rows: [{"key": key, **row} for key, row in sorted(rows.items())]
)
_raw = st.fixed_dictionaries({}, optional={"ground": _texts, "remarks": _texts, "places": _rows})


@given(was=_raw, now=_raw)
def test_the_changes_made_give_what_somebody_would_have_it(was: Raw, now: Raw) -> None:
    made = with_changes_made(was, changes_between(VISIT, was=was, now=now))
    made["places"] = sorted(made.get("places", []), key=lambda row: str(row["key"]))
    assert made == {"places": [], **now}
