"""A reading in another unit: across families where a density says how, and from one base of gas to another."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from repairlog.figures import dated
from repairlog.figures.asked import in_unit_exact, read_as
from repairlog.trade.unworkable import Unworkable
from repairlog.units import STANDARD_LEL, Converted, Measure, NotUnderstood, convert, quantities_of, read
from repairlog.units.exact import plain, rounded
from repairlog.units.signs import as_typed, plainly
from repairlog.units.spellings import unit_in_family
from repairlog.units.table import UNITS
from repairlog.words import _

DIGITS = 12
BY_DENSITY = {"mass": "volume", "volume": "mass", "mass rate": "volume rate", "volume rate": "mass rate"}
OF_GAS = ("volume", "volume rate")


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """What a cubic foot is counted at: K, and kPa absolute."""

    kelvins: Fraction
    kpa: Fraction
    typed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A reading, its value in the unit as asked (twelve significant digits), its canonical text in the family that was
    asked for, and what was taken beside it."""

    measure: Measure
    value: Decimal
    asked: str
    canonical: str
    taken: tuple[str, ...]


def found(
    reading: str,
    to: str,
    *,
    quantity: str | None,
    atmosphere: Decimal,
    lel_basis: Decimal | None,
    bases: tuple[Base, Base] | None,
) -> Found:
    """The reading in that unit; raises `NotUnderstood` or `Unworkable`. `bases`: from one, to the other."""
    measure, wanted = _read(reading, to, quantity=quantity, atmosphere=atmosphere, lel_basis=lel_basis)
    if bases is not None and not measure.quantity == wanted in OF_GAS:
        raise Unworkable("base_of_gas_alone", field="from_base", got=measure.typed)
    if measure.quantity != wanted:
        return _by_density(measure, to, wanted=wanted)
    it = convert(measure, to, atmosphere=atmosphere, lel_basis=lel_basis)
    if bases is not None:
        return _at_other_base(measure, it, to, bases=bases)
    return Found(measure=measure, value=it.value, asked=to.strip(), canonical=it.canonical, taken=_columns(measure, to))


def base(text: str, *, field: str) -> Base:
    """A base as typed, `60 F, 14.73 psia`; raises `Unworkable`."""
    temperature, comma, pressure = text.partition(",")
    if not comma:
        raise Unworkable("not_written_so", field=field, got=text[:80], would_have="60 F, 14.73 psia")
    return Base(
        kelvins=in_unit_exact(read_as(temperature, "temperature", field=field), unit="K"),
        kpa=in_unit_exact(read_as(pressure, "atmosphere", field=field), unit="kPa"),
        typed=text.strip(),
    )


def own_unit(reading: str) -> str:
    """The unit of a volume or a rate of gas as it was typed; raises `NotUnderstood`."""
    try:
        return read(reading, "volume").unit
    except NotUnderstood:
        return read(reading, "volume rate").unit


def _read(
    reading: str, to: str, *, quantity: str | None, atmosphere: Decimal, lel_basis: Decimal | None
) -> tuple[Measure, str]:
    """The reading, and the quantity to give it in: the first that has the unit asked for and in which it, or its
    partner by density, can be read."""
    basis = STANDARD_LEL if lel_basis is None else lel_basis
    told: list[NotUnderstood] = []
    for name in (quantity,) if quantity else quantities_of(to):
        for tried in filter(None, (name, BY_DENSITY.get(name))):
            try:
                measure = read(reading, tried, atmosphere=atmosphere, lel_basis=basis)
            except NotUnderstood as complaint:
                told.append(complaint)
                continue
            asked_for = next(iter(quantities_of(to)), tried)
            return measure, asked_for if asked_for == BY_DENSITY.get(tried) else tried
    # What is wrong with a reading whose unit fits says more than that its unit fits no other quantity.
    of_itself = [it for it in told if it.code != "unit_of_other_quantity"]
    raise next(iter(of_itself or told), None) or NotUnderstood(
        "unit_unknown", {"got": to, "unit": to, "would_have": ["kPa", "psi", "mm", "m", "°C"]}
    )


def _by_density(measure: Measure, to: str, *, wanted: str) -> Found:
    """Mass of methane from its volume, or the other way round."""
    density = Fraction(str(dated.methane_kg_per_ft3()))
    per_hour = "/h" if wanted.endswith("rate") else ""
    if wanted.startswith("mass"):
        here = in_unit_exact(measure, unit=f"scf{per_hour}") * density
        between = f"{plain(rounded(here, digits=30))} kg{per_hour}"
    else:
        here = in_unit_exact(measure, unit=f"kg{per_hour}") / density
        between = f"{plain(rounded(here, digits=30))} scf{per_hour}"
    it = convert(read(between, wanted), to)
    taken = (_("methane at {density} kg/ft3").format(density=plain(rounded(density, digits=DIGITS))),)
    return Found(measure=measure, value=it.value, asked=to.strip(), canonical=it.canonical, taken=taken)


def _at_other_base(measure: Measure, it: Converted, to: str, *, bases: tuple[Base, Base]) -> Found:
    was, now = bases
    value = rounded(Fraction(it.value) * was.kpa / now.kpa * now.kelvins / was.kelvins, digits=DIGITS)
    again = read(f"{plain(value)} {it.unit}", measure.quantity)
    taken = (_("an ideal gas, from {was} to {now}").format(was=was.typed, now=now.typed),)
    return Found(measure=measure, value=value, asked=to.strip(), canonical=again.canonical, taken=taken)


def _columns(measure: Measure, to: str) -> tuple[str, ...]:
    """Which column of water or mercury is meant, where one is read or asked for."""
    if measure.quantity not in ("pressure", "atmosphere"):
        return ()
    named = {
        "inwc": _("conventional inch of water"),
        "inwc4C": _("inch of water at 4 °C"),
        "inwc60F": _("inch of water at 60 °F"),
        "ftwc": _("conventional foot of water"),
        "mmwc": _("conventional millimetre of water"),
        "inHg": _("conventional inch of mercury"),
        "inHg60F": _("inch of mercury at 60 °F"),
    }
    said = unit_in_family(plainly(as_typed(to)), "pressure")
    units = dict.fromkeys((measure.unit, said.unit if said else measure.unit))
    return tuple(
        f"{named[unit]}, {plain(rounded(UNITS[unit].size, digits=DIGITS))} Pa" for unit in units if unit in named
    )
