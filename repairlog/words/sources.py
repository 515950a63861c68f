"""How a source of a leak and a repair on it stand among others, to choose from."""

from __future__ import annotations

from repairlog.trade.attempts import Attempt
from repairlog.words import _, codes
from repairlog.words.days import day


def source(number: int, *, part: str, component: str, material: str, size: str) -> str:
    """`Source 1: service, threaded tee, steel, 3/4 in`; what was not said is left out. `part`, `material`: codes."""
    said = (_lower(part), component, _lower(material), size)
    told = ", ".join(filter(None, said))
    return (_("Source {number}: {told}") if told else _("Source {number}")).format(number=number, told=told)


def attempt(of: Attempt, *, method: str) -> str:
    """`Attempt 2, 5 Mar 2026: clamp, permanent, tight`; the method as said, left out where none was."""
    told = ", ".join(filter(None, (method, _lower(of.lasting), _lower(of.outcome))))
    return _("Attempt {number}, {on}: {told}").format(number=of.number, on=day(of.on), told=told)


def _lower(code: str) -> str:
    word = codes.word(code) if code else ""
    return word[:1].lower() + word[1:]
