"""How entries stand: voids and corrections applied. Nothing sealed changes; this is worked out at every reading."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import KINDS, field_at, rows_named
from repairlog.entries.naming import target_of

Value = str | int

_DIGITS = re.compile(r"[0-9]{1,16}")

GIVEN_BY_THE_DOOR = ("number", "counter")
"""What `understood` holds from the door itself: no correction takes it away."""


def standing(entries: Iterable[Standing]) -> list[Standing]:
    """Each entry with the corrections that count applied and its void mark, in the journal's order.

    `entries`: as sealed, with every correction and void that speaks about one of them. A void names an earlier
    entry and may itself be void, which restores; of two corrections of one field the later in the journal stands;
    a correction that is void does not count.
    """
    newest_first = sorted(entries, key=lambda entry: entry.index, reverse=True)
    voids = _voids(newest_first)
    waiting: dict[UUID, list[Standing]] = defaultdict(list)
    done: list[Standing] = []
    for entry in newest_first:  # what puts an entry right comes after it, so it is settled before
        now = replace(entry, void=voids[entry.id]) if entry.id in voids else entry
        for correction in reversed(waiting.get(entry.id, [])):
            now = with_changes(now, correction)
        target = target_of(entry.said)
        if entry.kind == "corrected" and target is not None and now.void is None:
            waiting[target].append(now)
        done.append(now)
    return done[::-1]


def _voids(newest_first: list[Standing]) -> dict[UUID, int]:
    index_of = {entry.id: entry.index for entry in newest_first}
    voids: dict[UUID, int] = {}
    for entry in newest_first:
        target = target_of(entry.said)
        counts = entry.kind == "void" and entry.id not in voids
        if counts and target is not None and index_of.get(target, entry.index) < entry.index:
            voids[target] = entry.index
    return voids


def with_changes(entry: Standing, correction: Standing) -> Standing:
    """The entry with one correction applied to what was said, what was understood, who did it and what is private."""
    said: dict[str, Any] = dict(entry.said)
    did: dict[str, Any] = {"did": list(entry.by.get("did", ()))}
    understood, private = dict(entry.understood), dict(entry.private)
    for change in correction.said.get("changes", ()):
        path = change["field"]
        digest = correction.private.get(f"changes.{change['key']}.to")
        _set(did if path.startswith("did.") else said, path, _value(entry.kind, path, change.get("to")))
        private.pop(path, None)
        if digest is not None:
            private[path] = digest
        touched = touches(entry.kind, path)
        understood = {key: value for key, value in understood.items() if not touched(key)}
    understood |= {key[4:]: value for key, value in correction.understood.items() if key.startswith("now.")}
    return replace(
        entry,
        said=said,
        by={**entry.by, "did": did.get("did", [])} if "did" in entry.by else entry.by,
        understood=understood,
        private=private,
        corrected=(*entry.corrected, correction.index),
    )


def touches(kind: str, path: str) -> Callable[[str], bool]:
    """Whether a key of `understood` hangs on the field at `path`: it is worked out again when the field changes."""
    declared = KINDS[kind]
    field = field_at(declared, path)
    parts = path.split(".")
    if kind == "corrected" and parts[0] == "changes":
        return lambda key: key.startswith("now.")
    if len(parts) > 1:
        return lambda key: key.startswith(f"{parts[0]}.{parts[1]}.")
    if field is not None and field.kind == "ref" and path in (declared.folds_in, "area"):
        return lambda key: key not in GIVEN_BY_THE_DOOR
    if path in ("happened", "happened_known"):
        return lambda key: key in ("happened_on", "happened_at", "happened_known", "zone", "utc_offset")
    if field is not None and field.kind == "when":
        return lambda key: key in (f"{path}_on", f"{path}_at", f"{path}_utc_offset")
    if path in ("grade", "rank"):
        return lambda key: key == "rank"
    return lambda key: key == path and key not in GIVEN_BY_THE_DOOR


def _value(kind: str, path: str, typed: str | None) -> Value | None:
    field = field_at(KINDS[kind], path)
    if typed is None or field is None or field.private:
        return None
    if field.kind == "whole" and _DIGITS.fullmatch(typed):
        return int(typed)  # anything else stays text, for intake to send back
    return typed


def _set(said: dict[str, Any], path: str, value: Value | None) -> None:
    """Put a value at its path, or take it away: a row without a value left goes, an empty list too."""
    parts = path.split(".")
    if len(parts) == 1:
        said.pop(path, None)
        if value is not None:
            said[path] = value
        return
    name, key = parts[0], parts[1]
    rows: list[dict[str, Any]] = [dict(row) for row in said.get(name, ())]
    row = next((row for row in rows if row["key"] == key), None)
    if row is None:
        row = {"key": key}
        rows.append(row)
    if len(parts) == 2:
        rows.remove(row)
    else:
        row.pop(parts[2], None)
        if value is not None:
            row[parts[2]] = value
    said.pop(name, None)
    if kept := [row for row in rows if len(row) > 1]:
        said[name] = kept


def paths_unknown(kind: str, said: Mapping[str, Any]) -> list[str]:
    """Paths of a correction's changes at which the corrected kind has no field, nor a row that may be taken away."""
    declared = KINDS[kind]
    unknown = []
    for change in said.get("changes", ()):
        path = change["field"]
        is_row = path.count(".") == 1 and rows_named(declared, path.split(".")[0]) is not None and "to" not in change
        if not is_row and field_at(declared, path) is None:
            unknown.append(path)
    return unknown
