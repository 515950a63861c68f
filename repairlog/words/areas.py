"""What is said of an operating area: its height with the atmosphere there, and what a change would touch."""

from __future__ import annotations

from decimal import Decimal

from repairlog import units
from repairlog.trade.area import Area
from repairlog.words import _, of_number

_PLACES = Decimal("0.1")


def height(area: Area) -> str:
    """Its height above the sea, in both units that people say; that of the sea where nobody said one."""
    if not area.elevation:
        return _("none said: sea level counts")
    metres = units.split_canonical(area.elevation).value
    feet = units.convert(units.read(f"{metres} m", "elevation"), "ft").value
    return _("{feet} ft, {metres} m").format(feet=f"{feet:.0f}", metres=f"{metres:.0f}")


def atmosphere(kpa: Decimal) -> str:
    """The atmosphere there, absolute. `kpa`: kilopascal."""
    psi = units.convert(units.read(f"{kpa} kPa absolute", "pressure"), "psi").value
    return _("{kpa} kPa, {psi} psi absolute").format(kpa=kpa.quantize(_PLACES), psi=psi.quantize(_PLACES))


def leaks_told(number: int) -> str:
    """`12 leaks`."""
    return of_number("{number} leak", "{number} leaks", number=number).format(number=number)


def numbers_told(code: str) -> str:
    """How numbers of its leaks and calls look."""
    return _("{code}-26-0001 for a leak, {code}-C26-0001 for a call").format(code=code)


def touched_by_cut_over(leaks: int) -> str:
    """What setting the cut-over day would touch. `leaks`: how many the area has."""
    return of_number(
        "It is read again for the {number} leak of this area: gaps of what is missing before the day go, those from it"
        " on stay or come back. No entry changes.",
        "It is read again for the {number} leaks of this area: gaps of what is missing before the day go, those from it"
        " on stay or come back. No entry changes.",
        number=leaks,
    ).format(number=leaks)


def touched_by_settings(leaks: int) -> str:
    """What putting an area's entries right would touch. `leaks`: how many the area has."""
    return of_number(
        "The {number} leak of this area is worked out again with it. What was sealed before stays as it was"
        " understood.",
        "The {number} leaks of this area are worked out again with it. What was sealed before stays as it was"
        " understood.",
        number=leaks,
    ).format(number=leaks)
