"""The places of a visit on its page: known bar holes with what was read there last, new places, further readings.

Each place has a reading beside it: the first that names its key. What nobody touched is left out of the entry: a hole
that was not looked at is not said to be.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Any

from repairlog.intake import Complaint
from repairlog.records.queries.bar_holes import HoleRow
from repairlog.words import _, codes
from repairlog.words.story.reader import small

Raw = Mapping[str, Any]

UNITS = ("%LEL", "%gas", "ppm")
"""Units that the page offers to those who type bare numbers, as their instrument shows them."""

RARELY = ("kind", "gas", "instrument")
"""What of a reading is rarely asked."""

_BARE = re.compile(r"[0-9.,]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A place's rows on the page. `hole`: the known bar hole that it is, None for a new place. `number`: the hole's, or
    that of the place among the new ones. `place`, `reading`: the rows of boxes."""

    hole: HoleRow | None
    number: int
    place: Any
    reading: Any

    @property
    def rarely_asked(self) -> list[Any]:
        """The boxes that stand behind a fold."""
        of_place = ["not_entered", "owner", "from_building", *(["label"] if self.hole else [])]
        return [*(self.reading[name] for name in RARELY), *(self.place[name] for name in of_place)]


def first_rows(holes: Sequence[HoleRow]) -> dict[str, list[dict[str, str]]]:
    """The places that a page begins with: every known hole, else one new place."""
    return {"places": [_of_hole(hole) for hole in holes] or [{"key": "p1"}]}


def _of_hole(hole: HoleRow) -> dict[str, str]:
    return {"key": f"h{hole.number}", "kind": "bar_hole", "same_as": hole.name}


def complete(form: Any, holes: Sequence[HoleRow]) -> None:
    """Give the form a row for every known hole, and every place its reading, where what came left one out."""
    there = {row.form["same_as"].data for row in form["places"]}
    for hole in (each for each in holes if each.name not in there):
        _append(form["places"], {**_of_hole(hole), "key": _free_key(form["places"], f"h{hole.number}")})
    named = Counter(row.form["place"].data for row in form["readings"])
    unused = [row.form for row in form["readings"] if not any(box.data for box in row.form if box.short_name != "key")]
    for key in [row.form["key"].data for row in form["places"]]:
        if named[key]:
            named[key] -= 1
        elif unused:
            unused.pop(0)["place"].data = key
        else:
            free = _free_key(form["readings"], f"r{len(form['readings']) + 1}")
            _append(form["readings"], {"key": free, "place": key})


def _append(rows: Any, row: Mapping[str, str]) -> None:
    """One more row, where the list takes one: what came may be longer than any page of ours."""
    if len(rows) < rows.max_entries:
        rows.append_entry(row)


def _free_key(rows: Any, wanted: str) -> str:
    taken = {row.form["key"].data for row in rows}
    return wanted if wanted not in taken else next(f"{wanted}_{n}" for n in count(2) if f"{wanted}_{n}" not in taken)


def looked_at(form: Any, holes: Sequence[HoleRow]) -> tuple[list[Looked], list[Any]]:
    """The places of a complete form, known holes first in the order of their numbers; and the further readings."""
    by_name = {hole.name: hole for hole in holes}
    readings = [row.form for row in form["readings"]]
    known: list[Looked] = []
    new: list[Looked] = []
    for place in (row.form for row in form["places"]):
        reading = next((each for each in readings if each["place"].data == place["key"].data), None)
        if reading is None:
            continue  # beyond the most that a list takes: it is told so
        readings.remove(reading)
        hole = by_name.get(place["same_as"].data)
        number = hole.number if hole else len(new) + 1
        (known if hole else new).append(Looked(hole=hole, number=number, place=place, reading=reading))
    return [*sorted(known, key=_number), *new], readings


def _number(of: Looked) -> int:
    return of.number


def looked_only(raw: Raw, *, holes: Sequence[HoleRow], unit: str) -> dict[str, Any]:
    """The visit without what nobody touched. A bare number takes `unit`, where one was chosen."""
    names = {hole.name for hole in holes}
    readings = [_with_unit(row, unit) for row in raw.get("readings", ()) if row.keys() - {"key", "place"}]
    read_at = {row.get("place") for row in readings}
    places = [row for row in raw.get("places", ()) if row["key"] in read_at or not _is_untouched(row, names)]
    left_blank = {key for key in read_at if key} - {row["key"] for row in places}
    places += [{"key": key} for key in sorted(left_blank)]
    rows = {"places": places, "readings": readings}
    return {name: value for name, value in raw.items() if name not in rows} | {k: v for k, v in rows.items() if v}


def _is_untouched(row: Raw, names: set[str]) -> bool:
    return row.get("same_as") in names and not row.keys() - {"key", "kind", "same_as"}


def _with_unit(row: Raw, unit: str) -> Raw:
    value = row.get("value", "").strip()
    return {**row, "value": f"{value} {unit}"} if unit in UNITS and _BARE.fullmatch(value) else row


def readings_said(raw: Raw) -> dict[str, str]:
    """By key, each reading as it was typed, with its place."""
    places = {row["key"]: _place_said(row, number) for number, row in enumerate(raw.get("places", ()), start=1)}
    return {
        row["key"]: _("{reading} at {place}").format(reading=row["value"], place=places[row["place"]])
        if row.get("place") in places
        else row["value"]
        for row in raw.get("readings", ())
        if "value" in row
    }


def _place_said(row: Raw, number: int) -> str:
    kind = small(codes.word(row["kind"])) if row.get("kind") else _("place {number}").format(number=number)
    return ", ".join(filter(None, (kind, row.get("label", ""))))


def contradictions(raw: Raw) -> list[Complaint]:
    """No access, and yet places looked at: only whoever was there knows which."""
    if raw.get("outcome") == "no_access" and (raw.get("readings") or raw.get("places")):
        return [Complaint(entry=0, field="outcome", code="no_access_and_looked")]
    return []
