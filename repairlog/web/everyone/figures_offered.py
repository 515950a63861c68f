"""Which figures suit which entry of a leak's sheet, each with the entry's own values in its address."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any
from uuid import UUID

from flask import url_for

from repairlog.entries.entry import Standing
from repairlog.figures import pipe_tables
from repairlog.figures.pipe_tables import COPPER, PLASTIC, STEEL
from repairlog.figures.told import honest
from repairlog.records.story import Story
from repairlog.trade.sources import Known, known_by
from repairlog.trade.unworkable import Unworkable
from repairlog.units import split_canonical
from repairlog.words import _

Values = dict[str, Any]

MATERIALS = {"steel": STEEL, "copper": COPPER, "plastic_pe": PLASTIC, "plastic_other": PLASTIC}
LINES = {"main": "main", "service": "service"}
SEA_LEVEL = "101.325 kPa absolute"


def offered(told: Story) -> dict[UUID, list[tuple[str, str]]]:
    """By entry that stands, the name and address of each figure that its values go into."""
    leak = str(told.leak.opened.id)
    live = [each.entry for each in told.told if each.entry.void is None]
    sources = {str(each.id): each.known for each in told.leak.sources}
    return {
        entry.id: [
            (name, url_for("figures.one", figure=figure, leak=leak, from_entry=entry.id, **values))
            for name, figure, values in _of(entry, sources)
        ]
        for entry in live
    }


def _of(entry: Standing, sources: Mapping[str, Known]) -> Iterator[tuple[str, str, Values]]:
    """A source's own entries and a repair on it go by what was known of it when they happened."""
    source = sources.get(str(entry.id) if entry.kind == "source_added" else entry.text("source"))
    known = known_by(source, entry) if source else None
    if entry.kind in ("source_added", "source_changed") and known:
        yield from _of_pipe(known, at=_atmosphere(entry))
    elif entry.kind == "repair_attempted":
        yield from _of_repair(entry, known)
    elif entry.kind == "tested" and entry.text("kind_of_test") == "pressure_hold":
        yield _("Pressure held"), "hold", _held(entry)


def _of_repair(entry: Standing, source: Known | None) -> Iterator[tuple[str, str, Values]]:
    hole, temperature = _typed(entry, "hole_size"), _typed(entry, "pipe_temperature")
    pressure = _typed(entry, "pressure_found") or (_told(source, "pressure") if source else "")
    if hole:
        yield _("Flow through the hole"), "flow", _said(hole=hole, pressure=pressure) | _atmosphere(entry)
    if od := _outside(source) if source else "":
        yield _("Tape"), "wrap", _said(od=od)
    if temperature:
        yield _("Cure"), "cure", _said(temperature=temperature)


def _of_pipe(source: Known, *, at: Values) -> Iterator[tuple[str, str, Values]]:
    material, nps = MATERIALS.get(source.text("material"), ""), _inches(source)
    if material and nps:
        line = LINES.get(source.text("part"), "")
        said = _said(material=material, nps=nps, pressure=_told(source, "pressure"), line=line)
        yield _("Pipe"), "pipe", said | at


def _held(entry: Standing) -> Values:
    read = entry.understood.get("duration")
    hours = honest(float(split_canonical(str(read)).value) / 3600, digits=6).rstrip("0").rstrip(".") if read else ""
    return _said(start=_typed(entry, "pressure"), hours=hours) | _atmosphere(entry)


def _typed(entry: Standing, name: str) -> str:
    """A measure as it was typed; empty where it could not be understood."""
    return entry.text(name) if name in entry.understood else ""


def _told(source: Known, name: str) -> str:
    """A measure of a source as it was typed; empty where nobody told it, or it could not be understood."""
    return _typed(source.told_by[name], name) if name in source.told_by else ""


def _inches(source: Known) -> str:
    """The nominal size as it stands before its unit; empty where it was not told in inches."""
    size = _told(source, "size").strip()
    for unit in ("inches", "inch", "in.", "in", '"'):
        if size.casefold().endswith(unit):
            return size[: -len(unit)].strip()
    return ""


def _outside(source: Known) -> str:
    """The outside diameter of its pipe by the tables; empty where they have none of that size."""
    material, nps = MATERIALS.get(source.text("material"), ""), _inches(source)
    try:
        if material == STEEL and nps:
            return f"{pipe_tables.steel(nps, schedule='40').od:g} in"
        return f"{pipe_tables.copper(nps).od:g} in" if material == COPPER and nps else ""
    except Unworkable:
        return ""


def _atmosphere(entry: Standing) -> Values:
    """The atmosphere that its pressures were read on, where that is not the one of the sea."""
    at = str(entry.understood.get("atmosphere", ""))
    return {"atmosphere": at} if at not in ("", SEA_LEVEL) else {}


def _said(**values: str) -> dict[str, str]:
    return {name: text for name, text in values.items() if text}
