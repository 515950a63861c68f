"""Between a form and a raw entry, both ways: what was typed goes over as it was typed, what was left empty does not."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from wtforms import Field as Box
from wtforms import Form

from repairlog import units
from repairlog.entries.fields import EntryKind
from repairlog.entries.kinds import DID, KEPT_AS_TEXT
from repairlog.intake.form.boxes import WhenBox
from repairlog.intake.form.heard import heard
from repairlog.intake.when import WhenUnclear, read_when
from repairlog.trade.area import Area

AROUND = ("id", KEPT_AS_TEXT.name)


def form_with(form_class: type[Form], *, prefix: str, typed: Any = None, raw: Mapping[str, Any] | None = None) -> Form:
    """The form, filled with what was typed (a multidict of its boxes), else from a raw entry, else empty. Every row has
    a key of its own, so that complaints and corrections can name it."""
    form = form_class(typed, prefix=prefix, data=_filled(raw or {}))
    for rows in _lists(form):
        _give_keys(rows)
    return form


def _filled(raw: Mapping[str, Any]) -> dict[str, Any]:
    """What fills the boxes: whole numbers as text, rows as they are, kept texts as the paths they name."""
    filled = {name: value if isinstance(value, list) else str(value) for name, value in raw.items()}
    kept = raw.get(KEPT_AS_TEXT.name, ())
    return {**filled, KEPT_AS_TEXT.name: [row.get("field", "") for row in kept if isinstance(row, dict)]}


def _lists(form: Form) -> Iterator[Any]:
    return (box for box in form if box.type == "FieldList")


def _give_keys(rows: Any) -> None:
    taken = {row.form["key"].data for row in rows}
    free = (f"r{number}" for number in range(1, 2 * len(rows) + 2) if f"r{number}" not in taken)
    for row in rows:
        if not row.form["key"].data:
            row.form["key"].data = next(free)


def add_row(form: Form, name: str, *, most: int) -> None:
    """One more empty row in that list, where it may have one more."""
    rows: Any = form[name]
    if len(rows) < most:
        rows.append_entry()
        _give_keys(rows)


def raw_of(kind: EntryKind, form: Form, *, area: Area | None, said: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """The raw entry that a form gives: what was typed, and nothing for boxes and rows left empty.

    `area`: where it happened, None where nobody said yet. `said`: fields that the page itself says. What is to be kept
    as written is named only where it cannot be read.
    """
    raw: dict[str, Any] = {"kind": kind.name, "id": form["id"].data or "", **(said or {})}
    for name, value in _values(form, [each.name for each in kind.fields], area=area):
        raw[name] = value
    for rows in (*kind.rows, DID):
        if rows is not KEPT_AS_TEXT and rows.name in form and (given := _rows(form[rows.name], area=area)):
            raw[rows.name] = given
    if KEPT_AS_TEXT.name in form:
        wanted = form[KEPT_AS_TEXT.name].data or []
        unread = [path for path, each in heard(kind, raw, area=area).items() if isinstance(each, units.NotUnderstood)]
        if kept := [path for path in unread if path in wanted]:
            raw[KEPT_AS_TEXT.name] = [{"key": f"k{place}", "field": path} for place, path in enumerate(kept, start=1)]
    return raw


def _rows(rows: Any, *, area: Area | None) -> list[dict[str, str]]:
    given = []
    for row in rows:
        names = [name for name in row.form.data if name != "key"]
        if values := dict(_values(row.form, names, area=area)):
            given.append({"key": row.form["key"].data, **values})
    return given


def _values(form: Form, names: Collection[str], *, area: Area | None) -> Iterator[tuple[str, str]]:
    for name in names:
        if name in form and (value := form[name].data or "").strip():
            yield name, _with_offset_needed(value, area) if isinstance(form[name], WhenBox) else value


def _with_offset_needed(value: str, area: Area | None) -> str:
    """The moment without its offset where the hour came once: one chosen for another day must not move it."""
    local, _, offset = value.rpartition(" ")
    if area is None or not offset.startswith(("+", "-")):
        return value
    try:
        read_when(local, area.zone)
    except WhenUnclear:
        return value
    return local


def is_empty(raw: Mapping[str, Any], *, said: Collection[str]) -> bool:
    """Whether nobody typed anything into it. `said`: fields that the page itself says."""
    return not raw.keys() - {"kind", *AROUND, *said}


def boxes_by_path(form: Form) -> dict[str, Box]:
    """Every box, row and list of a form by the path that a complaint names: `source`, `materials`, `materials.r1`,
    `materials.r1.lot`; a row whose key nobody can read by its place, `materials.0`."""
    found: dict[str, Box] = {}
    for box in form:
        found[box.short_name] = box
    for rows in _lists(form):
        for place, row in enumerate(rows):
            key = row.form["key"].data
            found.setdefault(f"{rows.short_name}.{place}", row)
            found[f"{rows.short_name}.{key}"] = row
            found |= {f"{rows.short_name}.{key}.{each.short_name}": each for each in row.form}
    return found
