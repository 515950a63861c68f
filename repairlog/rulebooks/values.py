"""Reading one value of a rulebook's text: what it is, or what is wrong with it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any, TypeAlias

from repairlog import units
from repairlog.rulebooks.wrong import At, close_to
from repairlog.trade.intervals import NotAnInterval, read_interval

Reader: TypeAlias = Callable[[object, At], Any]
"""Takes what stands there and where; gives the value, or None and notes what is wrong."""


def text(value: object, at: At) -> str | None:
    """A text with something in it, blanks and line ends as single blanks."""
    if isinstance(value, str) and value.strip():
        return " ".join(value.split())
    at.wrong("empty" if value == "" else "not_text", got=value)
    return None


def code_of(among: Collection[str]) -> Reader:
    """One of those codes."""

    def read(value: object, at: At) -> str | None:
        if isinstance(value, str) and value in among:
            return value
        at.wrong("not_one_of", got=value, among=among)
        return None

    return read


def some_of(reader: Reader) -> Reader:
    """A list of at least one, each read by `reader`, none twice."""

    def read(value: object, at: At) -> tuple[Any, ...] | None:
        if not isinstance(value, list) or not value:
            at.wrong("not_a_list", got=value)
            return None
        found = [each for each in (reader(it, at) for it in value) if each is not None]
        for twice in {each for each in found if found.count(each) > 1}:
            at.wrong("twice_in_list", got=twice)
        return tuple(found)

    return read


def day(value: object, at: At) -> date | None:
    """A day, written as one: 2026-11-25."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    at.wrong("not_a_day", got=value)
    return None


def yes(value: object, at: At) -> bool | None:
    """true or false."""
    if isinstance(value, bool):
        return value
    at.wrong("not_yes_or_no", got=value)
    return None


def whole_from(least: int, *, to: int) -> Reader:
    """A whole number between those, both counted in."""

    def read(value: object, at: At) -> int | None:
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= to:
            return value
        at.wrong("not_a_whole_number", got=value, expected=f"{least} - {to}")
        return None

    return read


def number(value: object, at: At) -> Decimal | None:
    """A number above zero, as written: never rounded."""
    if isinstance(value, int | Decimal) and not isinstance(value, bool) and Decimal(value).is_finite() and value > 0:
        return Decimal(value)
    at.wrong("not_a_number", got=value)
    return None


def interval(value: object, at: At) -> str | None:
    """An interval as codes write it; kept as written."""
    if (said := text(value, at)) is None:
        return None
    try:
        read_interval(said)
    except NotAnInterval as problem:
        part, offers = problem.facts.get("part", ""), problem.facts.get("would_have", [])
        perhaps = close_to(str(part), offers if isinstance(offers, list) else [])
        at.wrong(problem.code, got=said, facts=problem.facts, perhaps=perhaps)
        return None
    return said


def measure_of(quantity: str, *, gas: str | None = None) -> Reader:
    """A measure of that quantity, with its unit."""

    def read(value: object, at: At) -> units.Measure | None:
        if (said := text(value, at)) is None:
            return None
        try:
            return units.read(said, quantity, gas=gas)
        except units.NotUnderstood as problem:
            at.wrong(problem.code, got=said, facts=problem.facts)
            return None

    return read


def day_of_year(value: object, at: At) -> str | None:
    """A day of every year, MM-DD."""
    if isinstance(value, str) and len(value) == 5:
        try:
            return date.fromisoformat(f"2024-{value}").strftime("%m-%d")
        except ValueError:
            pass
    at.wrong("not_a_day_of_the_year", got=value)
    return None


def table(value: object, at: At) -> Mapping[str, object] | None:
    """A table of keys."""
    if isinstance(value, dict):
        return value
    at.wrong("not_a_table", got=value)
    return None
