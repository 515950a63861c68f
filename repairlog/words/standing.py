"""What is told to somebody whose roles let them see nothing, or less than they expect."""

from __future__ import annotations

from repairlog.words import _
from repairlog.words.days import day


def sentence(code: str, on: str) -> tuple[str, str]:
    """What is so and what to do; KeyError for an unknown code. `on`: the day that it is about, empty for none."""
    told = {
        "no_role": (
            _("You have no role in this book, so there is nothing that you may see."),
            _("Ask the administrator for the role that you need."),
        ),
        "not_begun": (
            _("Your role begins on {on}. Until then there is nothing that you may see."),
            _("If it should begin earlier, ask the administrator."),
        ),
        "ended": (
            _("Your role ended on {on}, its last day. Since then there is nothing that you may see."),
            _("What you wrote stays in the record under your name. To see it again, ask the administrator."),
        ),
        "no_period": (
            _("You are an inspector here, but no period was said that you look at, or no last day."),
            _("Ask the administrator to give the role again with its period and its last day."),
        ),
        "sign_in_again": (
            _("You have a role since {on}, and signed in before that day: with it you may look, but not write."),
            _("Sign out, and in again."),
        ),
    }
    message, hint = told[code]
    return message.format(on=day(on) if on else ""), hint
