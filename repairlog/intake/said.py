"""From raw fields to what was said: plain values and flat rows, checked against the fields that a kind declares."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any
from uuid import UUID

from repairlog.entries.fields import Field, Rows
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import DID, KINDS
from repairlog.entries.moments import read_moment
from repairlog.intake.complaint import Complaint
from repairlog.intake.when import EARLIEST_YEAR, LATEST_YEAR

ROW_KEY = re.compile(r"[a-z0-9_]{1,40}")
AROUND = ("kind", "version", "id", "did", "typed", "written")
"""What every entry carries beside the fields of its kind."""

DIGEST = re.compile(r"[0-9a-f]{64}")

LEFT_OUT: tuple[object, ...] = (None, "", [], {})


@dataclass(slots=True)
class Said:
    """What was said in one entry of a call. `said`: as it will be sealed; `private`: values by path that will not be;
    `did`, `typed`, `written`: None where left out."""

    said: dict[str, Any] = field(default_factory=dict)
    private: dict[str, str] = field(default_factory=dict)
    did: list[dict[str, Any]] | None = None
    typed: UUID | None = None
    written: datetime | None = None


@dataclass(slots=True)
class Reading:
    """The complaints of one entry, as they are found."""

    position: int
    complaints: list[Complaint] = field(default_factory=list)

    def complain(self, path: str, code: str, **facts: str | list[str]) -> None:
        self.complaints.append(Complaint(entry=self.position, field=path, code=code, facts=facts))


def said_of(raw: object, position: int) -> tuple[Said, list[Complaint]]:
    """What one raw entry says, and what could not be read of it. `raw`: an object of texts, numbers and lists of flat
    objects, as JSON or a form gives it; empty texts, lists and objects count as left out."""
    reading, out = Reading(position), Said()
    if not isinstance(raw, Mapping):
        reading.complain("", "not_an_object")
        return out, reading.complaints
    kind = KINDS.get(raw.get("kind")) if isinstance(raw.get("kind"), str) else None
    if kind is None:
        reading.complain("kind", "kind_unknown", got=shown(raw.get("kind")), would_have=list(KINDS))
        return out, reading.complaints
    out.said = {"kind": kind.name, "version": kind.version}
    if str(raw.get("version", kind.version)) != str(kind.version):  # a form gives text
        reading.complain("version", "version_unknown", got=shown(raw["version"]), would_have=[str(kind.version)])
    _around(out, raw, reading)
    _fields(out, raw, kind.fields, reading, path="", known={*AROUND, *(rows.name for rows in kind.rows)})
    for rows in kind.rows:
        if read := _rows(out, raw.get(rows.name), rows, reading):
            out.said[rows.name] = read
    return out, reading.complaints


def _around(out: Said, raw: Mapping[str, Any], reading: Reading) -> None:
    try:
        out.said["id"] = str(read_id(shown(raw.get("id"))))
    except ValueError:
        reading.complain("id", "id_missing" if raw.get("id") in (None, "") else "not_an_id", got=shown(raw.get("id")))
    out.did = _rows(out, raw.get("did"), DID, reading) or None
    if raw.get("typed") not in LEFT_OUT:
        try:
            out.typed = read_id(shown(raw["typed"]))
        except ValueError:
            reading.complain("typed", "not_an_id", got=shown(raw["typed"]))
    if raw.get("written") not in LEFT_OUT:
        try:
            out.written = read_moment(shown(raw["written"]))
        except ValueError:
            reading.complain("written", "not_a_moment", got=shown(raw["written"]))
        else:
            if not EARLIEST_YEAR <= out.written.year <= LATEST_YEAR:
                years = {"least": str(EARLIEST_YEAR), "most": str(LATEST_YEAR)}
                reading.complain("written", "year_out_of_range", got=shown(raw["written"]), **years)


def _fields(
    out: Said, raw: Mapping[str, Any], fields: Iterable[Field], reading: Reading, *, path: str, known: set[str]
) -> None:
    """Read the fields of an entry into `out.said`."""
    for name in raw.keys() - known - {each.name for each in fields}:
        reading.complain(f"{path}{shown(name)}", "field_unknown", would_have=[each.name for each in fields])
    for each in fields:
        value = _value(each, raw.get(each.name), reading, path=path + each.name)
        if value is None:
            if each.required and not any(c.field == path + each.name for c in reading.complaints):
                reading.complain(path + each.name, "field_missing")
        elif each.private:
            out.private[path + each.name] = str(value)
        else:
            out.said[each.name] = value


def _rows(out: Said, raw: object, rows: Rows, reading: Reading) -> list[dict[str, Any]]:
    if raw is None or raw == "" or raw == []:
        return []
    if not isinstance(raw, list) or not all(isinstance(row, Mapping) for row in raw):
        reading.complain(rows.name, "not_a_list_of_rows")
        return []
    if len(raw) > rows.most:
        reading.complain(rows.name, "too_many_rows", most=str(rows.most), got=str(len(raw)))
        return []
    done: list[dict[str, Any]] = []
    for place, row in enumerate(raw):
        key = row.get("key")
        if not isinstance(key, str) or not ROW_KEY.fullmatch(key):
            reading.complain(f"{rows.name}.{place}", "row_key_unreadable", got=shown(key))
        elif any(before["key"] == key for before in done):
            reading.complain(f"{rows.name}.{key}", "row_key_twice", got=key)
        else:
            inner = Said()
            _fields(inner, row, rows.fields, reading, path=f"{rows.name}.{key}.", known={"key"})
            out.private |= inner.private
            if inner.said:
                done.append({"key": key} | inner.said)
                if rows.needs_one_of and not inner.said.keys() & set(rows.needs_one_of):
                    reading.complain(f"{rows.name}.{key}", "needs_one_of", would_have=list(rows.needs_one_of))
    return done


def _value(of: Field, raw: object, reading: Reading, *, path: str) -> str | int | None:
    if raw is None or raw == "":
        return None
    if of.kind == "whole":
        return _whole(of, raw, reading, path=path)
    if not isinstance(raw, str):
        reading.complain(path, "not_text", got=shown(raw))
        return None
    text = plain_text(raw)
    if not text:
        return None
    if len(text) > of.longest and of.kind in ("text", "measure", "when"):
        reading.complain(path, "too_long", longest=str(of.longest), got=str(len(text)))
    elif not is_clean(text):
        reading.complain(path, "control_characters")
    elif of.kind == "code" and text not in of.codes:
        reading.complain(path, "not_one_of", got=shown(text), would_have=list(of.codes))
    elif of.kind in ("ref", "entry", "hole") and not _is_id(text, of):
        reading.complain(path, "not_an_id", got=shown(text))
    elif of.kind == "digest" and not DIGEST.fullmatch(text):
        reading.complain(path, "not_a_digest", got=shown(text))
    elif of.kind == "day" and not _is_day(text):
        reading.complain(path, "not_a_day", got=shown(text))
    else:
        return text
    return None


def plain_text(raw: str) -> str:
    """Text as it is sealed: NFC, line ends of one kind, nothing blank around it."""
    return unicodedata.normalize("NFC", raw).replace("\r\n", "\n").replace("\r", "\n").strip()


def is_clean(text: str) -> bool:
    """Whether text holds no control characters but line ends and tabs, and no half of a surrogate pair."""
    if text.isprintable():  # nearly all text is, and is told so at once
        return True
    return all(char in "\n\t" or unicodedata.category(char) not in ("Cc", "Cs") for char in text)


def _whole(of: Field, raw: object, reading: Reading, *, path: str) -> int | None:
    text = str(raw).strip() if isinstance(raw, int | str) and not isinstance(raw, bool) else ""
    if not re.fullmatch(r"[0-9]{1,16}", text):
        reading.complain(path, "not_a_whole_number", got=shown(raw))
        return None
    if not of.least <= int(text) <= of.most:
        reading.complain(path, "out_of_range", got=text, least=str(of.least), most=str(of.most))
        return None
    return int(text)


def _is_id(text: str, of: Field) -> bool:
    id, slash, key = text.partition("/")
    try:
        read_id(id)
    except ValueError:
        return False
    return bool(slash and ROW_KEY.fullmatch(key)) if of.kind == "hole" else not slash


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def shown(raw: object) -> str:
    """What came, short enough to be shown, and such that it can be written anywhere."""
    return str(raw if raw is not None else "")[:80].encode("utf-8", "replace").decode()
