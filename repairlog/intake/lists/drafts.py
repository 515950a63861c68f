"""A row becomes drafts: the entries that it says, without their ids and without their leak."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from repairlog.intake.lists.cells import CellUnclear, house_and_street, is_grade, read_day
from repairlog.intake.lists.columns import folded
from repairlog.intake.lists.declared import FIELD_OF, OPENED, REPAIR, SOURCE, Columns, Graded, Word
from repairlog.intake.lists.file import Row
from repairlog.intake.lists.refusal import Refusal, Refused
from repairlog.words import _

PLAIN = Word(does="keep")


@dataclass(frozen=True, slots=True)
class Draft:
    """One entry that a row says. `said`: its fields as they will be sent, but for id and leak. `columns`: the list's
    column by field. `fact`: what it says something about, within its leak: one grade of a day, one ending."""

    said: Mapping[str, Any]
    columns: Mapping[str, str]
    fact: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafts:
    """What a row says. `number`: the list's own for the leak, else `identity`: the cells that make one. `opened`: the
    leak; `later`: all else, in the order in which it is to be recorded."""

    row: Row
    number: str
    identity: tuple[str, ...]
    opened: Draft
    later: tuple[Draft, ...]


@dataclass(slots=True)
class _Reading:
    """A row on its way. `notes`: what is kept as a note, with its day. `refusals`: what cannot be read."""

    row: Row
    columns: Columns
    notes: list[Draft]
    refusals: list[Refusal]

    def refused(self, column: str) -> bool:
        return any(each.column == column for each in self.refusals)

    def refuse(self, column: str, code: str, **facts: str) -> None:
        """Once a cell, however many entries it stands in."""
        if self.refused(column):
            return
        refusal = Refusal(
            line=self.row.line, column=column, cell=self.row.cells.get(column, ""), code=code, facts=facts
        )
        self.refusals.append(refusal)


def drafts_of(row: Row, columns: Columns) -> Drafts:
    """What a row says. Raises Refused with every cell that cannot be read."""
    reading = _Reading(row, columns, [], [])
    number, identity = _names(reading)
    reported, repaired = _day(reading, "reported"), _day(reading, "repaired")
    if columns.kind == "repairs" and not repaired and not reading.refused(columns.of["repaired"]):
        reading.refuse(columns.of["repaired"], "repaired_day_missing")
    opened = _opened(reading, reported, number=number)
    later = [
        *_source(reading),
        *_grades(reading),
        *(_repair(reading, repaired) if columns.kind == "repairs" else ()),
    ]
    _own_note(reading)
    if reading.refusals:
        raise Refused(reading.refusals)
    return Drafts(row=row, number=number, identity=identity, opened=opened, later=(*later, *reading.notes))


def _names(reading: _Reading) -> tuple[str, tuple[str, ...]]:
    columns, cells = reading.columns, reading.row.cells
    if "number" in columns.of:
        number = " ".join(cells[columns.of["number"]].split())
        if not number:
            reading.refuse(columns.of["number"], "number_missing")
        return number, ()
    return "", tuple(_as_identity(reading, column) for column in columns.identity)


def _as_identity(reading: _Reading, column: str) -> str:
    """A cell as it makes a leak's name: a day is the same however a list writes it."""
    cell = reading.row.cells[column]
    if column in (reading.columns.of.get("reported"), reading.columns.of.get("repaired")):
        try:
            return read_day(cell, reading.columns) if cell else ""
        except CellUnclear:
            return cell  # told where the day is read
    return folded(cell)


def _meaning(reading: _Reading, column: str, *, on: dict[str, str] | None = None) -> tuple[str, Word]:
    """A cell after the list's own words: empty where nothing is to be entered of it."""
    cell, word = _worded(reading, column)
    if word.does == "note":
        _note(reading, f"{column}: {reading.row.cells[column]}", column=column, on=on)
    elif word.does == "refuse":
        reading.refuse(column, "word_refused")
    return cell, word


def _worded(reading: _Reading, column: str) -> tuple[str, Word]:
    cell = reading.row.cells[column]
    word = reading.columns.words.get(folded(cell), PLAIN) if cell else PLAIN
    return (word.value or cell) if word.does in ("keep", "value") else "", word


def _cell(reading: _Reading, role: str) -> str:
    columns = reading.columns
    return _meaning(reading, columns.of[role])[0] if role in columns.of else ""


def _day(reading: _Reading, role: str) -> str:
    cell = _cell(reading, role)
    return _read(reading, reading.columns.of[role], cell) if cell else ""


def _read(reading: _Reading, column: str, cell: str) -> str:
    try:
        return read_day(cell, reading.columns)
    except CellUnclear as unclear:
        reading.refuse(column, unclear.code, **unclear.facts)
        return ""


