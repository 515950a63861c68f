"""Exact fractions and how they are written: the one place that rounds."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

CANONICAL_DIGITS = 9


def rounded(value: Fraction, *, digits: int) -> Decimal:
    """The fraction as a decimal of that many significant digits, half to even, in one rounding."""
    # A context of its own, so that neither the thread's precision nor another thread has a say.
    context = Context(prec=digits, rounding=ROUND_HALF_EVEN, Emin=-999_999, Emax=999_999)
    return context.divide(Decimal(value.numerator), Decimal(value.denominator))


def plain(value: Decimal) -> str:
    """The decimal written out: no exponent, no trailing zeros, and a zero that is just `0`."""
    if not value:
        return "0"
    text = format(value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def canonical_number(value: Fraction) -> str:
    """Nine significant digits, half to even, written out plainly; `310.264078`."""
    return plain(rounded(value, digits=CANONICAL_DIGITS))
