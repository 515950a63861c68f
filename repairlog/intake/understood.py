"""From what was said to what is understood: legal days, measures in canonical units, ranks. Worked out once, sealed,
and never parsed again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from functools import cache
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo, available_timezones

from repairlog import units
from repairlog.entries.entry import Moments, offset_ms
from repairlog.entries.fields import EntryKind, Field
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, field_at
from repairlog.entries.moments import moment_text
from repairlog.intake.known import NOT_THERE_YET, Known
from repairlog.intake.measures import atmosphere_of, lel_basis_of, read_measure
from repairlog.intake.rulebooks import demand_known
from repairlog.intake.said import Reading, Said
from repairlog.intake.when import When, WhenUnclear, is_in_the_future, read_when
from repairlog.trade.area import Area
from repairlog.trade.grade import rank_of


@dataclass(slots=True)
class Understanding:
    """`understood`: by path, as it will be sealed. `rests_on`, `read_up_to`: as in `Entry`."""

    understood: dict[str, Any] = field(default_factory=dict)
    rests_on: dict[UUID, int] = field(default_factory=dict)
    read_up_to: int | None = None


def understood_of(said: Mapping[str, Any], *, known: Known, moments: Moments, reading: Reading) -> Understanding:
    """What is made of an entry that says when it happened. Complaints go to `reading`."""
    kind = KINDS[said["kind"]]
    out = Understanding()
    _kinds_named(said, kind, known, reading)
    _kept_as_text(said, kind, reading)
    if kind.opens == "area":
        _area_code(said, known, reading)
    demand_known(said, known.rulebooks, reading=reading)
    zone = _zone(said, kind, known)
    if not zone or not is_zone(zone):
        reading.complain("zone" if "zone" in said else kind.folds_in or "area", "zone_unknown", got=zone)
        return out
    area = _area(said, kind, known)
    if area and area.settings_version != NOT_THERE_YET:
        out.rests_on[area.id] = area.settings_version
    if area and area.typing_hours is not None:
        out.understood["typed_within"] = f"{area.typing_hours} h"
    _whens(out, said, kind, zone=zone, moments=moments, reading=reading)
    _measures(out, said, kind, area=area, reading=reading)
    if "grade" in said:
        rank = rank_of(said["grade"], given=said.get("rank"))
        out.understood |= {"rank": rank} if rank is not None else {}
    return out


def read_so_far(said: Mapping[str, Any], kind: EntryKind, *, area: Area, moments: Moments) -> dict[str, Any]:
    """What is made of the measures, days and moments of an entry that is still being typed; what cannot be read yet is
    left out."""
    out, unread = Understanding(), Reading(0)
    _whens(out, said, kind, zone=area.zone, moments=moments, reading=unread)
    _measures(out, said, kind, area=area, reading=unread)
    return out.understood


def is_zone(name: str) -> bool:
    """Whether that is a time zone of the IANA database, the same on every machine."""
    return name in _zones()


@cache  # the folders are walked once
def _zones() -> frozenset[str]:
    """Without what machines keep beside it: their own zone, and clocks that count leap seconds (`right/...`)."""
    return frozenset(available_timezones()) - {"localtime", "Factory"}


def is_area_code(text: str) -> bool:
    """Whether leak numbers may start with it: letters and digits of ASCII. How long it may be, its field says."""
    return text.isalnum() and text.isascii()


def put_when(understood: dict[str, Any], when: When, *, stem: str, zone: str) -> None:
    """Put a day or a moment into what is understood; `happened` brings its zone."""
    understood[f"{stem}_on"] = when.on.isoformat()
    offset = "utc_offset" if stem == "happened" else f"{stem}_utc_offset"
    if when.at is not None:
        understood |= {f"{stem}_at": moment_text(when.at), offset: when.offset}
    if stem == "happened":
        understood["zone"] = zone


def _kinds_named(said: Mapping[str, Any], kind: EntryKind, known: Known, reading: Reading) -> None:
    """A subject that is there must be of the kind that the field asks for; one that is not there may come yet."""
    for path, of, value in _refs(said, kind):
        row = known.subjects.get(read_id(value))
        would_have = [of.refers_to] if of.refers_to else list(of.among)
        if row and would_have and row.kind not in would_have:
            reading.complain(path, "subject_of_other_kind", got=row.kind, would_have=would_have)


def people_named(said: Said, known: Known, *, reading: Reading) -> None:
    """Who did it and who typed it are people, where they are on the books."""
    named = [(f"did.{row['key']}.person", read_id(row["person"])) for row in said.did or () if "person" in row]
    for path, id in [*named, *([("typed", said.typed)] if said.typed else [])]:
        row = known.subjects.get(id)
        if row and row.kind != "person":
            reading.complain(path, "subject_of_other_kind", got=row.kind, would_have=["person"])


def _kept_as_text(said: Mapping[str, Any], kind: EntryKind, reading: Reading) -> None:
    """Only a measure is kept as text."""
    for row in said.get("kept_as_text", ()):
        of = field_at(kind, row["field"])
        if of is None or of.kind != "measure":
            reading.complain(f"kept_as_text.{row['key']}.field", "not_a_measure", got=row["field"])


def _area_code(said: Mapping[str, Any], known: Known, reading: Reading) -> None:
    """The numbers of an area's leaks start with its code: letters and digits, and no other area's."""
    code = said["code"]
    if not is_area_code(code):
        reading.complain("code", "area_code_unreadable", got=code)
    for area in known.areas.values():
        if area.code.casefold() == code.casefold() and str(area.id) != said["id"]:
            reading.complain("code", "area_code_taken", got=code, by=area.name)


def _refs(said: Mapping[str, Any], kind: EntryKind) -> Iterator[tuple[str, Field, str]]:
    for of, path, row in all_fields(said, kind):
        if of.kind == "ref" and of.name in row:
            yield path, of, row[of.name]


def all_fields(said: Mapping[str, Any], kind: EntryKind) -> Iterator[tuple[Field, str, Mapping[str, Any]]]:
    """Every declared field with its path and the entry or row that may say something under its name."""
    for of in kind.fields:
        yield of, of.name, said
    for rows in kind.rows:
        for row in said.get(rows.name, ()):
            for of in rows.fields:
                yield of, f"{rows.name}.{row['key']}.{of.name}", row


def _zone(said: Mapping[str, Any], kind: EntryKind, known: Known) -> str:
    if "zone" in said:
        return str(said["zone"])
    area = _area(said, kind, known)
    return area.zone if area else known.operator_zone


def _area(said: Mapping[str, Any], kind: EntryKind, known: Known) -> Area | None:
    where = said.get("area") or said.get(kind.folds_in)
    return known.area_of(read_id(where), on=str(said.get("happened", ""))[:10]) if where else None


def _whens(
    out: Understanding,
    said: Mapping[str, Any],
    kind: EntryKind,
    *,
    zone: str,
    moments: Moments,
    reading: Reading,
) -> None:
    for of in (each for each in kind.fields if each.kind == "when" and each.name in said):
        try:
            when = read_when(said[of.name], zone)
        except WhenUnclear as unclear:
            reading.complain(of.name, unclear.code, **unclear.facts)
            continue
        if not of.ahead and is_in_the_future(when, now=moments.received, offset_ms=offset_ms(moments), zone=zone):
            reading.complain(of.name, "in_the_future", got=said[of.name], received=_local(moments.received, zone))
        put_when(out.understood, when, stem=of.name, zone=zone)
    if "happened_known" in said:
        out.understood["happened_known"] = said["happened_known"]
        if "happened_at" in out.understood:
            reading.complain("happened_known", "hour_of_a_day_not_known", got=said["happened"])


def _measures(
    out: Understanding, said: Mapping[str, Any], kind: EntryKind, *, area: Area | None, reading: Reading
) -> None:
    insisted = {row["field"] for row in said.get("kept_as_text", ())}
    for of, path, row in all_fields(said, kind):
        if of.kind != "measure" or of.name not in row:
            continue
        try:
            read = read_measure(of, row, area=area)
        except units.NotUnderstood as unclear:
            if path not in insisted:
                reading.complain(path, unclear.code, **unclear.facts)
            continue
        out.understood |= {path: read.canonical, "units": units.TABLE_DIGEST}
        if of.quantity == "pressure":
            out.understood["atmosphere"] = f"{atmosphere_of(area).normalize():f} kPa absolute"
        if read.lel_basis is not None:
            _lel_basis(out.understood, path, read.lel_basis, usual=lel_basis_of(area))


def _lel_basis(understood: dict[str, Any], path: str, basis: Decimal, *, usual: Decimal) -> None:
    """The area's basis once for the entry; a reading that says another, beside that reading."""
    key = "lel_basis" if basis == usual else f"{path.rpartition('.')[0]}.lel_basis"
    understood[key] = f"{basis:f}"


def _local(moment: datetime, zone: str) -> str:
    return f"{moment.astimezone(ZoneInfo(zone)):%Y-%m-%d %H:%M}"
