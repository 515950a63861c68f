"""Reading a columns file: everything wrong in it is told at once, each with the key where it stands."""

from __future__ import annotations

import codecs
import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from difflib import get_close_matches
from typing import Any

from repairlog.entries.kinds import KINDS, field_at
from repairlog.intake.lists.declared import (
    FIELD_OF,
    KINDS_OF_LIST,
    OPENED,
    ORDERS,
    REPAIR,
    ROLES,
    SOURCE,
    Columns,
    Graded,
    Word,
)
from repairlog.intake.said import plain_text

TOP = (
    *("kind", "identity", "dates", "listed_on", "encoding", "separator"),
    *("columns", "grade_on", "words", "constants", "repair"),
)
COMMANDS = {"no entry": "nothing", "note": "note", "refuse": "refuse"}
CONSTANT = tuple(role for role in (*OPENED, *SOURCE) if role not in ("house_number", "street"))
KIND_OF = {**dict.fromkeys(OPENED, "leak_opened"), **dict.fromkeys(SOURCE, "source_added")}
KIND_OF |= dict.fromkeys(REPAIR, "repair_attempted")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """One thing wrong in a columns file. `key`: where it stands, such as `columns.number`. `got`, `expected`: what came
    and what was expected; `perhaps`: what was perhaps meant. Each empty where there is none."""

    key: str
    code: str
    got: str = ""
    expected: str = ""
    perhaps: str = ""


class ColumnsWrong(Exception):
    """The columns file cannot be used. `wrongs`: everything that is wrong in it."""

    def __init__(self, wrongs: list[Wrong]) -> None:
        super().__init__("; ".join(f"{wrong.key}: {wrong.code}" for wrong in wrongs))
        self.wrongs = wrongs


@dataclass(slots=True)
class _Reading:
    """What is found wrong on the way."""

    wrongs: list[Wrong] = field(default_factory=list)

    def wrong(self, key: str, code: str, *, got: object = "", among: Collection[str] = (), expected: str = "") -> None:
        shown = str(got)[:80]
        perhaps = close_to(shown, among)
        said = expected or ", ".join(among)
        self.wrongs.append(Wrong(key=key, code=code, got=shown, expected=said, perhaps=perhaps))


def close_to(got: str, among: Collection[str]) -> str:
    """The name among those that was perhaps meant; empty where none is near."""
    folded = {each.casefold(): each for each in among}
    near = get_close_matches(got.casefold(), list(folded), n=1)
    return folded[near[0]] if near else ""


