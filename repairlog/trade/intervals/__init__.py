"""Intervals as the codes write them, read once and counted from a day or a moment. Pure: nothing knows today."""

from repairlog.trade.intervals.bounds import Bound, Interval
from repairlog.trade.intervals.counting import Around, Counted, count, count_from, months_after, shorter
from repairlog.trade.intervals.reading import NotAnInterval, read_interval, window_of
from repairlog.trade.intervals.working_days import CALENDARS, USUAL_CALENDAR, is_working_day, working_days_after

__all__ = [
    "CALENDARS",
    "USUAL_CALENDAR",
    "Around",
    "Bound",
    "Counted",
    "Interval",
    "NotAnInterval",
    "count",
    "count_from",
    "is_working_day",
    "months_after",
    "read_interval",
    "shorter",
    "window_of",
    "working_days_after",
]
