"""The rulebooks that can be adopted, what areas adopted, and one printed with what is still to be confirmed."""

from __future__ import annotations

from datetime import date

from flask import abort, render_template, request
from flask.typing import ResponseReturnValue

from repairlog.records.queries.adopted import AdoptedRow, adopted, rulebook_with
from repairlog.records.queries.settings import areas
from repairlog.trade.rulebook import Rulebook, in_force, rules, to_be_confirmed
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import day_in
from repairlog.words.days import day
from repairlog.words.rulebooks import dropped_line, printed, status_word

routes = room("rulebooks", __name__)


@routes.get("/rulebooks")
def page() -> ResponseReturnValue:
    """What the asker's areas answer to; every rulebook, with what it is and how many of its rules are to be confirmed
    with the text in hand."""
    rows = [
        {
            "rulebook": each,
            "count": sum(1 for _rule in rules(each)),
            "open": len(to_be_confirmed(each)),
        }
        for _id, each in sorted(store().rulebooks.offered().items())
    ]
    with store().reading() as tx:
        found = [
            (area, adopted(asker().scope, tx, area=area.id, on=date.fromisoformat(asker().on)))
            for area in areas(asker().scope, tx)
        ]
        books = {each.digest: rulebook_with(asker().scope, tx, digest=each.digest) for _area, each in found if each}
    return render_template(
        "officer/rulebooks.html",
        rows=rows,
        unread=store().rulebooks.unread(),
        areas=[(area, each, _open(books.get(each.digest), each) if each else 0) for area, each in found],
        status=status_word,
        day=day,
    )


def _open(rulebook: Rulebook | None, adopted: AdoptedRow) -> int:
    return len(to_be_confirmed(rulebook, confirmed=adopted.confirmed.keys())) if rulebook else 0


@routes.get("/rulebooks/<rulebook>")
def one(rulebook: str) -> ResponseReturnValue:
    """That rulebook in words; with `on=` as it was in force on a day; with `only=unconfirmed` the rules alone that are
    to be confirmed: a list to go through with the text in hand."""
    whole = store().rulebooks.offered().get(rulebook) or abort(404)
    typed = request.args.get("on", "")
    on = day_in(typed)
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
