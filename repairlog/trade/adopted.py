"""Which rulebook an area adopted from which day on, and which of its rules were confirmed: folded from its entries."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.trade.gap import Gap
from repairlog.trade.rulebook import Rule, Rulebook, rule_named


@dataclass(frozen=True, slots=True, kw_only=True)
class Adoption:
    """`entry`: by which it was adopted. `rulebook`: its id. `from_on`, `until_on`: the days on which it holds, both
    counted in; `until_on` empty while no other follows."""

    entry: UUID
    rulebook: str
    digest: str
    from_on: str
    until_on: str = ""

    def holds(self, *, on: str) -> bool:
        """Whether it holds on that day."""
        return self.from_on <= on and (not self.until_on or on <= self.until_on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Confirmed:
    """A rule of the rulebook of that digest, confirmed on that day for the first time."""

    digest: str
    rule: str
    on: str


def adoptions(live: Sequence[Standing]) -> tuple[Adoption, ...]:
    """The adoptions that hold on some day, by their days. `live`: the area's entries that stand, in the order they
    happened; of two from the same day the later one holds."""
    by_day = {entry.text("from_on"): entry for entry in live if entry.kind == "rulebook_adopted"}
    found: tuple[Adoption, ...] = ()
    for day, entry in by_day.items():
        said = {name: entry.text(name) for name in ("rulebook", "digest")}
        found = with_one_more(found, Adoption(entry=entry.id, from_on=day, **said))
    return found


def with_one_more(found: Iterable[Adoption], new: Adoption) -> tuple[Adoption, ...]:
    """The same if that rulebook were adopted, too, from its first day on."""
    by_day = {each.from_on: each for each in (*found, new)}
    days = sorted(by_day)
    ends = [*(_day_before(day) for day in days[1:]), ""]
    return tuple(replace(by_day[day], until_on=end) for day, end in zip(days, ends, strict=True))


def confirmed(live: Iterable[Standing]) -> tuple[Confirmed, ...]:
    """The rules that were confirmed, each once. `live`: as for `adoptions`."""
    first: dict[tuple[str, str], str] = {}
    for entry in live:
        if entry.kind == "rule_confirmed":
            first.setdefault((entry.text("digest"), entry.text("rule")), entry.on)
    return tuple(Confirmed(digest=digest, rule=rule, on=on) for (digest, rule), on in sorted(first.items()))


def adopted_on(found: Iterable[Adoption], *, on: str) -> Adoption | None:
    """The adoption that holds on that day; None where none does yet."""
    return next((each for each in found if each.holds(on=on)), None)


def adoption_gaps(live: Iterable[Standing]) -> list[Gap]:
    """Adoptions of a rulebook that is a proposal, and binds nobody."""
    return [
        Gap(code="proposed_rulebook_adopted", entry=entry.id, facts={"named": entry.text("rulebook")})
        for entry in live
        if entry.kind == "rulebook_adopted" and entry.text("although_proposed")
    ]


def _day_before(day: str) -> str:
    return (date.fromisoformat(day) - timedelta(days=1)).isoformat()


def confirmed_in(
    rulebook: Rulebook, found: Iterable[Confirmed], *, opened: Callable[[str], Rulebook]
) -> dict[str, str]:
    """The confirmed rules of a rulebook, each with the day on which it was confirmed first. One that was confirmed in
    another text of it counts where both say the same. `opened`: gives the rulebook of a digest."""
    days: dict[str, str] = {}
    for each in found:
        if each.digest == rulebook.digest or _say_the_same(rulebook, opened(each.digest), rule=each.rule):
            days[each.rule] = min(each.on, days.get(each.rule, each.on))
    return days


def _say_the_same(one: Rulebook, other: Rulebook, *, rule: str) -> bool:
    here, there = rule_named(one, rule), rule_named(other, rule)
    return here is not None and there is not None and _as_said(here) == _as_said(there)


def _as_said(rule: Rule) -> Rule:
    """The rule without the day on which its figure was last compared, and without whose text says it."""
    return replace(rule, cited=replace(rule.cited, checked=date.min, rulebook=""))
