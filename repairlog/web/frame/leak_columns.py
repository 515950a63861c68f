"""Leaks as lists show them: their columns, and the order that they stand in."""

from __future__ import annotations

from collections.abc import Sequence

from flask import url_for

from repairlog.records.queries.leaks import LeakRow
from repairlog.web.frame.listing import Column, Order, Way, by_day
from repairlog.words import _
from repairlog.words import leaks as words
from repairlog.words.addresses import address_of_leak


def leak_columns() -> Sequence[Column]:
    """The columns of a list of leaks."""
    return (
        Column(head=_("Grade"), cell=lambda leak: (leak.grade, leak.rank), draw="grade", kind="mark", aloud=True),
        Column(head=_("Where"), cell=_way, draw="way", kind="where"),
        Column(head=_("Number"), cell=lambda leak: leak.number, kind="own"),
        Column(head=_("Status"), cell=_stands, kind="status"),
        Column(head=_("Reported"), cell=_reported, kind="small"),
        Column(head=_("Attempts"), cell=lambda leak: leak.attempts, kind=("number", "small")),
        Column(head=_("Gaps"), cell=lambda leak: leak.gaps, draw="strong", kind=("number", "small")),
    )


def newest_first() -> Order:
    """The newest report first."""
    return by_day(lambda leak: (leak.reported_on, leak.id))


def _way(leak: LeakRow) -> Way:
    return Way(text=address_of_leak(leak), address=url_for("sheet.page", leak=leak.id))


def _stands(leak: LeakRow) -> str:
    return words.how_it_stands(leak.status, ended_how=leak.ended_how, ended_on=leak.ended_on)


def _reported(leak: LeakRow) -> str:
    return words.reported(leak.reported_on, known=leak.reported_known)
