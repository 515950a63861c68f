"""How entries are written, as a JSON Schema made from their declaration: what it lets through, intake reads.

It is stricter than intake in one thing: what is empty is left out, while intake also takes an empty text, list or null
for left out. What no schema can say (whether a unit is known, a day lies ahead, a subject is there) intake says when
the entry comes. Source: JSON Schema, draft 2020-12.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from repairlog import units
from repairlog.entries import ids, moments
from repairlog.entries.examples import EXAMPLES
from repairlog.entries.fields import EntryKind, Field, Rows
from repairlog.entries.kinds import DID, KINDS
from repairlog.intake import when
from repairlog.intake.said import DIGEST, ROW_KEY

Schema = dict[str, Any]

ADDRESS = "/api/entries/schema"

CONTROLS = r"[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]"
"""What no text may hold, as ECMA-262 writes it: all characters that control but the tab and the ends of lines."""

SAID_LIKE = {
    "area": ("40 sq ft", "4 m2"),
    "distance": ("6 ft", "6 ft 3 in", "2 m"),
    "duration": ("15 min", "1 h 30 min"),
    "elevation": ("5280 ft", "1600 m"),
    "gas": ("45 %LEL", "3 %gas", "20000 ppm", "250 ppm-m"),
    "hole": ("3/16 in", "1 1/4 in", "2 mm"),
    "pressure": ("45 psi", "7 in wc", "half a pound", "4 bar", "59.7 psi absolute"),
    "temperature": ("57 F", "-5 C"),
}
"""By quantity, measures as people say them."""


def schema() -> Schema:
    """The schema of one entry of whatever kind; each kind stands under its name in `$defs`, with its examples."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": ADDRESS,
        "title": "An entry of RepairLog",
        "description": (
            "One thing that happened. What is not known is left out. A call posts one entry, a list of them, or an "
            "object with them under `entries` beside `sent` (a moment of the device's clock) and `offset_ms` (that "
            "clock less the server's)."
        ),
        "oneOf": [{"$ref": f"#/$defs/{name}"} for name in KINDS],
        "$defs": {name: _of_kind(kind) for name, kind in KINDS.items()},
    }


def _of_kind(kind: EntryKind) -> Schema:
    around: Schema = {
        "kind": {"const": kind.name},
        "version": {"const": kind.version, "description": "version of this kind; the present one where left out"},
        "id": _text(_whole(ids.WRITTEN_7), "a new UUID of version 7; the same one whenever the entry is sent again"),
    }
    said = {each.name: _of_field(each) for each in kind.fields}
    rows = {each.name: _of_rows(each) for each in kind.rows}
    who: Schema = {
        "did": _of_rows(DID) | {"description": "who did it; the person whose token it is where left out"},
        "typed": _text(_whole(ids.WRITTEN), "who typed it: id of a person; the one whose token it is where left out"),
        "written": _text(_whole(moments.WRITTEN), "when it was written, by the device's clock, in UTC"),
    }
    return {
        "title": kind.name,
        "description": kind.says,
        **_object({**around, **said, **rows, **who}, required=["kind", "id", *_required(kind.fields)]),
        "examples": [dict(each) for each in EXAMPLES[kind.name]],
    }


def _of_rows(rows: Rows) -> Schema:
    key = _text(_whole(ROW_KEY), "lasting name of the row inside its entry")
    row = _object({"key": key} | {each.name: _of_field(each) for each in rows.fields}, required=["key"])
    row["required"] += _required(rows.fields)
    row["minProperties"] = 2
    if rows.needs_one_of:
        row["anyOf"] = [{"required": [name]} for name in rows.needs_one_of]
    return {"type": "array", "description": rows.says, "minItems": 1, "maxItems": rows.most, "items": row}


def _of_field(field: Field) -> Schema:
    says = field.says + ("; kept beside the journal, so that it can go again" if field.private else "")
    match field.kind:
        case "code":
            return {"type": "string", "description": says, "enum": list(field.codes)}
        case "measure":
            return _measure(field)
        case "whole":
            number = {"type": "integer", "minimum": field.least, "maximum": field.most}
            return {"description": says, "anyOf": [number, {"type": "string", "pattern": "^[0-9]{1,16}$"}]}
        case "when":
            shown = _text(_whole(when.WRITTEN), f"{says}: a day or a moment, in the area's zone")
            return shown | {"examples": ["2026-03-05", "2026-03-05 10:02", "2026-03-05 01:30 -05:00"]}
        case "day":
            return _text("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", says) | {"format": "date"}
        case "ref":
            of = f"the {field.refers_to}" if field.refers_to else f"any {', '.join(field.among) or 'subject'}"
            return _text(_whole(ids.WRITTEN), f"{says}: id of {of}")
        case "entry":
            return _text(_whole(ids.WRITTEN), f"{says}: id of an entry")
        case "hole":
            hole = f"^{ids.WRITTEN.pattern}/{ROW_KEY.pattern}$"
            return _text(hole, f"{says}: id of the visit, a stroke, and the key of the hole there")
        case "digest":
            return _text(_whole(DIGEST), says)
        case "text":
            return _typed(field, says)


def _measure(field: Field) -> Schema:
    quantity = units.QUANTITIES[field.quantity]
    says = f"{field.says}: as typed, a number and its unit, such as {', '.join(quantity.offers)}"
    if quantity.basis:
        says += f"; {quantity.basis} unless it says otherwise"
    return _typed(field, says) | {"examples": list(SAID_LIKE[field.quantity])}


def _typed(field: Field, says: str) -> Schema:
    return _text(r"\S", says) | {"not": {"pattern": CONTROLS}, "maxLength": field.longest}


def _text(pattern: str, says: str) -> Schema:
    return {"type": "string", "description": says, "pattern": pattern}


def _whole(written: re.Pattern[str]) -> str:
    """The pattern as ECMA-262 writes it, for the whole text: without names of groups, digits those of ASCII."""
    return "^" + re.sub(r"\?P<\w+>", "", written.pattern).replace(r"\d", "[0-9]") + "$"


def _object(properties: Schema, *, required: list[str]) -> Schema:
    return {"type": "object", "properties": properties, "required": required, "additionalProperties": False}


def _required(fields: Iterable[Field]) -> list[str]:
    return [each.name for each in fields if each.required]
