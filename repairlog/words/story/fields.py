"""Any field of any kind of entry, told from how it is declared: a new kind can be read without a word about it here."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from functools import partial
from itertools import pairwise

from repairlog.entries.entry import Row, Standing
from repairlog.entries.fields import Field, Rows
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KEPT_AS_TEXT, KINDS
from repairlog.records.story import Told
from repairlog.words import _
from repairlog.words.boxes import LONG_TEXT, head, label
from repairlog.words.days import day
from repairlog.words.story.measured import as_typed, beside
from repairlog.words.story.pieces import Item, Piece
from repairlog.words.story.reader import Reader, moment, name_of

Shown = tuple[str, str]
"""What is said, and what is said beside it."""

NOTHING: Shown = ("", "")
WHEN_IT_HAPPENED = ("happened", "happened_known", "typed_from")
"""Told in the column of days; here only what it was corrected from."""


def piece(told: Told, show: Callable[[Standing], Shown]) -> Piece | None:
    """What is shown of the entry as it stands, with what was shown of it before each correction that changed it."""
    shown = [show(version) for version in (*told.was, told.entry)]
    was = tuple(dict.fromkeys(before[0] for before, after in pairwise(shown) if before[0] not in ("", after[0])))
    text, also = shown[-1]
    return Piece(text=text, also=also, was=was) if text or was else None


def own_fields(reader: Reader, told: Told, *, told_already: Collection[str]) -> Iterator[tuple[bool, Item]]:
    """An item for each field that says something, with whether it is a long text; of those that are told already only
    what was corrected."""
    kind = KINDS[told.entry.kind]
    hidden = {*told_already, *WHEN_IT_HAPPENED, kind.folds_in, "area"}
    for field in kind.fields:
        found = piece(told, partial(value, reader, field=field, path=field.name))
        if found and (field.name not in hidden or found.was):
            yield field.longest >= LONG_TEXT, Item(label=head(field.says), pieces=(found,))


def own_lists(reader: Reader, told: Told, *, told_already: Collection[str]) -> Iterator[Item]:
    """An item for each list that has rows, a piece a row."""
    for rows in KINDS[told.entry.kind].rows:
        if rows is not KEPT_AS_TEXT and rows.name not in told_already:
            yield from a_list(told, rows.name, says=label(rows.says), show=partial(_any_row, reader=reader, rows=rows))


def a_list(told: Told, name: str, *, says: str, show: Callable[[Standing, Row], Shown]) -> Iterator[Item]:
    """An item for a list, a piece a row, rows that were taken away since among them; nothing where there never was
    one."""
    every = [piece(told, partial(_row, name=name, key=key, show=show)) for key in keys_of(told, name)]
    if pieces := tuple(each for each in every if each):
        yield Item(label=says, pieces=pieces)


def keys_of(told: Told, name: str) -> list[str]:
    """The keys of every row that the list has or had, in their order."""
    return list(dict.fromkeys(row["key"] for version in (told.entry, *told.was) for row in rows_of(version, name)))


def rows_of(version: Standing, name: str) -> list[Row]:
    """The rows of a list, who did it among them."""
    return list(version.by.get("did", ()) if name == "did" else version.rows(name))


def row_of(version: Standing, name: str, *, key: str) -> Row | None:
    """The row of that key; None where there is none."""
    return next((row for row in rows_of(version, name) if row["key"] == key), None)


def _row(version: Standing, *, name: str, key: str, show: Callable[[Standing, Row], Shown]) -> Shown:
    row = row_of(version, name, key=key)
    return show(version, row) if row is not None else NOTHING


def _any_row(version: Standing, row: Row, *, reader: Reader, rows: Rows) -> Shown:
    """A row told field by field, its first and its last day as what they are."""
    paths = {field: f"{rows.name}.{row['key']}.{field.name}" for field in rows.fields}
    days = {"from_on": _("from {day}"), "until_on": _("until {day}")}
    shown = [(field, value(reader, version, field=field, path=path)) for field, path in paths.items()]
    told = [days.get(field.name, "{day}").replace("{day}", text) for field, (text, _also) in shown if text]
    return ", ".join(told), ", ".join(also for _field, (_text, also) in shown if also)


def value(reader: Reader, version: Standing, *, field: Field, path: str) -> Shown:
    """What stands in one field. `path`: `name` or `list.key.name`."""
    if field.private:
        return _private(reader, version, path)
    said = version.said_at(path)
    if not said:
        return NOTHING
    if field.kind == "measure":
        canonical, basis = str(version.understood.get(path, "")), lel_basis(version, path)
        liked = reader.units.get(field.quantity, "")
        also = beside(said, canonical, quantity=field.quantity, lel_basis=basis, liked=liked)
        return as_typed(said, canonical), also
    return _TOLD.get(field.kind, _as_said)(reader, version, said, path), ""


def lel_basis(version: Standing, path: str) -> str:
    """The lower explosive limit, per cent, that a reading stands on: its own, else the entry's."""
    understood = version.understood
    return str(understood.get(f"{path.rpartition('.')[0]}.lel_basis", understood.get("lel_basis", "")))


def in_liked_unit(version: Standing, path: str, *, liked: str) -> str:
    """A gas reading of an entry in the unit that the reader likes; empty where that tells nothing new."""
    said, canonical = version.said_at(path), str(version.understood.get(path, ""))
    return beside(said, canonical, quantity="gas", lel_basis=lel_basis(version, path), liked=liked) if said else ""


def _private(reader: Reader, version: Standing, path: str) -> Shown:
    digest = version.private.get(path)
    if digest is None:
        return NOTHING
    found = reader.story.private.get(digest)
    if found is None:
        return _("kept apart"), ""
    return (_("removed on {day}").format(day=day(found.removed_on)), "") if found.removed_on else (found.value, "")


def _as_said(_reader: Reader, _version: Standing, said: str, _path: str) -> str:
    return said


def _code(reader: Reader, _version: Standing, said: str, _path: str) -> str:
    return reader.word(said)


def _day(_reader: Reader, _version: Standing, said: str, _path: str) -> str:
    return day(said)


def _when(_reader: Reader, version: Standing, said: str, path: str) -> str:
    at, on = version.understood.get(f"{path}_at"), version.understood.get(f"{path}_on")
    if at:
        return moment(at, zone=version.understood["zone"])
    return day(on) if on else said


def _ref(reader: Reader, _version: Standing, said: str, _path: str) -> str:
    of = reader.story.named.get(read_id(said))  # of two records that were made one, also under which it was written
    if of and of.itself not in ("", of.called):
        return _("{name}, on the books as {itself}").format(name=of.called, itself=of.itself)
    return name_of(reader, said)


def entry_named(reader: Reader, id_text: str) -> str:
    """Another entry, such as `attempt 2, 5 Mar 2026`."""
    if id_text in reader.attempts:
        attempt = reader.attempts[id_text]
        return _("Attempt {number}, {day}").format(number=attempt.number, day=day(attempt.on))
    found = reader.entries.get(id_text)
    if found is None:
        return _("an entry that is not on this sheet")
    return _("{what}, {day}").format(what=label(KINDS[found.kind].says), day=day(found.on))


def _entry(reader: Reader, _version: Standing, said: str, _path: str) -> str:
    return entry_named(reader, said)


def _hole(reader: Reader, _version: Standing, said: str, _path: str) -> str:
    number = reader.holes.get(said)
    return _("bar hole {number}").format(number=number) if number else _("a place of an earlier visit")


_TOLD = {"code": _code, "day": _day, "when": _when, "ref": _ref, "entry": _entry, "hole": _hole}
