"""The places of a visit, each with what was read there: zeros are readings, and a place not entered says why."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from repairlog.entries.entry import Standing
from repairlog.entries.fields import Field
from repairlog.entries.kinds import KINDS, rows_named
from repairlog.records.story import Told
from repairlog.words import _
from repairlog.words.story.fields import NOTHING, Shown, keys_of, piece, row_of, value
from repairlog.words.story.pieces import Item, Piece
from repairlog.words.story.reader import Reader, small


def looked_at(reader: Reader, told: Told) -> Iterator[Item]:
    """An item for each place, and one for what was read at none of them."""
    places = keys_of(told, "places")
    read_at = {key: _place_of(told, key) for key in keys_of(told, "readings")}
    for place in places:
        yield _item(reader, told, place, [key for key, at in read_at.items() if at == place])
    for key in (key for key, at in read_at.items() if at not in places):
        yield Item(label=_("Reading"), pieces=_readings(reader, told, [key]))


def _place_of(told: Told, reading: str) -> str:
    """The key of the place of a reading; of one that was taken away, of the place where it stood."""
    rows = [row_of(version, "readings", key=reading) for version in (*told.was, told.entry)]
    return next((row.get("place", "") for row in reversed(rows) if row), "")


def _item(reader: Reader, told: Told, place: str, readings: list[str]) -> Item:
    where = piece(told, lambda version: (_where(reader, version, place), ""))
    pieces = list(_readings(reader, told, readings))
    if entered := piece(told, lambda version: _not_entered(version, place)):
        pieces.append(entered)
    if where and where.was:
        pieces.append(Piece(text=where.text, also=_("place corrected"), was=where.was))
    if not pieces:
        pieces.append(Piece(text=_("no reading"), also=""))
    return Item(label=where.text if where and where.text else _("A place taken away since"), pieces=tuple(pieces))


def _where(reader: Reader, version: Standing, place: str) -> str:
    """`Bar hole 2, over the service, telephone, 30 ft gauge`: what, which, whose, how far from the building."""
    row = row_of(version, "places", key=place)
    if row is None:
        return ""
    kind = reader.word(row.get("kind", "other"))
    number = reader.holes.get(f"{version.id}/{place}") if row.get("kind") == "bar_hole" else None
    name = _("{kind} {number}").format(kind=kind, number=number) if number else kind
    owner = row.get("owner", "")
    whose = small(reader.word(owner)) if owner not in ("", "gas") else ""
    return ", ".join(filter(None, (name, row.get("label", ""), whose, _distance(reader, version, place))))


def _distance(reader: Reader, version: Standing, place: str) -> str:
    text, also = value(reader, version, field=_field("places", "from_building"), path=f"places.{place}.from_building")
    if not text:
        return ""
    far = _("{distance} from the building").format(distance=text)
    return f"{far} ({also})" if also else far


def _not_entered(version: Standing, place: str) -> Shown:
    row = row_of(version, "places", key=place) or {}
    return (_("not entered"), row["not_entered"]) if row.get("not_entered") else NOTHING


def _readings(reader: Reader, told: Told, keys: list[str]) -> tuple[Piece, ...]:
    found = [piece(told, partial(_reading, reader, key=key)) for key in keys]
    return tuple(each for each in found if each)


def _reading(reader: Reader, version: Standing, *, key: str) -> Shown:
    row = row_of(version, "readings", key=key)
    if row is None:
        return NOTHING
    text, also = value(reader, version, field=_field("readings", "value"), path=f"readings.{key}.value")
    gas = row.get("gas", "methane")
    said = [row.get("kind", ""), gas if gas != "methane" else ""]
    words = [small(reader.word(code)) for code in said if code]
    return text, ", ".join(filter(None, (also, *words, row.get("instrument", ""))))


def _field(rows: str, name: str) -> Field:
    of = rows_named(KINDS["visit"], rows)
    return next(field for field in of.fields if field.name == name) if of else Field(name=name, kind="text", says=name)
