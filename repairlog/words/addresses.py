"""Where a leak is, in one line."""

from __future__ import annotations

from typing import Protocol

from repairlog.words import _


class Somewhere(Protocol):
    """What has an address, each part as it was written, empty where it was not."""

    @property
    def house_number(self) -> str: ...
    @property
    def street(self) -> str: ...
    @property
    def cross_street(self) -> str: ...
    @property
    def town(self) -> str: ...
    @property
    def location(self) -> str: ...


def address_of_leak(leak: Somewhere) -> str:
    """House number and street, the cross street, the town; where none of these was written, where it is in words.

    A list that writes `@ Priory Road` for a cross street is not made to say `at` twice.
    """
    if not (leak.street or leak.cross_street or leak.town):
        return ", ".join(filter(None, (leak.house_number, leak.location))) or _("no address")
    road = " ".join(filter(None, (leak.house_number, leak.street)))
    if road and leak.cross_street:
        crossing = leak.cross_street.removeprefix("@").lstrip()
        road = _("{street} at {cross_street}").format(street=road, cross_street=crossing)
    return ", ".join(filter(None, (road or leak.cross_street, leak.town)))
