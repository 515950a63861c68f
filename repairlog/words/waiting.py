"""What is said to whoever must wait before trying again."""

from __future__ import annotations

from datetime import timedelta
from math import ceil

from repairlog.words import _, of_number


def whole_seconds(wait: timedelta) -> int:
    """The wait in seconds, rounded up: never told as shorter than it is."""
    return ceil(wait.total_seconds())


def sentence(seconds: int) -> str:
    """What is told where tries to sign in so often did not fit that it is put off for that long."""
    told = _("Too many tries did not fit. Wait {time}, then try again; the right password is not looked at sooner.")
    return told.format(time=said(seconds))


def said(seconds: int) -> str:
    """A wait in words: up to 90 seconds as they are, longer ones in minutes, rounded up."""
    if seconds <= 90:
        return of_number("{n} second", "{n} seconds", number=seconds).format(n=seconds)
    minutes = ceil(seconds / 60)
    return of_number("{n} minute", "{n} minutes", number=minutes).format(n=minutes)
