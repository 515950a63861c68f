"""What a field of an entry may be. Every field of RepairLog is declared once, with these."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

AUTHORITIES = ("us-federal", "us-guide", "us-ma", "us-nh", "us-nj", "us-ny", "us-tn", "us-tx", "us-wa")
"""Whose rules ask for fields of a record: the federal code (49 CFR 191, 192 and the forms of the annual report), the
national guide for gas piping, and states by their postal codes. Which field who asks for follows a reading of their
rules; an operator's own manual stands above it."""

FieldKind = Literal["text", "code", "measure", "when", "day", "ref", "entry", "hole", "whole", "digest"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field: its name, what it holds, and what may stand in it.

    `kind`: `text`; `code` (one of `codes`); `measure` (of `quantity`, as typed); `when` (a day or a moment as typed);
    `day` (`YYYY-MM-DD`); `ref` (id of a subject of kind `refers_to`; where that is empty, of a kind of `among`,
    or of any kind); `entry` (id of an earlier entry); `hole` (`entry id/row key` of an earlier bar hole); `whole` (a
    whole number of `least` to `most`); `digest` (a SHA-256, 64 hexadecimal digits in small letters).
    `longest`: characters of text. `private`: the value stands beside the journal, which holds a salted digest.
    `ahead`: a `when` that may lie in the future, such as the last moment of a permit.
    `asked_by`: the authorities (of `AUTHORITIES`) whose rules ask for it; a form says so, and nothing hangs on it.
    """

    name: str
    kind: FieldKind
    says: str
    required: bool = False
    longest: int = 200
    codes: tuple[str, ...] = ()
    quantity: str = ""
    refers_to: str = ""
    among: tuple[str, ...] = ()
    private: bool = False
    least: int = 0
    most: int = 1_000_000
    ahead: bool = False
    asked_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A flat list inside an entry; each row has a lasting `key` beside these fields. `most`: rows at the most.
    `needs_one_of`: fields of which each row gives at least one."""

    name: str
    says: str
    fields: tuple[Field, ...]
    most: int = 200
    needs_one_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryKind:
    """One kind of entry in one version.

    `opens`: the kind of subject that an entry of this kind opens (its id is the entry's); empty if none.
    `folds_in`: the field that names the subject whose story the entry belongs to; empty where it is the subject
    that the entry opens, or (`corrected`, `void`) that of the entry it speaks about.
    Without a field `happened` its moment is when it was written.
    """

    name: str
    says: str
    fields: tuple[Field, ...]
    version: int = 1
    opens: str = ""
    folds_in: str = ""
    rows: tuple[Rows, ...] = ()


def asked(by: str, field: Field) -> Field:
    """The field with the authorities that ask for it: `by` names them without `us-`, a blank between them."""
    return replace(field, asked_by=tuple(f"us-{each}" for each in by.split()))


def text(name: str, says: str, *, longest: int = 200, required: bool = False, private: bool = False) -> Field:
    """A line of text; `private` keeps it beside the journal."""
    return Field(name=name, kind="text", says=says, longest=longest, required=required, private=private)


def code(name: str, says: str, *, of: tuple[str, ...], required: bool = False) -> Field:
    """One of a closed list of codes."""
    return Field(name=name, kind="code", says=says, codes=of, required=required, longest=60)


def measure(name: str, says: str, *, of: str, required: bool = False) -> Field:
    """A measure as a person types it, of the quantity `of` (see `repairlog.units.QUANTITIES`)."""
    return Field(name=name, kind="measure", says=says, quantity=of, required=required, longest=60)


def when(name: str, says: str, *, required: bool = False, ahead: bool = False) -> Field:
    """A day or a moment as typed: `YYYY-MM-DD[ HH:MM[:SS]][ +-HH:MM]`, in the area's zone; `ahead`: it may lie in the
    future."""
    return Field(name=name, kind="when", says=says, required=required, longest=40, ahead=ahead)


def day(name: str, says: str, *, required: bool = False) -> Field:
    """A day, `YYYY-MM-DD`."""
    return Field(name=name, kind="day", says=says, required=required, longest=10)


def ref(name: str, says: str, *, to: str = "", among: tuple[str, ...] = (), required: bool = False) -> Field:
    """The id of a subject of kind `to`; where that is empty, of one of the kinds `among`, or of any kind."""
    return Field(name=name, kind="ref", says=says, refers_to=to, among=among, required=required, longest=36)


def entry(name: str, says: str, *, required: bool = False) -> Field:
    """The id of an earlier entry."""
    return Field(name=name, kind="entry", says=says, required=required, longest=36)


def whole(name: str, says: str, *, least: int = 0, most: int = 1_000_000, required: bool = False) -> Field:
    """A whole number of `least` to `most`, both counted in."""
    return Field(name=name, kind="whole", says=says, least=least, most=most, required=required, longest=20)


def digest(name: str, says: str, *, required: bool = False) -> Field:
    """A SHA-256, 64 hexadecimal digits in small letters."""
    return Field(name=name, kind="digest", says=says, required=required, longest=64)


YES_NO = ("yes", "no")
"""Answers to a plain question; whoever does not know leaves it out."""

HAPPENED = when("happened", "when it happened", required=True)

HAPPENED_KNOWN = code(
    "happened_known", "how well that day is known, where a list gives none of its own", of=("on_or_before",)
)
"""Stands beside every `happened`: the day is the list's own, the latest that it can have been. It starts no clock."""

TYPED_FROM = code("typed_from", "what it is typed from, where not from memory", of=("paper",))
"""Stands beside every `happened`: it was written on paper at the time, and is keyed from there."""
