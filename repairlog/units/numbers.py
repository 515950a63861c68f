"""Numbers as people say them: 1,000; 1 1/4; three quarters of a; a pound and a half."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Context, Decimal

from repairlog.units.complaint import complaint

MOST_DIGITS = 15  # before the point: past any reading, and short enough to answer at once
MOST_DECIMALS = 40

_SMALL = {
    word: number
    for number, word in enumerate(
        ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
    )
} | {"a": 1, "an": 1}
_PARTS = {"half": 2, "third": 3, "quarter": 4, "fourth": 4, "eighth": 8, "sixteenth": 16} | {"halve": 2}
_COUNT = rf"(?:{'|'.join(sorted(_SMALL, key=len, reverse=True))}|[0-9]{{1,3}})"
_PART = rf"(?:{'|'.join(_PARTS)})"
_SHARE = re.compile(rf"(?:({_COUNT})[ -])?({_PART})s?\b(?: of)?(?: an?\b)? ?(.*)", re.IGNORECASE)
_AND_SHARE = re.compile(
    rf"({_COUNT}) and (?:({_COUNT})[ -])?({_PART})s?\b(?: of)?(?: an?\b)? ?(.*)",
    re.IGNORECASE,
)
_UNIT_AND_SHARE = re.compile(rf"({_COUNT}) ([^0-9]{{1,30}}?) and (?:({_COUNT})[ -])?({_PART})s?", re.IGNORECASE)
_COUNTED = re.compile(rf"({_COUNT}) ([^0-9].*)", re.IGNORECASE)

_HEAD = re.compile(r"(?P<sign>[-+] ?)?(?P<token>[0-9][0-9,]*(?:\.[0-9]*)?|\.[0-9]+)")
_OVER = re.compile(r" ?/ ?([0-9]{1,3})(?![0-9])")
_MIXED = re.compile(r"(?: and |[ -])([0-9]{1,3}) ?/ ?([0-9]{1,3})(?![0-9])", re.IGNORECASE)
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?")
_GOES_ON = re.compile(r"[0-9.,/:*^+(=]|e[-+]?[0-9]|-? ?[0-9]|(?:to|x|or|by) ?[0-9]", re.IGNORECASE)
_ARTICLE = re.compile(r"(?:of )?an? (?=.)", re.IGNORECASE)

_HALVINGS = (2, 4, 8, 16, 32, 64)  # as a rule is marked; the others only below one, lest 60/10 be read as six
_MOST_ABOVE_ONE = 9  # of a fraction above one: 11/4 is as likely one and a quarter with its blank left out
_DENOMINATORS = (*_HALVINGS, 3, 5, 6, 10)
_WIDE = Context(prec=40)


@dataclass(frozen=True, slots=True)
class Head:
    """A number and the text after it."""

    value: Decimal
    rest: str


def number_first(text: str, *, got: str) -> Head:
    """The number a text begins with, and what follows it; `text` in plain signs, `got` for the complaint.

    Raises `number_unreadable`, `comma_unclear`, `too_large`.
    """
    said = in_digits(text)
    match = _HEAD.match(said)
    if match is None:
        raise complaint("number_unreadable", got=got)
    token, rest = match["token"], said[match.end() :]
    value = _whole_or_decimal(token, got=got)
    fraction = _fraction_after(token, rest, got=got)
    if fraction:
        value, rest = (value + fraction.value if fraction.adds else fraction.value), fraction.rest
        rest = _ARTICLE.sub("", rest.lstrip(), count=1) if _ARTICLE.match(rest.lstrip()) else rest
    if _GOES_ON.match(rest.lstrip()):
        raise complaint("number_unreadable", got=got)
    negative = (match["sign"] or "").startswith("-") and value != 0
    return Head(-value if negative else value, rest.strip())


def in_digits(text: str) -> str:
    """Number words at the start of a text, put into digits: `half a pound` becomes `1/2 pound`."""
    if text[:6].lower() == "minus ":
        text = "-" + text[6:]
    if match := _UNIT_AND_SHARE.fullmatch(text):
        return f"{_count(match[1])} {_count(match[3])}/{_part(match[4])} {match[2]}"
    if match := _AND_SHARE.fullmatch(text):
        return f"{_count(match[1])} {_count(match[2])}/{_part(match[3])} {match[4]}"
    if match := _SHARE.fullmatch(text):
        return f"{_count(match[1])}/{_part(match[2])} {match[3]}"
    if match := _COUNTED.fullmatch(text):
        return f"{_count(match[1])} {match[2]}"
    return text


def _count(word: str | None) -> str:
    return str(_SMALL.get(word.lower(), word)) if word else "1"


def _part(word: str) -> int:
    return _PARTS[word.lower()]


def _whole_or_decimal(token: str, *, got: str) -> Decimal:
    if "," in token and not _THOUSANDS.fullmatch(token):
        raise complaint("comma_unclear", got=got)
    digits = token.replace(",", "")
    whole, _point, decimals = digits.partition(".")
    if len(whole) > MOST_DIGITS:
        raise complaint("too_large", got=got, most=f"{MOST_DIGITS} digits")
    if len(decimals) > MOST_DECIMALS:
        raise complaint("number_unreadable", got=got)
    return Decimal(digits)


@dataclass(frozen=True, slots=True)
class _Fraction:
    value: Decimal
    rest: str
    adds: bool


def _fraction_after(token: str, rest: str, *, got: str) -> _Fraction | None:
    """The fraction that a whole number begins (`3` and `/16`) or is followed by (`1` and ` 1/4`), if any."""
    if not token.isdigit():
        return None
    over, mixed = _OVER.match(rest), _MIXED.match(rest)
    if over:
        return _Fraction(_quotient(int(token), int(over[1]), got=got), rest[over.end() :], adds=False)
    if mixed:
        top, bottom = int(mixed[1]), int(mixed[2])
        if top >= bottom:
            raise complaint("number_unreadable", got=got)
        return _Fraction(_quotient(top, bottom, got=got), rest[mixed.end() :], adds=True)
    return None


def _quotient(top: int, bottom: int, *, got: str) -> Decimal:
    if bottom not in _DENOMINATORS or (top > bottom and (bottom not in _HALVINGS or top > _MOST_ABOVE_ONE)):
        raise complaint("number_unreadable", got=got)
    return _WIDE.divide(Decimal(top), Decimal(bottom))
