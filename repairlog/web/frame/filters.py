"""What stands in a filter, read; lists share it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from uuid import UUID

from repairlog.trade.area import Area
from repairlog.words import _


def day_in(text: str) -> date | None:
    """The day that somebody typed, `YYYY-MM-DD`; None for any other text."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def typed_in(arguments: Mapping[str, str], names: Sequence[str]) -> dict[str, str]:
    """What stands in each field of these names, blanks folded, empty ones left out."""
    return {name: text for name in names if (text := " ".join(arguments.get(name, "").split()))}


def area_in(typed: Mapping[str, str], within: Sequence[Area]) -> UUID | None:
    """The area among these whose code was chosen; None where none was, or no such one."""
    return next((area.id for area in within if area.code.casefold() == typed.get("area", "").casefold()), None)


def wrong_of(typed: Mapping[str, str], *, area: UUID | None, choices: Mapping[str, Collection[str]]) -> dict[str, str]:
    """By field, what is said beside what could not be read: an area that is none of the asker's, a choice that is none
    of those that there are."""
    wrong = {}
    if "area" in typed and area is None:
        wrong["area"] = _("There is no area “{got}” here; it is left out for now.").format(got=typed["area"])
    for name in (each for each, codes in choices.items() if each in typed and typed[each] not in codes):
        wrong[name] = _("“{got}” is none of the choices; it is left out for now.").format(got=typed[name])
    return wrong
