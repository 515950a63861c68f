"""How it is told of a company whether it works for the operator, and of names that are not on the books."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from repairlog.trade.company import Term
from repairlog.words import _, of_number
from repairlog.words.days import day

_NO_TERM = Term(entry=UUID(int=0), from_on="", until_on="")


def told_term(terms: Sequence[Term], *, on: str) -> Term:
    """Of these terms, in the order of days, the one that is told on that day: that of the day, else the next, else the
    last; one without days where there is none."""
    current = [each for each in terms if each.from_on <= on and (not each.until_on or on <= each.until_on)]
    ahead = [each for each in terms if on < each.from_on]
    if current:
        return max(current, key=lambda each: each.until_on or "9999")
    return ahead[0] if ahead else (terms[-1] if terms else _NO_TERM)


def standing(terms: Sequence[Term], *, on: str) -> str:
    """Whether it works for the operator on that day."""
    told = told_term(terms, on=on)
    if told is _NO_TERM:
        return _("no day of work")
    if on < told.from_on:
        return _("not yet")
    return _("works for us") if not told.until_on or on <= told.until_on else _("ended")


def standing_told(terms: Sequence[Term], *, on: str) -> str:
    """The same with its day."""
    told, said = told_term(terms, on=on), standing(terms, on=on)
    if told is _NO_TERM or not (told.until_on or on < told.from_on):
        return said
    if on < told.from_on:
        return _("{said}, from {day} on").format(said=said, day=day(told.from_on))
    if told.until_on < on:
        return _("{said} on {day}").format(said=said, day=day(told.until_on))
    return _("{said} until {day}").format(said=said, day=day(told.until_on))


def out_of_term(number: int) -> str:
    """How many entries on leaks are by people of a company on days outside its terms, and what settles it."""
    return of_number(
        "{number} entry on a leak is by people of a company on a day on which it did not work for us. A further term"
        " settles it, or a correction of the day or of who did it.",
        "{number} entries on leaks are by people of a company on days on which it did not work for us. A further term"
        " settles it, or a correction of the day or of who did it.",
        number=number,
    ).format(number=number)


def not_on_the_books(number: int) -> str:
    """How many names of companies are written and not on the books."""
    return of_number(
        "{number} name of a company that is not on the books",
        "{number} names of companies that are not on the books",
        number=number,
    ).format(number=number)