def read_columns(raw: bytes) -> Columns:
    """The columns file with these bytes. Raises ColumnsWrong."""
    try:
        told = tomllib.loads(raw.decode("utf-8-sig"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
        raise ColumnsWrong([Wrong(key="", code="not_toml", got=str(problem))]) from problem
    reading = _Reading()
    _known_keys(told, TOP, "", reading)
    order, two_digits = _dates(_table(told, "dates", reading), reading)
    columns = Columns(
        kind=_one_of(told.get("kind"), "kind", KINDS_OF_LIST, reading),
        order=order,
        two_digit_years_from=two_digits,
        listed_on=_day(told.get("listed_on"), "listed_on", reading),
        encoding=_encoding(told.get("encoding", "utf-8"), reading),
        separator=_separator(told.get("separator", ","), reading),
        identity=_identity(told, reading),
        of=_roles(_table(told, "columns", reading), reading),
        grades=_grades(told, reading),
        words=_words(_table(told, "words", reading), reading),
        constants=_meant(_table(told, "constants", reading), "constants", CONSTANT, reading),
        repair=_meant(_table(told, "repair", reading), "repair", REPAIR, reading),
    )
    _hangs_together(columns, reading)
    if reading.wrongs:
        raise ColumnsWrong(reading.wrongs)
    return columns


def _known_keys(told: Mapping[str, Any], known: Collection[str], of: str, reading: _Reading) -> None:
    for key in told:
        if key not in known:
            reading.wrong(f"{of}{key}", "key_unknown", got=key, among=known)


def _table(told: Mapping[str, Any], key: str, reading: _Reading) -> Mapping[str, Any]:
    table = told.get(key, {})
    if isinstance(table, dict):
        return table
    reading.wrong(key, "not_a_table", got=table)
    return {}


def _text(value: object, key: str, reading: _Reading) -> str:
    if isinstance(value, str) and plain_text(value):
        return plain_text(value)
    reading.wrong(key, "missing" if value in (None, "") else "not_text", got=value if value is not None else "")
    return ""


def _one_of(value: object, key: str, among: Collection[str], reading: _Reading) -> str:
    if value in (None, ""):
        reading.wrong(key, "missing", among=among)
        return ""
    if value not in among:
        reading.wrong(key, "not_one_of", got=value, among=among)
        return ""
    return str(value)


def _day(value: object, key: str, reading: _Reading) -> str:
    """A day of TOML, or the same as text."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value.isoformat()
    try:
        if isinstance(value, str):
            return date.fromisoformat(value).isoformat()
    except ValueError:
        pass
    reading.wrong(key, "missing" if value is None else "not_a_day", got="" if value is None else value)
    return ""


def _dates(told: Mapping[str, Any], reading: _Reading) -> tuple[str, int | None]:
    _known_keys(told, ("order", "two_digit_years_from"), "dates.", reading)
    order = _one_of(told.get("order"), "dates.order", ORDERS, reading)
    since = told.get("two_digit_years_from")
    if since is not None and (not isinstance(since, int) or isinstance(since, bool) or not 1800 <= since <= 2999):
        reading.wrong("dates.two_digit_years_from", "not_a_year", got=since)
        since = None
    return order, since


def _encoding(value: object, reading: _Reading) -> str:
    try:
        if isinstance(value, str) and "a".encode(value).decode(value) == "a":
            return codecs.lookup(value).name
    except (LookupError, UnicodeError):
        pass
    reading.wrong("encoding", "encoding_unknown", got=value, among=("utf-8", "windows-1252", "iso-8859-1", "mac-roman"))
    return "utf-8"


def _separator(value: object, reading: _Reading) -> str:
    if isinstance(value, str) and value in (",", ";", "\t", "|"):
        return value
    reading.wrong("separator", "not_one_of", got=value, expected='"," ";" "\\t" "|"')
    return ","


def _identity(told: Mapping[str, Any], reading: _Reading) -> tuple[str, ...]:
    """The columns that make a leak; none where its number does."""
    value = told.get("identity", "number")
    if value == "number":
        return ()
    if isinstance(value, list) and value:
        return tuple(_text(each, "identity", reading) for each in value)
    reading.wrong("identity", "not_an_identity", got=value)
    return ()


def _roles(told: Mapping[str, Any], reading: _Reading) -> dict[str, str]:
    _known_keys(told, ROLES, "columns.", reading)
    return {role: _text(column, f"columns.{role}", reading) for role, column in told.items() if role in ROLES}


def _grades(told: Mapping[str, Any], reading: _Reading) -> tuple[Graded, ...]:
    tables = told.get("grade_on", [])
    if not isinstance(tables, list) or not all(isinstance(each, dict) for each in tables):
        reading.wrong("grade_on", "not_a_list_of_tables", got=tables)
        return ()
    return tuple(_graded(each, f"grade_on {place}.", reading) for place, each in enumerate(tables, start=1))


def _graded(told: Mapping[str, Any], at: str, reading: _Reading) -> Graded:
    _known_keys(told, ("column", "on", "on_column"), at, reading)
    if ("on" in told) == ("on_column" in told):
        reading.wrong(at[:-1], "one_of_on_and_on_column")
    return Graded(
        column=_text(told.get("column"), f"{at}column", reading),
        on=_day(told["on"], f"{at}on", reading) if "on" in told else "",
        on_column=_text(told["on_column"], f"{at}on_column", reading) if "on_column" in told else "",
    )


def _words(told: Mapping[str, Any], reading: _Reading) -> dict[str, Word]:
    return {folded(word): _word(means, f"words.{word}", reading) for word, means in told.items()}


def folded(cell: str) -> str:
    """A cell as words are looked up: case folded, every run of blanks one."""
    return " ".join(cell.casefold().split())


def _word(means: object, key: str, reading: _Reading) -> Word:
    if isinstance(means, str) and means in COMMANDS:
        return Word(does=COMMANDS[means])  # type: ignore[arg-type]
    if isinstance(means, str) and plain_text(means):
        if perhaps := close_to(means, COMMANDS):
            reading.wrong(key, "word_unclear", got=means, among=(perhaps,))
        return Word(does="value", value=plain_text(means))
    if isinstance(means, dict):
        return _word_of_table(means, key, reading)
    reading.wrong(key, "not_a_meaning", got=means)
    return Word(does="nothing")


def _word_of_table(means: Mapping[str, Any], key: str, reading: _Reading) -> Word:
    """`{ keep = true, rank = 2 }`, or `{ value = "2A", rank = 2 }`."""
    _known_keys(means, ("keep", "value", "rank"), f"{key}.", reading)
    rank = means.get("rank")
    if rank is not None and (not isinstance(rank, int) or isinstance(rank, bool) or not 1 <= rank <= 99):
        reading.wrong(f"{key}.rank", "not_a_rank", got=rank)
        rank = None
    if "value" in means and "keep" not in means:
        return Word(does="value", value=_text(means["value"], f"{key}.value", reading), rank=rank)
    if means.get("keep") is not True:
        reading.wrong(key, "not_a_meaning", got=means)
    return Word(does="keep", rank=rank)


def _meant(told: Mapping[str, Any], of: str, among: Collection[str], reading: _Reading) -> dict[str, str]:
    """What every row says, by role; a code is one of its field's."""
    _known_keys(told, among, f"{of}.", reading)
    meant = {}
    for role, value in told.items():
        if role not in among:
            continue
        meant[role] = _text(value, f"{of}.{role}", reading)
        field_of = field_at(KINDS[KIND_OF[role]], FIELD_OF.get(role, role))
        if field_of and field_of.codes and meant[role] and meant[role] not in field_of.codes:
            reading.wrong(f"{of}.{role}", "not_one_of", got=meant[role], among=field_of.codes)
    return meant


def _hangs_together(of: Columns, reading: _Reading) -> None:
    """What must be named together, and what excludes what."""
    if not of.of:
        reading.wrong("columns", "missing", among=ROLES)
    if of.kind == "repairs" and "repaired" not in of.of:
        reading.wrong("columns.repaired", "repaired_missing")
    if of.kind == "leaks":
        for key in [
            *(f"columns.{role}" for role in ("repaired", *REPAIR) if role in of.of),
            *["repair"] * bool(of.repair),
        ]:
            reading.wrong(key, "not_of_open_leaks")
    if "number" in of.of and of.identity:
        reading.wrong("identity", "number_or_identity")
    if "number" not in of.of and not of.identity:
        reading.wrong("identity", "identity_missing")
    if "address" in of.of and {"house_number", "street"} & of.of.keys():
        reading.wrong("columns.address", "address_or_its_parts")
    for role in of.of.keys() & {*of.constants, *of.repair}:
        reading.wrong(f"{'repair' if role in of.repair else 'constants'}.{role}", "column_or_constant")
    known = {*of.repair, *of.of} & {"lasting", "outcome"}
    if len(known) == 1:
        reading.wrong("repair", "lasting_and_outcome", got=known.pop())
