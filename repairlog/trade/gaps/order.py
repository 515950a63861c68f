"""What cannot have happened in the order in which the record has it: before, after, or at one moment in two ways."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.ending import Ending, ending_that_counts
from repairlog.trade.gap import Gap


def is_before(entry: Standing, other: Standing) -> bool:
    """By moment where both are known, else by day: the same day is not before, and a day that nobody knows is not."""
    if "happened_known" in entry.understood or "happened_known" in other.understood:
        return False
    at, other_at = entry.understood.get("happened_at"), other.understood.get("happened_at")
    if at and other_at:
        return bool(at < other_at)
    return entry.on < other.on


def tests_in_order(live: Sequence[Standing], by_id: Mapping[str, Standing]) -> Iterator[Gap]:
    """A test made before the repair that it is said to be of; a repair that changed the pressure and has none."""
    tested: set[str] = set()
    for test in (entry for entry in live if entry.kind == "tested"):
        attempt = by_id.get(test.text("attempt"))
        if attempt is not None and is_before(test, attempt):
            yield Gap(
                code="tested_before_repair", entry=test.id, facts={"tested_on": test.on, "repaired_on": attempt.on}
            )
        elif attempt is not None:
            tested.add(test.text("attempt"))
    for entry in (each for each in live if each.kind == "repair_attempted" and each.by["sure"] != "import"):
        if entry.text("id") not in tested and _pressure_changed(entry):
            yield Gap(code="no_test_after_pressure_change", entry=entry.id)


def _pressure_changed(attempt: Standing) -> bool:
    """Two of the line pressures that it says are not the same. Measures that nobody could read say nothing."""
    names = ("pressure_found", "pressure_installing", "pressure_restored")
    return len({attempt.understood[name] for name in names if name in attempt.understood}) > 1


def after_the_end(live: Sequence[Standing], ends: Sequence[Ending]) -> Iterator[Gap]:
    """A repair after the leak ended asks whether to open it again; opening again what was not ended says so."""
    ending = ending_that_counts(ends)
    if ending is not None:
        named = {each.id for each in ending.attempts}
        for entry in live:
            later = order_of_happening(entry) > order_of_happening(ending.entry) and entry.on >= ending.on
            if entry.kind == "repair_attempted" and entry.id not in named and later:
                facts = {"ended_on": ending.on, "done_on": entry.on}
                yield Gap(code="repair_after_the_end", entry=entry.id, facts=facts)
    again = [entry for entry in live if entry.kind == "leak_reopened"]
    periods = {len(again) - each.reopened for each in ends if each.holds}  # periods are counted from the first on
    for period, entry in enumerate(again):
        if period not in periods:
            yield Gap(code="reopened_while_open", entry=entry.id)


def two_stories(live: Sequence[Standing], holes: Mapping[str, int]) -> Iterator[Gap]:
    """Of one matter at one moment, two people's words that differ. Only plain cases: a grade, the test of one repair,
    what was read in one bar hole. `holes`: numbers of bar holes by every name they bear."""
    first: dict[tuple[str, ...], tuple[Standing, str]] = {}
    for entry in sorted((each for each in live if "happened_at" in each.understood), key=lambda each: each.id):
        for about, row, said in _told(entry, holes):
            of = (entry.kind, entry.understood["happened_at"], *about)
            other, it_said = first.setdefault(of, (entry, said))
            if it_said != said and not _people(other) & _people(entry):
                yield Gap(code="two_stories_differ", entry=entry.id, row=row, facts={"this": said, "other": it_said})


def _told(entry: Standing, holes: Mapping[str, int]) -> Iterator[tuple[tuple[str, ...], str, str]]:
    """What an entry says: about what, in which row, and what."""
    if entry.kind == "grade_set":
        yield (), "", entry.text("grade")
    elif entry.kind == "tested":
        yield (entry.text("attempt"), entry.text("kind_of_test")), "", entry.text("result")
    elif entry.kind == "visit":
        for row in entry.rows("readings"):
            path = f"readings.{row['key']}"
            hole = holes.get(f"{entry.id}/{row.get('place')}")
            if hole is not None and f"{path}.value" in entry.understood:
                of = (str(hole), row.get("gas", ""), row.get("kind", ""))
                yield of, path, str(entry.understood[f"{path}.value"])


def _people(entry: Standing) -> set[str]:
    did = entry.by.get("did", ())
    return {row.get("person", row.get("named", "")) for row in did} or {entry.by["typed"]}
