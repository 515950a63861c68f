"""The text of an interval, as codes write it, read into bounds.

`each calendar year, not exceeding 15 months`; `5 calendar years, not exceeding 63 months`; `4 times each calendar
year, not exceeding 4.5 months`; `6 months`, `4.5 months`, `2 years`, `30 days`, `2 weeks`, `2 business days`,
`24 hours`, `at once`; `15 months or next scheduled round, whichever first`; `not before 14 days, not after 30 days`.
"""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

from repairlog.trade.intervals.bounds import CALENDAR_YEAR, Bound, Interval

LONGEST_TEXT = 200
MOST = {"months": 1200, "half_months": 2400, "days": 36_500, "working_days": 1000, "hours": 8760, "calendar_years": 100}
"""The most of a unit that is still an interval and no slip of the keys."""

EXAMPLES = ["each calendar year, not exceeding 15 months", "6 months", "30 days", "2 business days", "24 hours"]

_NOT_EXCEEDING = re.compile(r",? (?:but )?(?:with |at )?(?:intervals )?(?:not|never) exceeding ")
_WHICHEVER = re.compile(r",? whichever (?:(?:is|comes|occurs) )?(?:first|earlier|sooner)$")
_WINDOW = re.compile(r"not before (?P<first>.+?),? (?:and )?not (?:after|later than) (?P<last>.+)")
_YEARS = re.compile(
    r"(?:at least )?(?:once )?(?:(?:each|every|per|a) calendar year|(?:every )?(?P<n>[0-9]{1,5}) calendar years?)"
)
_TIMES = re.compile(r"(?:at least )?(?:(?P<twice>twice)|(?P<n>[0-9]{1,5}) times) (?:each|every|per|a) calendar year")
_PLAIN = re.compile(
    r"(?:every |within )?(?P<n>[0-9]{1,5}(?:\.[0-9]{1,4})?)(?P<half> 1/2)? (?:elapsed )?(?P<unit>[a-z]+(?: days?)?)"
)
_ROUND = re.compile(r"(?:the )?next (?:scheduled |required )?(?:round|survey)")
_AT_ONCE = frozenset(("at once", "immediately"))

_SIZES = {
    "hour": ("hours", 1),
    "day": ("days", 1),
    "calendar day": ("days", 1),
    "week": ("days", 7),
    "month": ("months", 1),
    "year": ("months", 12),
    "business day": ("working_days", 1),
    "working day": ("working_days", 1),
}
"""The units that stand behind a number: the unit of the bound, and how many of those one is."""


class NotAnInterval(Exception):
    """A text that is no interval. `code`, `facts`: for the sentence in `repairlog.words.intervals`."""

    def __init__(self, code: str, **facts: str | list[str]) -> None:
        super().__init__(code, facts)
        self.code = code
        self.facts = facts


@lru_cache(maxsize=1024)
def read_interval(text: str) -> Interval:
    """The interval that a text of a code states. Raises NotAnInterval, which names the part that cannot be read."""
    plain = " ".join(text[: LONGEST_TEXT + 1].lower().rstrip(" .").split())
    if not plain or len(plain) > LONGEST_TEXT:
        raise NotAnInterval("interval_unreadable", got=text[:80], part=text[:80], would_have=EXAMPLES)
    window = _WINDOW.fullmatch(plain)
    if window:
        return window_of(window["first"], window["last"])
    return Interval(text=text, bounds=_bounds(plain, got=text))


def window_of(not_before: str, not_after: str) -> Interval:
    """The interval that is neither done before the one text nor after the other; raises as `read_interval`."""
    text = f"not before {not_before}, not after {not_after}"
    first, last = read_interval(not_before), read_interval(not_after)
    if len(first.bounds) > 1 or first.in_hours or last.in_hours or first.not_before or last.not_before:
        raise NotAnInterval("window_unreadable", got=text[:80])
    bound = first.bounds[0]
    if any(each.unit == bound.unit and each.amount < bound.amount for each in last.bounds):
        raise NotAnInterval("window_ends_before_it_begins", got=text[:80])
    return Interval(text=text, bounds=last.bounds, not_before=bound)


def _bounds(plain: str, *, got: str) -> tuple[Bound, ...]:
    """Those of the alternatives and of the pairs in them, in the order they are written."""
    found: list[Bound] = []
    for alternative in _WHICHEVER.sub("", plain).split(" or "):
        first, *more = _NOT_EXCEEDING.split(alternative.strip(" ,"))
        bounds = [_bound(part, got=got) for part in (first, *more)]
        if more and (len(more) > 1 or not _is_pair(*bounds)):
            raise NotAnInterval("pair_unreadable", got=got[:80], part=alternative)
        if not more and bounds[0].unit == "times_a_year":
            raise NotAnInterval("longest_gap_missing", got=got[:80], part=alternative)
        found += reversed(bounds)  # of two on one day the plain length is named
    return tuple(found)


def _is_pair(counted: Bound, longest: Bound) -> bool:
    return counted.unit in ("calendar_years", "times_a_year") and longest.unit in ("months", "half_months", "days")


def _bound(part: str, *, got: str) -> Bound:
    if part in _AT_ONCE:
        return Bound(unit="days", amount=0, name="at once")
    if _ROUND.fullmatch(part):
        return Bound(unit="next_round", amount=1, name="next round")
    if years := _YEARS.fullmatch(part):
        return _within(Bound(unit="calendar_years", amount=int(years["n"] or 1), name=CALENDAR_YEAR), got=got)
    if times := _TIMES.fullmatch(part):
        return Bound(unit="times_a_year", amount=2 if times["twice"] else int(times["n"]), name=CALENDAR_YEAR)
    if plain := _PLAIN.fullmatch(part):
        return _of_number(plain, part=part, got=got)
    raise NotAnInterval("interval_unreadable", got=got[:80], part=part[:80], would_have=EXAMPLES)


def _of_number(plain: re.Match[str], *, part: str, got: str) -> Bound:
    amount = Decimal(plain["n"]) + (Decimal("0.5") if plain["half"] else 0)
    unit = plain["unit"].removesuffix("s")
    if unit not in _SIZES:
        raise NotAnInterval("unit_unreadable", got=got[:80], part=plain["unit"], would_have=sorted(_SIZES))
    of, size = _SIZES[unit]
    name = f"{amount.normalize():f} {unit}{'' if amount == 1 else 's'}"
    if amount % 1 == 0:
        return _within(Bound(unit=of, amount=int(amount) * size, name=name), got=got)
    if of != "months" or amount * size * 2 % 1:
        raise NotAnInterval("fraction_unreadable", got=got[:80], part=part)
    halves = int(amount * size * 2)
    of, count = ("half_months", halves) if halves % 2 else ("months", halves // 2)
    return _within(Bound(unit=of, amount=count, name=name), got=got)


def _within(bound: Bound, *, got: str) -> Bound:
    most = MOST[bound.unit]
    if not 0 < bound.amount <= most:
        raise NotAnInterval("interval_out_of_range", got=got[:80], part=bound.name, most=str(most))
    return bound
