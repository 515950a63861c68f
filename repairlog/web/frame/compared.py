"""Two texts of one entry, field by field: what stands in the book, and what came under the same id."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any
from uuid import UUID

from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS, field_at, rows_named
from repairlog.records.post import Conflict
from repairlog.words import _, boxes, codes

NAMES_IT = ("kind", "version", "id")


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One field of both texts, in words; empty where one says nothing there."""

    label: str
    stands: str
    came: str

    @property
    def differs(self) -> bool:
        return self.stands != self.came


def compared(conflict: Conflict, *, names: Mapping[UUID, str]) -> list[Compared]:
    """Every field that either text has, in the order of the form; but for ids, which no person reads, where both have
    the same. `names`: of people, by id."""
    kind = str(conflict.came["said"]["kind"])
    stands, came = dict(_flat(conflict.stands)), dict(_flat(conflict.came))
    fields = (
        Compared(
            label=_label(kind, path),
            stands=_value(kind, path, stands.get(path, ""), names=names),
            came=_value(kind, path, came.get(path, ""), names=names),
        )
        for path in dict.fromkeys(chain(came, stands))
    )
    return [field for field in fields if field.differs or as_id(field.came) is None]


def people_in(conflict: Conflict) -> set[UUID]:
    """Every id in either text that may be a person's."""
    texts = [text for each in (conflict.stands, conflict.came) for _path, text in _flat(each)]
    return {id for text in texts if (id := as_id(text)) is not None}


def _flat(content: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Path and text of every field; who did, who typed and when it was written after what was said."""
    said = {name: value for name, value in content.get("said", {}).items() if name not in NAMES_IT}
    around = {name: content[name] for name in ("did", "typed", "written") if content.get(name)}
    for name, value in {**said, **around}.items():
        if isinstance(value, Sequence) and not isinstance(value, str):
            yield from _rows(name, value)
        else:
            yield name, str(value)


def _rows(name: str, rows: Sequence[Any]) -> Iterator[tuple[str, str]]:
    for place, row in enumerate(rows, start=1):
        if not isinstance(row, Mapping):
            yield f"{name}.{place}", str(row)
            continue
        for field, value in row.items():
            if field != "key":
                yield f"{name}.{row.get('key', place)}.{field}", str(value)


def _label(kind: str, path: str) -> str:
    if path in (around := {"typed": _("Who typed it"), "written": _("When it was written")}):
        return around[path]
    declared = field_at(KINDS[kind], path)
    says = boxes.label(declared.says) if declared else path.rpartition(".")[2]
    name, dot, rest = path.partition(".")
    rows = rows_named(KINDS[kind], name)
    if not dot or rows is None:
        return says
    return _("{rows}, {key}: {says}").format(rows=boxes.label(rows.says), key=rest.partition(".")[0], says=says)


def _value(kind: str, path: str, text: str, *, names: Mapping[UUID, str]) -> str:
    declared = field_at(KINDS[kind], path)
    if text and declared is not None and declared.kind == "code":
        return codes.word(text)
    id = as_id(text)
    return names.get(id, text) if id else text
