"""What the page of records says: what was asked for, how many leaks fit, how many stories stand on a page."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.words import _, of_number
from repairlog.words.leaks import status_word


def by(code: str) -> str:
    """Of what the days of a period are; KeyError for another code."""
    return {"reported": _("Reported"), "repaired": _("Repaired"), "ended": _("Ended")}[code]


def found(shown: int, *, of: int) -> str:
    """How many leaks fit, and how many of them are on the page."""
    told = of_number("{number} leak", "{number} leaks", number=of).format(number=of)
    return told if shown == of else _("{shown} of {told}").format(shown=shown, told=told)


def stories(shown: int, *, of: int) -> str:
    """How many stories stand on the page, of how many leaks that fit."""
    told = of_number("{number} story", "{number} stories", number=shown).format(number=shown)
    if shown == of:
        return told
    leaks = of_number("of the {number} leak that fits", "of the {number} leaks that fit", number=of)
    return f"{told} {leaks.format(number=of)}"


def asked_for(typed: Mapping[str, str], *, crews: Mapping[str, str]) -> list[tuple[str, str]]:
    """The filter as a print tells it: each name with what was asked. `crews`: their names by id."""
    names = {
        "area": _("Area"),
        "number": _("Number"),
        "street": _("Street or town"),
        "status": _("Status"),
        "grade": _("Grade"),
        "by": _("Day of"),
        "from": _("From"),
        "until": _("Until"),
        "crew": _("Crew"),
        "method": _("Method"),
        "notes": _("Words in a note"),
    }
    return [(says, _said(name, typed[name], crews)) for name, says in names.items() if name in typed]


def _said(name: str, text: str, crews: Mapping[str, str]) -> str:
    if name == "crew":
        return crews.get(text, text)
    word = {"by": by, "status": status_word}.get(name)
    try:
        return word(text) if word else text
    except KeyError:
        return text
