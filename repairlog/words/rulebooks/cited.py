"""Where a rule is written, in words."""

from __future__ import annotations

from repairlog.trade.rulebook import Cited
from repairlog.words import _


def cited_line(cited: Cited) -> str:
    """Clause, source, mark, day of checking, days in force and remark, in one line."""
    parts = [cited.clause, cited.source, mark_word(cited.mark), _("checked {on}").format(on=cited.checked)]
    parts.append(_("in force from {on}").format(on=cited.first) if cited.first else _("first day not known"))
    if cited.last:
        parts.append(_("until {on}").format(on=cited.last))
    return "; ".join(parts) + "." + (f" {cited.remark}" if cited.remark else "")


def mark_word(mark: str) -> str:
    """How far a rule is known; KeyError for an unknown mark."""
    return {
        "text_checked": _("text checked"),
        "restated": _("from a restatement, not from the text"),
        "memory": _("from memory, not from the text"),
        "common_practice": _("common practice, no source"),
    }[mark]


def status_word(status: str) -> str:
    """What a rulebook is; KeyError for an unknown status."""
    return {
        "in_force": _("in force"),
        "guidance": _("guidance"),
        "proposed": _("proposed, not law"),
    }[status]
