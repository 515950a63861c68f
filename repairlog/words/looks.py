"""What is said of the looks of inspectors: at which page, with what asked for, when."""

from __future__ import annotations

from datetime import datetime
from urllib.parse import parse_qsl, urlsplit
from zoneinfo import ZoneInfo

from repairlog.words import _
from repairlog.words.days import day

_NO_FILTER = ("as", "older", "newer", "saved")
"""What an address says that asks for nothing."""


def page(name: str, *, address: str) -> str:
    """At which page: its name among ours in words, or its address where it has none; as a file, where it was one."""
    known = {
        "today.page": _("Today"),
        "calls.page": _("Calls"),
        "call.page": _("Call"),
        "leaks.page": _("Leaks"),
        "sheet.page": _("Sheet"),
        "owed.page": _("What is owed on a leak"),
        "records.page": _("Records"),
        "records.stories": _("Stories to print"),
        "gaps.page": _("Gaps"),
        "due.page": _("Due"),
        "rulebooks.page": _("Rulebooks"),
        "rulebooks.one": _("A rulebook"),
        "files.whole": _("A file, saved"),
        "files.picture": _("A picture"),
    }
    said = known.get(name, urlsplit(address).path)
    return _("{page}, taken away as CSV").format(page=said) if ("as", "csv") in _asked(address) else said


def asked_for(address: str) -> str:
    """What the address asks for beside its page, as `street Mill, from 2026-01-01`; empty where it asks for nothing."""
    return ", ".join(f"{name} {text}" for name, text in _asked(address) if name not in _NO_FILTER)


def moment(at: datetime, *, zone: ZoneInfo) -> str:
    """`3 Mar 2026, 07:44:10` in that zone."""
    local = at.astimezone(zone)
    return _("{day}, {hour}").format(day=day(local.date().isoformat()), hour=f"{local:%H:%M:%S}")


def _asked(address: str) -> list[tuple[str, str]]:
    return parse_qsl(urlsplit(address).query)
