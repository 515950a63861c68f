"""The pages that the shell leads to: for each person the few of their daily work in a row, all others under one fold.

Another page is another line of `every_link`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from repairlog.web.frame.asking import Asker
from repairlog.words import _

NARROW = 4
"""Links beside the fold that a phone 320 pixels wide has room for."""

WIDE = 7
"""Links beside the fold at a desk."""

KEEP_THE_BOOKS = ("supervisor", "officer", "manager", "administrator")
"""The roles that look into the books of people: who may do what, and who is qualified for what."""

ADD_PEOPLE = ("crew", "supervisor", "administrator")
"""The roles that put on the books who comes to help."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """`name`: what the link says. `daily`: the roles whose daily work the page is part of. `opens_to`: the roles that
    may open it; empty: everybody who is signed in."""

    endpoint: str
    name: str
    daily: Sequence[str] = ()
    opens_to: Sequence[str] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Nav:
    """`row`: what stands beside the fold, in its order; the first `narrow` of them on a phone, too, where the others
    are under the fold. `fold`: what is under it for everybody. `unfinished`: how much the asker left so; where that is
    anything, it stands in the row, else under the fold."""

    row: Sequence[Link]
    narrow: int
    fold: Sequence[Link]
    unfinished: int


def every_link() -> tuple[Link, ...]:
    """Every page that the shell leads to, the first needs first."""
    return (
        Link(endpoint="today.page", name=_("Today"), daily=_EVERYBODY),
        Link(endpoint="calls.page", name=_("Calls"), daily=("dispatcher", "crew", "supervisor")),
        Link(endpoint="leaks.page", name=_("Leaks"), daily=_EVERYBODY),
        Link(endpoint="due.page", name=_("Due"), daily=("crew", "supervisor", "officer", "manager")),
        Link(endpoint="work_listed.page", name=_("Work"), daily=("supervisor",)),
        Link(endpoint="lots.page", name=_("Stores"), daily=("storekeeper",)),
        Link(endpoint="gaps.page", name=_("Gaps"), daily=("supervisor", "officer", "manager")),
        Link(endpoint="records.page", name=_("Records"), daily=("officer", "manager", "inspector")),
        Link(endpoint="people.page", name=_("People"), daily=("administrator",), opens_to=KEEP_THE_BOOKS),
        Link(endpoint="companies.page", name=_("Companies"), opens_to=KEEP_THE_BOOKS),
        Link(
            endpoint="visitors.page",
            name=_("Who comes to help"),
            opens_to=ADD_PEOPLE,
        ),
        Link(endpoint="places.page", name=_("Places"), daily=("dispatcher", "manager")),
        Link(endpoint="digs_listed.page", name=_("Digs")),
        Link(endpoint="instruments.page", name=_("Instruments"), daily=("storekeeper", "administrator")),
        Link(endpoint="areas.page", name=_("Areas"), daily=("administrator",)),
        Link(endpoint="rulebooks.page", name=_("Rulebooks"), daily=("officer", "administrator")),
        Link(endpoint="moves.page", name=_("Moved")),
        Link(endpoint="figures.page", name=_("Figures")),
        Link(endpoint="paper.page", name=_("Blank forms")),
    )


_EVERYBODY = (
    "dispatcher",
    "crew",
    "supervisor",
    "officer",
    "manager",
    "storekeeper",
    "administrator",
    "inspector",
)


def nav_of(who: Asker, *, unfinished: int) -> Nav:
    """The links for whoever asks; none to a page that they may not open. Whoever holds no role today is led to what
    everybody begins with."""
    open_to = [link for link in every_link() if not link.opens_to or who.holds(*link.opens_to)]
    roles = who.roles or _EVERYBODY[-1:]
    daily = [link for link in open_to if set(roles) & set(link.daily)]
    taken = 2 if unfinished else 0  # a long word, which stands in the row while there is anything
    row = daily[: WIDE - taken]
    return Nav(
        row=row, narrow=NARROW - taken, fold=[link for link in open_to if link not in row], unfinished=unfinished
    )
