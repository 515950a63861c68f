"""The rulebooks that come with the release: a list of them, and one printed with what is still to be confirmed."""

from __future__ import annotations

from datetime import date
from functools import cache

from flask import abort, render_template, request
from flask.typing import ResponseReturnValue

from repairlog.rulebooks import Shelf, shipped_shelf
from repairlog.trade.rulebook import in_force, rules, to_be_confirmed
from repairlog.web.frame.asking import room
from repairlog.words.days import day
from repairlog.words.rulebooks import dropped_line, printed, status_word

routes = room("rulebooks", __name__)


@routes.get("/rulebooks")
def page() -> ResponseReturnValue:
    """Every rulebook, with what it is and how many of its rules are to be confirmed with the text in hand."""
    rows = [
        {
            "rulebook": each.rulebook,
            "count": sum(1 for _rule in rules(each.rulebook)),
            "open": len(to_be_confirmed(each.rulebook)),
        }
        for _id, each in sorted(_shelf().by_id.items())
    ]
    return render_template("officer/rulebooks.html", rows=rows, status=status_word)


@routes.get("/rulebooks/<rulebook>")
def one(rulebook: str) -> ResponseReturnValue:
    """That rulebook in words; with `on=` as it was in force on a day; with `only=unconfirmed` the rules alone that are
    to be confirmed: a list to go through with the text in hand."""
    if rulebook not in _shelf().by_id:
        abort(404)
    whole = _shelf().by_id[rulebook].rulebook
    typed = request.args.get("on", "")
    on = _day(typed)
    unconfirmed = request.args.get("only") == "unconfirmed"
    parts = printed(in_force(whole, on=on) if on else whole)
    shown = [(part, [rule for rule in part.rules if rule.asks_confirmation or not unconfirmed]) for part in parts]
    return render_template(
        "officer/rulebook.html",
        rulebook=whole,
        parts=[(part, kept) for part, kept in shown if kept],
        dropped=[dropped_line(each) for each in whole.dropped],
        typed=typed,
        wrong=bool(typed) and on is None,
        unconfirmed=unconfirmed,
        open=sum(rule.asks_confirmation for part in parts for rule in part.rules),
        status=status_word,
        on=day(on.isoformat()) if on else "",
    )


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


@cache
def _shelf() -> Shelf:
    """Read once a process: what is shipped changes with a release alone."""
    return shipped_shelf()
