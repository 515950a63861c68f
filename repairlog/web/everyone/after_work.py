"""What comes next after something was saved: of a repair, its test or its review the step that brings the leak to its
end; of a pipe that was seen otherwise than it is told, to say so."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import url_for

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import LeakRow
from repairlog.records.story import Story
from repairlog.trade.attempts import Attempt
from repairlog.trade.ending import lacks
from repairlog.web.everyone.of_sources import seen_otherwise
from repairlog.web.frame.asking import asker
from repairlog.words import _

UNTESTED = ("", "not_tested", "cannot_say")


def after_work(row: LeakRow, told: Story, *, saved: UUID | None) -> tuple[str, str]:
    """That step and the address of its page, empty where the asker may not take it; no words where what was saved says
    nothing of that, or where only what is due comes next."""
    if saved is not None and (otherwise := seen_otherwise(row, told).get(saved)):
        return otherwise
    attempt = next((each for each in told.leak.attempts if each.id == _attempt_of(told, saved)), None)
    if row.status != "open" or attempt is None:
        return "", ""
    if attempt.outcome in UNTESTED:
        return _offered(row, "tested", _("log a test of it"), "tests.page", attempt=attempt.id)
    if attempt.outcome == "not_tight":
        return _offered(row, "repair_attempted", _("log another repair"), "repairs.page")
    if attempt.review == "waiting":
        mine = _offered(row, "repair_reviewed", _("accept or return it"), "reviews.page", attempt=attempt.id)
        return mine if mine[1] else (_("a supervisor accepts it or returns it"), "")
    if not _can_end(told):
        return "", ""
    return _offered(row, "leak_ended", _("end the leak, once your procedures allow it"), "endings.page")


def _attempt_of(told: Story, saved: UUID | None) -> UUID | None:
    """The attempt that this entry is, or speaks about."""
    entry = next((each.entry for each in told.told if saved is not None and each.entry.id == saved), None)
    if entry is None or entry.void is not None:
        return None
    return entry.id if entry.kind == "repair_attempted" else as_id(entry.text("attempt"))


def _can_end(told: Story) -> bool:
    done: dict[UUID, Attempt] = {each.id: each for each in told.leak.attempts if each.review == "accepted"}
    named = [each.id for each in done.values() if each.holds]
    return not lacks(named, done=done, sources=[each.id for each in told.leak.sources])


def _offered(row: LeakRow, kind: str, says: str, endpoint: str, **of: Any) -> tuple[str, str]:
    may = asker().may(kind, area=row.area)
    return says, url_for(endpoint, leak=row.id, **of) if may else ""
