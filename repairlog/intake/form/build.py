"""The form of a kind of entry, built from the fields it declares: none is declared a second time."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any, cast

from wtforms import FieldList, Form, FormField, SelectMultipleField

from repairlog.entries.fields import HAPPENED_KNOWN, EntryKind, Rows
from repairlog.entries.kinds import DID, KEPT_AS_TEXT
from repairlog.intake.form.boxes import Choices, box_of, hidden, touch_box_of
from repairlog.words import boxes

MOST_MORE = 200
"""Rows beyond the most of a list that are still shown to whoever sent them; no page of ours sends as many."""


def form_of(
    kind: EntryKind,
    *,
    choices: Mapping[str, Choices] | None = None,
    without: Collection[str] = (),
    labels: Mapping[str, str] | None = None,
) -> type[Form]:
    """The form class of a kind. `choices`: what may be chosen, by path (`source`, `materials.lot`, `did.person`); any
    field may be given some, and a text of the entry itself may then still be any other. `without`: paths of fields,
    and names of lists, that the page does not ask for. `labels`: what stands above a box, by path, where the page knows
    better than the kind.

    How well an old list's day is known is never asked: who fills in a form knows the day. Beside the fields stand
    `id`, `did` (who did it) and `kept_as_text` (paths of measures that are kept as written).
    Raises ValueError for a field that only choices can ask for, where the page says none.
    """
    offered, labelled = choices or {}, labels or {}
    made: dict[str, Any] = {"id": hidden()}
    for each in kind.fields:
        if each is not HAPPENED_KNOWN and each.name not in without:
            said, label = offered.get(each.name), labelled.get(each.name, "")
            if each.kind == "text" and said is not None:
                made[each.name] = touch_box_of(each, known=said, label=label)
            else:
                made[each.name] = box_of(each, choices=said, label=label)
    for rows in (*kind.rows, DID):
        if rows is KEPT_AS_TEXT:
            made[rows.name] = SelectMultipleField(choices=[])
        elif rows.name not in without:
            made[rows.name] = _list_of(rows, offered, labelled, without)
    return _form_class(kind.name, made)


def _list_of(rows: Rows, offered: Mapping[str, Choices], labelled: Mapping[str, str], without: Collection[str]) -> Any:
    made: dict[str, Any] = {"key": hidden()}
    for each in rows.fields:
        path = f"{rows.name}.{each.name}"
        if path not in without:
            made[each.name] = box_of(each, choices=offered.get(path), label=labelled.get(path, ""))
    row = FormField(_form_class(rows.name, made))
    return FieldList(
        row, label=labelled.get(rows.name) or boxes.label(rows.says), min_entries=1, max_entries=rows.most + MOST_MORE
    )


def _form_class(name: str, made: dict[str, Any]) -> type[Form]:
    return cast("type[Form]", type(name, (Form,), made))
