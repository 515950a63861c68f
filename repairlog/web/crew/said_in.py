"""What a raw entry says, as lines of text: for what no form of ours can show."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any
from uuid import UUID

from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS, field_at, rows_named
from repairlog.words import _, boxes, codes

NO_NAMES: Mapping[UUID, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Line:
    """A field's label, and what was typed there."""

    label: str
    said: str


def title_of(call: Sequence[Mapping[str, Any]]) -> str:
    """What a call would have entered, in a few words."""
    says = [boxes.label(KINDS[raw["kind"]].says) for raw in call if _is_known(raw)]
    return "; ".join(says) or _("Something that could not be read")


def lines_of(raw: Mapping[str, Any], *, names: Mapping[UUID, str] = NO_NAMES) -> list[Line]:
    """Every field of a raw entry with what it says, but for its id, which tells a person nothing; what is no field of
    its kind under the name it came with. `names`: of what it names, by id."""
    lines = [(line, as_id(line.said)) for line in _lines(raw)]
    return [Line(line.label, names.get(id, line.said) if id else line.said) for line, id in lines]


def ids_in(raw: Mapping[str, Any]) -> set[UUID]:
    """Every id that a raw entry names, its own left out."""
    return {id for line in _lines(raw) if (id := as_id(line.said)) is not None}


def label_at(kind: object, path: str) -> str:
    """What the field at that path of a kind says; the path's last name where it has no such field, empty for none."""
    of = field_at(KINDS[kind], path) if isinstance(kind, str) and kind in KINDS else None
    return boxes.label(of.says) if of else path.rpartition(".")[2]


def _is_known(raw: Mapping[str, Any]) -> bool:
    return isinstance(raw.get("kind"), str) and raw["kind"] in KINDS


def _lines(raw: Mapping[str, Any]) -> Iterator[Line]:
    kind = raw["kind"] if _is_known(raw) else ""
    for name, value in raw.items():
        if name == "id":
            continue
        rows = rows_named(KINDS[kind], name) if kind else None
        if rows is None or not isinstance(value, list):
            yield _line(kind, name, value)
            continue
        for number, row in enumerate(value, start=1):
            where = _("{rows}, row {number}").format(rows=boxes.label(rows.says), number=number)
            for inner, said in row.items() if isinstance(row, dict) else [("", row)]:
                if inner != "key":
                    line = _line(kind, f"{name}.{number}.{inner}", said)
                    yield Line(f"{where}: {line.label}", line.said)


def _line(kind: str, path: str, value: object) -> Line:
    of = field_at(KINDS[kind], path) if kind else None
    label = _("Entry") if path == "kind" else label_at(kind, path)
    said = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    if path == "kind" and kind:
        said = boxes.label(KINDS[kind].says)
    if of and said in of.codes:
        said = codes.word(said)
    return Line(label, said)
