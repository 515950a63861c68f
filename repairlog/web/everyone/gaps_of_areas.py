"""What areas have not settled of what they answer to: no rulebook, rules to confirm, figures that nobody gives."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from flask import url_for

from repairlog.records.queries.adopted import rulebook_with
from repairlog.records.store import Tx
from repairlog.trade.adopted import adopted_on, confirmed_in
from repairlog.trade.area import Area
from repairlog.trade.rests import digests_of
from repairlog.trade.rulebook import Rulebook, RuleGap, in_force_on, to_be_confirmed
from repairlog.web.frame.asking import asker
from repairlog.words import _, of_number
from repairlog.words.days import day
from repairlog.words.rulebooks.said import said


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsettled:
    """One thing that an area has not settled. `says`: what, and what follows. `address`, `name`: where it is settled.
    `figures`: that are left open, one by one."""

    area: str
    says: str
    address: str
    name: str
    figures: Sequence[str] = ()


def unsettled(tx: Tx, within: Sequence[Area], *, on: str) -> list[Unsettled]:
    """What those of the areas have not settled that the asker answers for, as of that day."""
    answers_for = [area for area in within if asker().may("rulebook_adopted", area=area.id)]
    books = {each: rulebook_with(asker().scope, tx, digest=each) for each in sorted(digests_of(answers_for))}
    known = {digest: each for digest, each in books.items() if each is not None}
    return [each for area in answers_for for each in _of(area, known, on=on)]


def _of(area: Area, known: Mapping[str, Rulebook], *, on: str) -> Iterator[Unsettled]:
    holds = adopted_on(area.adoptions, on=on)
    if holds is None:
        yield _nothing_adopted(area)
        return
    rulebook = known.get(holds.digest)
    if rulebook is None:
        return  # the area's own page says that it cannot be opened
    if waiting := len(
        to_be_confirmed(rulebook, confirmed=confirmed_in(rulebook, area.confirmed, opened=known.__getitem__))
    ):
        told = of_number(
            "{number} rule of {rulebook} is to be confirmed: its dates are proposed, and never late.",
            "{number} rules of {rulebook} are to be confirmed: their dates are proposed, and never late.",
            number=waiting,
        )
        yield Unsettled(
            area=area.name,
            says=told.format(number=waiting, rulebook=rulebook.id),
            address=url_for("adoptions.page", area=area.id, _anchor="unconfirmed"),
            name=_("Confirm them"),
        )
    if gaps := [each for each in rulebook.gaps if in_force_on(each.cited, date.fromisoformat(on))]:
        yield _figures_missing(area, rulebook, gaps)


def _nothing_adopted(area: Area) -> Unsettled:
    ahead = next(iter(area.adoptions), None)
    told = (
        _("The area adopted a rulebook from {day} on: until then nothing has a day by which it is owed.").format(
            day=day(ahead.from_on)
        )
        if ahead
        else _("The area adopted no rulebook: no leak of it has a day by which anything is owed.")
    )
    address = url_for("adoptions.page", area=area.id)
    return Unsettled(area=area.name, says=told, address=address, name=_("Adopt a rulebook"))


def _figures_missing(area: Area, rulebook: Rulebook, gaps: Sequence[RuleGap]) -> Unsettled:
    """Settled in a rulebook file of one's own: it drops the gap and says the figure, and is adopted then."""
    told = of_number(
        "{number} figure is left open by {rulebook}: what hangs on it has no day until a rulebook of your own says it.",
        "{number} figures are left open by {rulebook}: what hangs on them has no day until a rulebook of your own says"
        " them.",
        number=len(gaps),
    )
    return Unsettled(
        area=area.name,
        says=told.format(number=len(gaps), rulebook=rulebook.id),
        address=url_for("adoptions.page", area=area.id, _anchor="offered"),
        name=_("Adopt a rulebook that says them"),
        figures=tuple(said(gap) for gap in gaps),
    )
