"""A company as it stands: the names that it is written as, and the terms for which it works for the operator."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """From a day to a day, both counted in; `from_on` empty: from a day that is not known; `until_on` empty: open.
    `entry`: what tells of it."""

    entry: UUID
    from_on: str
    until_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Company:
    """`what`: contractor, laboratory, mutual_aid or other. `also_named`: the names that it is also written as, each
    once; `terms`: in the order of days, none of a company that was put on the books in error."""

    id: UUID
    name: str
    what: str
    void: bool
    also_named: tuple[str, ...]
    terms: tuple[Term, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """Every name of it, its own first."""
        return (self.name, *self.also_named)

    def works(self, *, on: str) -> bool:
        """Whether it works for the operator on that day: the first and the last day of a term count."""
        return any(each.from_on <= on and (not each.until_on or on <= each.until_on) for each in self.terms)


def company(entries: Sequence[Standing]) -> Company | None:
    """The company that these entries tell of; None if none of them puts one on the books."""
    added = next((entry for entry in entries if entry.kind == "company_added"), None)
    if added is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    return Company(
        id=added.id,
        name=added.text("name"),
        what=added.text("what"),
        void=added.void is not None,
        also_named=tuple(_also_named(added)),
        terms=() if added.void is not None else tuple(_terms(live)),
    )


def plain_name(name: str) -> str:
    """A company's name as it is compared: capitals and spaces apart."""
    return " ".join(name.casefold().split())


def plain_names(names: Iterable[str]) -> frozenset[str]:
    """These names as they are compared."""
    return frozenset(map(plain_name, names))


def _also_named(added: Standing) -> Iterator[str]:
    seen = {plain_name(added.text("name"))}
    for row in added.rows("also_named"):
        if plain_name(row["name"]) not in seen:
            seen.add(plain_name(row["name"]))
            yield row["name"]


def _terms(live: Sequence[Standing]) -> Sequence[Term]:
    """An end cuts the terms that were told before it and go on after its day; one that had not begun by then is none.
    One told later begins a term of its own. A term whose first day nobody told had begun by any day."""
    terms: list[Term] = []
    for entry in live:
        if entry.kind == "company_left":
            terms = list(_ended(terms, entry.text("until_on")))
        elif entry.kind in ("company_added", "company_back"):
            terms.append(Term(entry=entry.id, from_on=entry.text("from_on"), until_on=entry.text("until_on")))
    return sorted((each for each in terms if _has_days(each)), key=lambda each: (each.from_on, str(each.entry)))


def _ended(terms: Iterable[Term], until_on: str) -> Iterator[Term]:
    for each in terms:
        if each.from_on <= until_on:
            yield replace(each, until_on=min(until_on, each.until_on or until_on))


def _has_days(term: Term) -> bool:
    return not term.until_on or term.from_on <= term.until_on