def _when(day: str, columns: Columns) -> dict[str, str]:
    """The day, or where the list gives none, the list's own, the latest that it can have been."""
    return {"happened": day} if day else {"happened": columns.listed_on, "happened_known": "on_or_before"}


def _opened(reading: _Reading, reported: str, *, number: str) -> Draft:
    columns = reading.columns
    said = {"kind": "leak_opened", "detected_by": "listed"}
    said |= {role: value for role, value in columns.constants.items() if role in OPENED}
    said |= _when(reported, columns) | ({"number": number} if number else {})
    where = {"happened": columns.of.get("reported", ""), "number": columns.of.get("number", "")}
    for role in (role for role in OPENED if role in columns.of):
        said[role], where[role] = _cell(reading, role), columns.of[role]
    if "address" in columns.of:
        said["house_number"], said["street"] = house_and_street(_cell(reading, "address"))
        where |= dict.fromkeys(("house_number", "street"), columns.of["address"])
    return Draft({name: value for name, value in said.items() if value}, where, ("opened",))


def _fields(
    reading: _Reading, roles: tuple[str, ...], meant: Mapping[str, str]
) -> tuple[dict[str, str], dict[str, str]]:
    """The fields that these roles fill, and the column of each."""
    columns = reading.columns
    said = {FIELD_OF.get(role, role): value for role, value in meant.items() if role in roles}
    where = {FIELD_OF.get(role, role): columns.of[role] for role in roles if role in columns.of}
    said |= {FIELD_OF.get(role, role): _cell(reading, role) for role in roles if role in columns.of}
    return {name: value for name, value in said.items() if value}, where


def _source(reading: _Reading) -> Iterator[Draft]:
    said, where = _fields(reading, SOURCE, reading.columns.constants)
    if said:
        yield Draft({"kind": "source_added"} | said | _when("", reading.columns), where, ("source",))


def _grades(reading: _Reading) -> Iterator[Draft]:
    columns = reading.columns
    graded = [*columns.grades, *([Graded(column=columns.of["grade"])] if "grade" in columns.of else ())]
    for each in graded:
        on = _when(_graded_on(reading, each), columns)
        grade, word = _meaning(reading, each.column, on=on)
        if not grade:
            continue
        if word is PLAIN and not is_grade(grade):
            _note(reading, f"{each.column}: {grade}", column=each.column, on=on)
            continue
        said = {"kind": "grade_set", "grade": grade} | on | ({"rank": word.rank} if word.rank else {})
        yield Draft(said, {"grade": each.column, "happened": each.on_column}, ("grade", *on.values()))


def _graded_on(reading: _Reading, graded: Graded) -> str:
    if not graded.on_column:
        return graded.on
    cell, _word = _worded(reading, graded.on_column)
    return _read(reading, graded.on_column, cell)[:10] if cell else ""


def _repair(reading: _Reading, repaired: str) -> Iterator[Draft]:
    """The attempt, where its kind and outcome are known, and the ending. What cannot stand in an attempt is a note."""
    columns = reading.columns
    said, where = _fields(reading, REPAIR, columns.repair)
    where |= {"happened": columns.of["repaired"]}
    when = {"happened": repaired}
    tried = "lasting" in said and "outcome" in said
    if tried:
        yield Draft({"kind": "repair_attempted"} | said | when, where, ("attempt",))
    else:
        for name in (name for name in said if where.get(name)):
            _note(reading, f"{where[name]}: {said[name]}", column=where[name], on=when)
    if tried and (said["lasting"] == "temporary" or said["outcome"] == "not_tight"):
        return  # the list itself says that the leak is not ended by it
    yield Draft({"kind": "leak_ended", "how": "repaired"} | when, where, ("ended",))


def _own_note(reading: _Reading) -> None:
    if "note" in reading.columns.of and (text := _cell(reading, "note")):
        _note(reading, text, column=reading.columns.of["note"])


def _note(reading: _Reading, text: str, *, column: str, on: dict[str, str] | None = None) -> None:
    said = {"kind": "note", "text": text} | (on or _when("", reading.columns))
    reading.notes.append(Draft(said, {"text": column}, ("note", text)))


def otherwise(columns: Columns, told: Mapping[str, str]) -> Draft:
    """A note that the list writes the leak's own fields otherwise than they stand. `told`: by the list's column."""
    told_as = "; ".join(f"{column}: {cell}" for column, cell in told.items())
    text = _("An old list of {day} says: {told}").format(day=columns.listed_on, told=told_as)
    return Draft({"kind": "note", "text": text} | _when("", columns), {}, ("note", text))
