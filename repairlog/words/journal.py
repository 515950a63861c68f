"""What is said when the journal or a table is not what it should be."""

from __future__ import annotations

from collections.abc import Callable

from repairlog.words import _

_PROBLEMS: dict[str, Callable[[], str]] = {
    "line_missing": lambda: _("line {index}: missing, or out of its place; line {stands} stands where {should} should"),
    "line_no_bytes": lambda: _("line {index}: kept as {stands}, and the journal keeps bytes"),
    "line_altered": lambda: _("line {index}: altered; its bytes hash to {stands}, its leaf is {should}"),
    "id_altered": lambda: _("line {index}: the id beside it is not the one in it"),
    "line_of_another_place": lambda: _("line {index}: it was sealed for another place"),
    "head_missing": lambda: _("the head: {stands} rows stand where one should"),
    "size_differs": lambda: _("the head counts {should} lines; {stands} stand"),
    "root_differs": lambda: _("the head's root is {should}; the lines make {stands}"),
    "peaks_differ": lambda: _("the head's peaks are not those that the lines make"),
    "rulebook_altered": lambda: _("a rulebook's text was altered: its digest is {stands}, it is kept as {should}"),
    "rulebook_missing": lambda: _("the text of the rulebook {should} is missing"),
    "shorter_than_noted": lambda: _("the journal has {stands} lines; the noted head counted {should}"),
    "not_the_noted_journal": lambda: _("at the noted size the lines make the root {stands}; noted was {should}"),
}


def problem_sentence(code: str, *, index: int | None, stands: str, should: str) -> str:
    """One sentence for a problem that `records.verify` found; KeyError on an unknown code."""
    return _PROBLEMS[code]().format(index=index, stands=stands, should=should)


def difference_sentence(
    *, table: str, row: str, column: str | None, stands: str | None, should: str | None, because: str
) -> str:
    """One line for a cell or row that `records.rebuild` found to differ from what the journal says."""
    if column is not None:
        found = _("{column} is {stands}, should be {should}")
    elif stands is None:
        found = _("missing: {should}")
    else:
        found = _("one too many: {stands}")
    nothing = _("nothing")
    facts = found.format(
        column=column,
        stands=nothing if stands is None else stands,
        should=nothing if should is None else should,
    )
    return f"{table} {row}: {facts}{_why(because)}"


def _why(because: str) -> str:
    if because == "stale":
        return _(" (waits to be worked out again)")
    return _(" (worked out by an older release)") if because == "older_engine" else ""
