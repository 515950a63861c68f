"""Typographic variants: what phones and word processors put in place of plain signs."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

from repairlog.units.complaint import complaint

LONGEST = 80  # characters; twice the longest reading that anyone was seen to write

_VULGAR = {char: Fraction(unicodedata.numeric(char)).limit_denominator(16) for char in "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
# Written by number, since many of them look alike: double primes and quotes; primes, quotes and accents; minus signs,
# hyphens and dashes; blanks of no width.
_DOUBLE = "\u2033\u201c\u201d\u201e\u201f\u275e\uff02"
_SINGLE = "\u2032\u2019\u2018\u201b\u00b4\u0060\uff07"
_MINUS = "\u2212\u2010\u2011\u2012\u2013\u2014\ufe63\uff0d"
_NOTHING = "\u200b\u200c\u200d\u2060\ufeff"
_SIGNS = str.maketrans(
    {
        **{char: f" {it.numerator}/{it.denominator}" for char, it in _VULGAR.items()},
        **dict.fromkeys(_DOUBLE, '"'),
        **dict.fromkeys(_SINGLE, "'"),
        **dict.fromkeys(_MINUS, "-"),
        **dict.fromkeys(_NOTHING, ""),
        **dict.fromkeys("\u2044\u2215", "/"),  # fraction slash, division slash
        **dict.fromkeys("\u00b7\u22c5", "."),  # dots between units
        **dict.fromkeys("\u00ba\u02da", "°"),  # what is typed for the degree sign
        "\u00d7": "x",
        "\uff05": "%",
        "\uff03": "#",
        "²": "2",
        "₂": "2",
        "₄": "4",
        "\u2103": "°C",
        "\u2109": "°F",
    }
)


def as_typed(text: str) -> str:
    """The text without the blanks around it, in NFC; raises `too_long`, `empty`."""
    if len(text) > LONGEST:
        raise complaint("too_long", got=text[:LONGEST], longest=str(LONGEST))
    trimmed = unicodedata.normalize("NFC", text).strip()
    if not trimmed:
        raise complaint("empty")
    return trimmed


def plainly(typed: str) -> str:
    """The text with plain signs and single blanks: `1½ ″` becomes `1 1/2 "`."""
    return " ".join(typed.translate(_SIGNS).replace("''", '"').split())
