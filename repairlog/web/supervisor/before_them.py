"""A supervisor's part of Today: one list of what waits for them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

from flask import url_for

from repairlog.entries.kinds import KINDS
from repairlog.records.beside.unfinished import Unfinished
from repairlog.records.queries.gaps import GapRow, WantedGaps, gaps
from repairlog.records.queries.settings import areas
from repairlog.records.queries.waiting import WaitingRow, came_in_after, emergencies_to_review, repairs_to_accept
from repairlog.records.store import Tx
from repairlog.web.frame.again import entries_in, overseen
from repairlog.web.frame.asking import Asker, store
from repairlog.words import _, boxes, codes
from repairlog.words import gaps as gap_words
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day
from repairlog.words.story.reader import small

AT_MOST = 50
"""Of each sort, so many are shown; more follow once these are done."""

CAME_IN_WITHIN = timedelta(days=14)
"""How long what came in after an ending or an acceptance is shown: common practice, no source."""

Line = dict[str, str]
"""`title`, `where`, `day`, `name` of what is to be done and its `address`."""


def waits_for_you(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """Repairs to accept, lower grades and emergencies to review, and what came in after; None for who oversees no
    area."""
    overseen = [area.id for area in areas(who.scope, tx) if who.may("repair_reviewed", area=area.id)]
    if not overseen:
        return None
    return {
        "template": "supervisor/before_them.html",
        "groups": [group for group in _groups(tx, who) if group[1]],
        "unfinished": url_for("unfinished.page"),
    }


def _groups(tx: Tx, who: Asker) -> Iterator[tuple[str, list[Line]]]:
    scope = who.scope
    attempts = repairs_to_accept(scope, tx, most=AT_MOST)
    yield _("Repairs to accept or return"), [_repair(row) for row in attempts]
    lower = [
        row
        for code in ("downgrade_not_reviewed", "graded_lower_than_called_for")
        for row in gaps(scope, tx, asked=WantedGaps(code=code), after=None, most=AT_MOST)
    ]
    yield (
        _("Lower grades to review"),
        [
            {
                "title": _lower(row),
                "where": f"{row.number}, {address_of_leak(row)}",
                "day": day(row.on),
                "name": _("Review it"),
                "address": url_for("orders.review", leak=row.leak, grade_set=row.entry),
            }
            for row in lower
        ],
    )
    emergencies = emergencies_to_review(scope, tx, most=AT_MOST)
    yield _("Emergencies to review"), [_emergency(row) for row in emergencies]
    late = came_in_after(scope, tx, since=who.at - CAME_IN_WITHIN, most=AT_MOST)
    yield _("Refused to others, for want of the right"), [_refused(each) for each in overseen(store(), who)[:AT_MOST]]
    yield _("Came in after a leak was ended or a repair accepted"), [_late(row) for row in late]


def _lower(row: GapRow) -> str:
    if row.code == "downgrade_not_reviewed":
        return _("grade {before}, now {grade}").format(before=row.facts["before"], grade=row.facts["grade"])
    return gap_words.told(row.code, row.facts, kind=row.kind)


def _repair(row: WaitingRow) -> Line:
    return {
        "title": ", ".join(filter(None, (row.method, small(codes.word(row.outcome))))),
        "where": f"{row.number}, {address_of_leak(row)}",
        "day": day(row.on),
        "name": _("Look it over"),
        "address": url_for("reviews.page", leak=row.leak, attempt=row.id),
    }


def _emergency(row: WaitingRow) -> Line:
    return {
        "title": _("what people did"),
        "where": f"{row.number}, {address_of_leak(row)}",
        "day": day(row.on),
        "name": _("Review it"),
        "address": url_for("emergencies.page", leak=row.leak),
    }


def _refused(left: Unfinished) -> Line:
    kinds = [str(raw.get("kind")) for raw in entries_in(left)]
    return {
        "title": "; ".join(boxes.label(KINDS[kind].says) for kind in kinds if kind in KINDS),
        "where": _("take it over, or send it back"),
        "day": day(left.kept_at.date().isoformat()),
        "name": _("Look at it"),
        "address": url_for("unfinished.page"),
    }


def _late(row: WaitingRow) -> Line:
    return {
        "title": boxes.label(KINDS[row.kind].says),
        "where": f"{row.number}, {address_of_leak(row)}",
        "day": day(row.on),
        "name": _("See it"),
        "address": f"{url_for('sheet.page', leak=row.leak)}#e-{row.id}",
    }
