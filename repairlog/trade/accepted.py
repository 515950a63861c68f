"""Whether what an entry of a leak tells was accepted by a supervisor: from then on an officer puts it right."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.attempts import attempts
from repairlog.trade.ending import ending_that_counts, endings


def acceptance(story: Sequence[Standing]) -> Callable[[Standing], bool]:
    """Tells of an entry of a leak whether the repair that it is or speaks of was accepted, or the leak is ended by
    repairs that all were.

    `story`: the leak's entries as they stand, void ones too, in any order.
    """
    live = sorted((each for each in story if each.void is None), key=order_of_happening)
    done = {str(each.id): each for each in attempts(live)}
    sources = [each.id for each in live if each.kind == "source_added"]
    ending = ending_that_counts(endings(live, done={each.id: each for each in done.values()}, sources=sources))
    named = ending.attempts if ending else ()
    ended = bool(named) and all(each.review == "accepted" for each in named)

    def is_accepted(entry: Standing) -> bool:
        of = done.get(entry.text("attempt") or entry.text("id"))
        return ended or (of is not None and of.review == "accepted")

    return is_accepted
