"""How much gas a leak lost over its life: rates, each over its elapsed hours."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import pi
from zoneinfo import ZoneInfo

from repairlog.figures import dated, inputs
from repairlog.figures.asked import in_unit, needed, number, read_as
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.figures.moments import ZONE, has_offset, moment, zone_of
from repairlog.trade import flow, gas, loss
from repairlog.trade.unworkable import Unworkable
from repairlog.units import NotUnderstood, read
from repairlog.units.conversion import on_basis
from repairlog.units.measure import amount
from repairlog.words import _

EXAMPLES = '"30 scfh, 240 h", "2 scfh, 2025-03-01T08:00 to 2025-03-31T08:00", "@ 30 psi, 120 h"'

MEASURED, FREE, FACTOR = "measured", "blows-free", "factor"
HOLE = "hole "
COMMA = re.compile(r"(?<![0-9]),|,(?![0-9]{3}(?![0-9]))")
"""A comma that parts, as against the one in 1,000."""
NAMED = re.compile(r"([A-Za-z][^:,@]{0,40}): +(?=\S)")
"""What a segment is of, where it says so: `source 2: 30 scfh, 240 h`."""

USUAL_GRAVITY, USUAL_KELVINS = 0.6, 288.15

INPUTS = (
    Input(
        name="segment",
        kind="text",
        many=True,
        label=_("Rate, and for how long"),
        metavar="RATE, TIME",
        help=_(
            "Again for each stretch: {examples}. A rate @ a pressure may be followed by a new pressure alone,"
            " to which the rate is then scaled. A name before it, such as source 2:, keeps sources apart."
        ).format(examples=EXAMPLES),
    ),
    Input(
        name="basis",
        kind="choice",
        choices=(MEASURED, FREE, FACTOR),
        words={MEASURED: _("measured"), FREE: _("the gas blows free"), FACTOR: _("a factor")},
        label=_("Where the rates come from"),
        help=_(
            "measured; blows-free: the gas blows free, and a rate may be a hole, such as “hole 1/16 in @ 60 psi, 6 h”;"
            " factor. Measured and free-blowing gas alone is compared with what is to be reported."
        ),
    ),
    ZONE,
    inputs.METHANE_SHARE,
    inputs.YEAR,
    inputs.K_RATIO,
    inputs.ATMOSPHERE,
    inputs.ELEVATION,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rate:
    """`scfh` at `inside` (Pa absolute), or at a pressure not told where that is None; `factor`: from the one before."""

    scfh: float
    inside: float | None
    factor: float


def work(asked: Asked) -> Answer:
    """The sum over all segments, and each of them."""
    zone = zone_of(asked)
    segments: list[loss.Segment] = []
    steps: list[str] = []
    rates: list[_Rate] = []
    before: dict[str, _Rate] = {}
    for text in _texts(asked):
        name, (said, lasting) = _name(text), _halves(text)
        before[name] = _rate(said, before.get(name), asked=asked, whole=text)
        rates.append(before[name])
        segments.append(loss.Segment(rate_scfh=rates[-1].scfh, hours=_hours(lasting, zone=zone)))
        steps.append(_named(name, _step(rates[-1], segments[-1])))
    counted = dated.potential(int(number(asked, "year")) if "year" in asked.values else None)
    share = number(asked, "methane_share")
    volume = loss.volume_scf(segments)
    methane = volume * dated.methane_kg_per_ft3() * share
    return Answer(
        values=(
            Value(key="volume_scf", label=_("Gas lost"), worth=volume, unit="scf"),
            Value(key="hours", label=_over(before), worth=sum(it.hours for it in segments), unit="h", digits=4),
            Value(key="methane_kg", label=_("Methane"), worth=methane, unit="kg"),
            Value(key="co2e_t", label=_("As carbon dioxide"), worth=methane / 1000 * counted.value, unit="t CO2e"),
            Value(key="gwp", label=_("Counted with"), worth=counted.value, unit=counted.basis, digits=0),
            *_compared(asked, volume),
        ),
        parts={
            "segments": tuple(
                ({"of": name} if (name := _name(text)) else {})
                | {"rate_scfh": it.rate_scfh, "hours": it.hours, "volume_scf": it.rate_scfh * it.hours}
                for text, it in zip(_texts(asked), segments, strict=True)
            )
        },
        formula=_("sum of rate x elapsed hours; methane {density} kg/ft3 x {share:g}").format(
            density=dated.methane_kg_per_ft3(), share=share
        ),
        source=_("40 CFR 98.233 (u) for the density; {source} for the potential").format(source=counted.source),
        steps=tuple(steps),
        bounds=(_("as good as its rates; a rate is taken to hold until the next one"),),
        cautions=(*_about_basis(asked), *_about_moments(asked)),
        understood=_understood(asked, rates),
    )


def _texts(asked: Asked) -> tuple[str, ...]:
    segments = needed(asked, "segment")
    assert isinstance(segments, tuple)
    return segments


def _name(text: str) -> str:
    found = NAMED.match(text.strip())
    return found[1].strip() if found else ""


def _named(name: str, step: str) -> str:
    return f"{name}: {step}" if name else step


def _over(rated: Mapping[str, _Rate]) -> str:
    return _("Over") if len(rated) < 2 else _("Hours of all of them together")


def _understood(asked: Asked, rates: list[_Rate]) -> dict[str, str]:
    scaled = any(it.inside is not None for it in rates)
    told = {name: text for name, text in asked.shown.items() if scaled or name != "k" or "k" in asked.typed}
    told |= {"atmosphere": f"{asked.atmosphere_kpa} kPa absolute"} if scaled else {}
    of_hole = any(_halves(text)[0].startswith(HOLE) for text in _texts(asked))
    return told | ({"gas": _("gravity 0.6, 59 °F, Z = 1, coefficient 1")} if of_hole else {})


def _compared(asked: Asked, volume: float) -> tuple[Value, ...]:
    """Measured or free-blowing gas beside the volume that is to be reported; nothing for any other."""
    if asked.values.get("basis") not in (MEASURED, FREE):
        return ()
    limit = dated.report_threshold()
    said = _("{limit:,.0f} cubic feet ({clause})").format(limit=limit.cubic_feet, clause=limit.clause)
    reaches = volume >= limit.cubic_feet
    told = _("reaches {limit}") if reaches else _("stays below {limit}")
    return (
        Value(key="report_threshold_scf", worth=limit.cubic_feet),
        Value(key="reaches_threshold", worth="yes" if reaches else "no"),
        Value(key="against_threshold", label=_("What is to be reported"), worth=told.format(limit=said)),
    )


def _about_basis(asked: Asked) -> tuple[str, ...]:
    basis = asked.values.get("basis")
    if basis == FREE:
        return (_("For gas that blows free alone; the shape of the opening moves it by a quarter either way."),)
    buried = _("For a buried leak, a measured rate or a factor: a hole's flow holds for gas that blows free.")
    if basis == MEASURED:
        return (buried,)
    return (buried, _("Not compared with what is to be reported: neither measured nor blowing free."))


def _about_moments(asked: Asked) -> tuple[str, ...]:
    spans = [_halves(text)[1].split(" to ") for text in _texts(asked)]
    bare = any(not has_offset(at) for span in spans if len(span) == 2 for at in span)
    if "zone" in asked.values or not bare:
        return ()
    return (_("Moments without an offset were taken as UTC; name the zone where clocks change."),)


def _halves(text: str) -> tuple[str, str]:
    said, *rest = COMMA.split(NAMED.sub("", text, count=1) if _name(text) else text, maxsplit=1)
    if not rest or not rest[0].strip():
        raise Unworkable("not_written_so", field="segment", got=text[:80], would_have=EXAMPLES)
    return said.strip(), rest[0].strip()


def _rate(said: str, before: _Rate | None, *, asked: Asked, whole: str) -> _Rate:
    rate, at, pressure = (part.strip() for part in said.partition("@"))
    inside = _inside(pressure, asked) if at else None
    if rate.startswith(HOLE):
        return _of_hole(rate.removeprefix(HOLE), inside, asked=asked)
    if rate:
        return _Rate(scfh=rate_scfh(rate), inside=inside, factor=1.0)
    if before is None or before.inside is None or inside is None:
        raise Unworkable("no_rate_before", field="segment", got=whole[:80])
    outside = float(asked.atmosphere_kpa * 1000)
    if before.inside <= outside:
        raise Unworkable("no_escape", field="segment")
    try:
        factor = loss.rate_factor(before=before.inside, after=inside, outside=outside, k=number(asked, "k"))
    except Unworkable as complaint:
        raise Unworkable(complaint.code, field=_field(complaint), **complaint.facts) from None
    return _Rate(scfh=before.scfh * factor, inside=inside, factor=factor)


def _of_hole(across: str, inside: float | None, *, asked: Asked) -> _Rate:
    """What blows free of a hole: ideal gas of gravity 0.6 at 59 F, the whole isentropic flow, as `flow` works it.

    Raises `hole_not_free` where nobody said that it blows free, `hole_without_pressure`.
    """
    if asked.values.get("basis") != FREE:
        raise Unworkable("hole_not_free", field="segment", got=f"{HOLE}{across}"[:80])
    if inside is None:
        raise Unworkable("hole_without_pressure", field="segment", got=f"{HOLE}{across}"[:80])
    size = in_unit(read_as(across, "hole", field="segment"), unit="m")
    if size <= 0:
        raise Unworkable("not_above_zero", field="segment", got=across[:80])
    it = gas.of_gravity(USUAL_GRAVITY)
    try:
        found = flow.through_hole(
            area=pi / 4 * size**2,
            inside=inside,
            outside=float(asked.atmosphere_kpa * 1000),
            temperature=USUAL_KELVINS,
            molar_mass=it.molar_mass,
            k=number(asked, "k"),
            discharge=1.0,
            z=1.0,
        )
    except Unworkable as complaint:
        raise Unworkable(complaint.code, field=_field(complaint), **complaint.facts) from None
    return _Rate(scfh=gas.scfh(found.mass_flow_kg_s, gas=it), inside=inside, factor=1.0)


def _field(complaint: Unworkable) -> str:
    return complaint.field if complaint.field == "k" else "segment"


def _inside(text: str, asked: Asked) -> float:
    it = read_as(text, "pressure", field="segment", atmosphere=asked.atmosphere_kpa)
    return float(on_basis(amount(it), it, basis="absolute", atmosphere=asked.atmosphere_kpa).exact * 1000)


def rate_scfh(text: str, *, field: str = "segment") -> float:
    """A rate of gas, or of methane by mass, in scf/h; raises `Unworkable` in the words of the field."""
    try:
        by_mass = read(text, "mass rate")
    except NotUnderstood:
        return in_unit(read_as(text, "volume rate", field=field), unit="scf/h")
    return in_unit(by_mass, unit="kg/h") / dated.methane_kg_per_ft3()


def _hours(text: str, *, zone: ZoneInfo | None) -> float:
    begins, to, ends = text.partition(" to ")
    if not to:
        return in_unit(read_as(text, "duration", field="segment"), unit="h")
    first, last = (moment(it, zone=zone, field="segment", would_have=EXAMPLES) for it in (begins, ends))
    if last < first:
        raise Unworkable("ends_before", field="segment", got=text[:80])
    return (last - first).total_seconds() / 3600


def _step(rate: _Rate, it: loss.Segment) -> str:
    scaled = _(" (x {factor:.6g} for the pressure)").format(factor=rate.factor) if rate.factor != 1 else ""
    return _("{rate:,.6g} scf/h{scaled} x {hours:,.6g} h = {volume:,.6g} scf ({base})").format(
        rate=it.rate_scfh, scaled=scaled, hours=it.hours, volume=it.rate_scfh * it.hours, base=gas.BASE
    )


LOSS = Figure(
    name="loss",
    version="2",
    title=_("Gas lost over a leak's life"),
    help=_("Sum what a leak lost: each rate over its elapsed hours."),
    inputs=INPUTS,
    work=work,
)
