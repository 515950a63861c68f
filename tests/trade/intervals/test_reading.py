"""Interval texts: what they are read as, and what is said of those that are none.

Decided by us, no source: how an interval is written down.
"""

import pytest

from repairlog.trade.intervals import Bound, Interval, NotAnInterval, read_interval, window_of
from repairlog.words import intervals as words

YEAR = Bound(unit="calendar_years", amount=1, name="calendar year")
FIFTEEN = Bound(unit="months", amount=15, name="15 months")


@pytest.mark.parametrize(
    "text",
    [
        "each calendar year, not exceeding 15 months",
        "once each calendar year, not exceeding 15 months",
        "1 calendar year, not exceeding 15 months",
        "At least once each calendar year, but with intervals not exceeding 15 months.",
        "every calendar year at intervals not exceeding 15 months",
    ],
)
def test_the_ways_in_which_codes_write_a_pair_are_read_alike(text: str) -> None:
    assert read_interval(text) == Interval(text=text, bounds=(FIFTEEN, YEAR))


@pytest.mark.parametrize(
    ("text", "bound"),
    [
        ("4.5 months", Bound(unit="half_months", amount=9, name="4.5 months")),
        ("4 1/2 months", Bound(unit="half_months", amount=9, name="4.5 months")),
        ("1 month", Bound(unit="months", amount=1, name="1 month")),
        ("1 months", Bound(unit="months", amount=1, name="1 month")),
        ("2 years", Bound(unit="months", amount=24, name="2 years")),
        ("1 week", Bound(unit="days", amount=7, name="1 week")),
        ("30 days", Bound(unit="days", amount=30, name="30 days")),
        ("2 business days", Bound(unit="working_days", amount=2, name="2 business days")),
        ("5 working days", Bound(unit="working_days", amount=5, name="5 working days")),
        ("24 elapsed hours", Bound(unit="hours", amount=24, name="24 hours")),
        ("immediately", Bound(unit="days", amount=0, name="at once")),
        ("10 months", Bound(unit="months", amount=10, name="10 months")),
    ],
)
def test_a_plain_length_is_one_bound(text: str, bound: Bound) -> None:
    assert read_interval(text).bounds == (bound,)


def test_alternatives_stand_in_the_order_they_are_written() -> None:
    bounds = read_interval(
        "next scheduled survey or each calendar year, not exceeding 15 months, whichever first"
    ).bounds
    assert bounds == (Bound(unit="next_round", amount=1, name="next round"), FIFTEEN, YEAR)


def test_a_window_is_read_from_one_text_or_from_two() -> None:
    first, last = Bound(unit="days", amount=14, name="14 days"), Bound(unit="days", amount=30, name="30 days")
    text = "not before 14 days, not after 30 days"
    assert (
        read_interval(text) == window_of("14 days", "30 days") == Interval(text=text, bounds=(last,), not_before=first)
    )


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        ("", "interval_unreadable", "“”"),
        ("soon", "interval_unreadable", "“soon”"),
        ("6 dayz", "unit_unreadable", "“dayz”"),
        ("-6 months", "interval_unreadable", "“-6 months”"),
        ("٦ months", "interval_unreadable", "“٦ months”"),
        ("6", "interval_unreadable", "“6”"),
        ("0 days", "interval_out_of_range", "“0 days”"),
        ("1201 months", "interval_out_of_range", "“1201 months”"),
        ("99999 days", "interval_out_of_range", "not believed"),
        ("9" * 60 + " days", "interval_unreadable", "no interval"),
        ("4.25 months", "fraction_unreadable", "“4.25 months”"),
        ("1.5 days", "fraction_unreadable", "“1.5 days”"),
        ("2 times each calendar year", "longest_gap_missing", "how often in a year"),
        ("6 months, not exceeding 15 months", "pair_unreadable", "no pair"),
        ("each calendar year, not exceeding 24 hours", "pair_unreadable", "no pair"),
        ("not before 30 days, not after 14 days", "window_ends_before_it_begins", "before it begins"),
        ("not before 12 hours, not after 14 days", "window_unreadable", "no window"),
        ("6 months " * 40, "interval_unreadable", "no interval"),
    ],
)
def test_what_is_no_interval_is_named_with_what_to_write(text: str, code: str, says: str) -> None:
    with pytest.raises(NotAnInterval) as raised:
        read_interval(text)
    message, hint = words.sentence(raised.value.code, raised.value.facts)
    assert (raised.value.code, says in message, len(hint) > 20) == (code, True, True)


@pytest.mark.parametrize(("amount", "believed"), [("1199", True), ("1200", True), ("1201", False)])
def test_the_longest_interval_is_a_hundred_years(amount: str, believed: bool) -> None:
    if believed:
        assert read_interval(f"{amount} months").bounds[0].amount == int(amount)
    else:
        with pytest.raises(NotAnInterval):
            read_interval(f"{amount} months")
