"""What is said of a text that is no interval: a sentence and what to do."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.words import _

CODES = frozenset(
    (
        "interval_unreadable",
        "unit_unreadable",
        "fraction_unreadable",
        "pair_unreadable",
        "longest_gap_missing",
        "window_unreadable",
        "window_ends_before_it_begins",
        "interval_out_of_range",
    )
)


def sentence(code: str, facts: Mapping[str, str | list[str]]) -> tuple[str, str]:
    """Message and hint for a `NotAnInterval`, by its code and facts; KeyError for another code."""
    plain = {name: value if isinstance(value, str) else "; ".join(value) for name, value in facts.items()}
    message, hint = _sentences()[code]
    return message.format_map(plain), hint.format_map(plain)


def _sentences() -> dict[str, tuple[str, str]]:
    return {
        "interval_unreadable": (
            _("“{part}” is no interval that is known here."),
            _("Write it like one of these: {would_have}."),
        ),
        "unit_unreadable": (
            _("“{part}” is no unit of time that is known here."),
            _("Write one of these: {would_have}."),
        ),
        "fraction_unreadable": (
            _("“{part}” cannot be counted: only months have halves, and no other part is known."),
            _("Write whole hours, days, weeks, years or calendar years, or months such as 4.5 months."),
        ),
        "pair_unreadable": (
            _("“{part}” is no pair of limits."),
            _("Write a count of calendar years and a length: each calendar year, not exceeding 15 months."),
        ),
        "longest_gap_missing": (
            _("“{part}” says how often in a year, and not how long apart at the most."),
            _("Write both: 4 times each calendar year, not exceeding 4.5 months."),
        ),
        "window_unreadable": (
            _("“{got}” is no window."),
            _("Write it in days or longer: not before 14 days, not after 30 days."),
        ),
        "window_ends_before_it_begins": (
            _("“{got}” ends before it begins."),
            _("Look at the two: not before 14 days, not after 30 days."),
        ),
        "interval_out_of_range": (
            _("“{part}” is not believed as an interval."),
            _("Write from 1 to {most}; look for a slip of the keys."),
        ),
    }
