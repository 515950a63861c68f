"""Working days: no Saturday, no Sunday, no public holiday of a named calendar, observed days counted in."""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache

import holidays

USUAL_CALENDAR = "US"
"""The federal holidays of the United States. An area that answers to another law names its own."""

CALENDARS: frozenset[str] = frozenset(
    set(holidays.list_supported_countries(include_aliases=False))
    | {
        f"{country}-{part}"
        for country, parts in holidays.list_supported_countries(include_aliases=False).items()
        for part in parts
    }
)
"""The calendars known here, by ISO 3166 code: a country (`US`) or a part of it (`US-NY`, `GB-SCT`)."""


def working_days_after(day: date, *, amount: int, calendar: str = USUAL_CALENDAR) -> date:
    """The day that is so many working days after `day`, which itself is not counted, whatever it is.

    Source of the holidays: the library `holidays`, public holidays with the days on which they are observed. Raises
    KeyError for a calendar that is not known, OverflowError past the calendar's end.
    """
    while amount > 0:
        day += timedelta(days=1)
        if is_working_day(day, calendar=calendar):
            amount -= 1
    return day


def is_working_day(day: date, *, calendar: str = USUAL_CALENDAR) -> bool:
    """Whether it is neither weekend nor public holiday. KeyError for a calendar that is not known."""
    return day.weekday() < 5 and day not in _holidays(calendar, day.year)


@lru_cache(maxsize=1024)
def _holidays(calendar: str, year: int) -> frozenset[date]:
    """The holidays observed in that year, those of the neighbouring years too: 1 January 2022 was observed on
    31 December 2021."""
    if calendar not in CALENDARS:
        raise KeyError(calendar)
    country, _, part = calendar.partition("-")
    found = holidays.country_holidays(country, subdiv=part or None, years=(year - 1, year, year + 1))
    return frozenset(day for day in found if day.year == year)
