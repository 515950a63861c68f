"""What a program is told where its call did not get through: in short what it is, always the same, and what to do."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.words import _, refusals


def title(code: str) -> str:
    """What it is, in short; KeyError for an unknown code."""
    return _titles()[code]


def detail(code: str, facts: Mapping[str, str] | None = None) -> str:
    """What happened and what to do, in whole sentences. `facts`: `most`: bytes that are taken at
    once; else as `refusals.sentence` takes them."""
    told = {"most": "", **(facts or {})}
    ours = _of_programs()
    return ours[code].format_map(told) if code in ours else " ".join(refusals.sentence(code, told))


def _titles() -> dict[str, str]:
    return {
        "away": _("The database cannot be reached"),
        "bad_request": _("The request cannot be read"),
        "busy": _("The book is busy"),
        "conflict": _("Another entry has this id"),
        "fault": _("A fault on our side"),
        "json_unreadable": _("The JSON cannot be read"),
        "method_not_allowed": _("The address does not take this method"),
        "no_such_address": _("There is no such address"),
        "not_json": _("JSON is asked for"),
        "not_understood": _("Not understood"),
        "refused": _("Refused"),
        "rulebook_unreadable": _("A rulebook that was adopted cannot be opened"),
        "token_closed": _("The token was closed"),
        "token_missing": _("A token is asked for"),
        "token_unknown": _("The token is not known"),
        "too_large": _("More than one request may bring"),
        "waits": _("Kept until what it names comes"),
    }


def _of_programs() -> dict[str, str]:
    return {
        "bad_request": _("Nothing of it was looked at. Put the request right, and send it again."),
        "fault": _(
            "What was recorded of it is not known here. Send the same again, with the same ids: what is in the book "
            "already is not recorded twice."
        ),
        "method_not_allowed": _("The header Allow says which it takes."),
        "no_such_address": _("Entries are posted to /api/entries; /api/entries/schema says how they are written."),
        "not_json": _("Send it as it is written, in UTF-8, with the header “Content-Type: application/json”."),
        "token_closed": _(
            "Nothing was recorded, and nothing of it is kept here: keep what you wrote. A supervisor of the area can "
            "enter it and say that you did it; an administrator can let you in again."
        ),
        "token_missing": _(
            "Send the header “Authorization: Bearer TOKEN”; `repairlog token make` makes a token for a person."
        ),
        "token_unknown": _(
            "It was mistyped, or it is of another book. Nothing was recorded; `repairlog token make` makes a new one."
        ),
        "too_large": _("Nothing was recorded. Send it in parts of up to {most} bytes, what belongs together in one."),
    }
