"""A blank form to be filled in by hand, made from the fields that a kind of entry declares: none is declared again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from repairlog.entries.fields import HAPPENED_KNOWN, TYPED_FROM, EntryKind, Field, Rows
from repairlog.entries.kinds import KEPT_AS_TEXT
from repairlog.words import _, boxes, codes

LONG_LINES, ROWS = 3, 8
"""Lines for a long text; rows of a list, of which a further sheet gives as many again."""

FEW = {"outside_numbers": 3, "leaks": 4, "ties": 4, "materials": 5, "people": 5}
"""Rows of the lists that are seldom long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """What is asked for on paper. `choices`: a box to tick each; without any, `lines` to write on. `hint`: how it is
    said, with its unit; `needed`: it cannot be left empty."""

    says: str
    choices: tuple[str, ...] = ()
    lines: int = 1
    hint: str = ""
    needed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BlankRows:
    """A list on paper. `columns`: what each of its rows asks for; `rows`: how many there are on the sheet."""

    says: str
    columns: tuple[Blank, ...]
    rows: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A blank form. `version`: of the kind that it is typed in as; `group`: among which forms it is looked for;
    `about`: what it asks for first, so that whoever types it in finds what it is about."""

    title: str
    version: int
    group: str
    about: tuple[Blank, ...]
    blanks: tuple[Blank, ...]
    lists: tuple[BlankRows, ...]


def paper(kind: EntryKind) -> Paper:
    """The blank form of entries of that kind."""
    return Paper(
        title=boxes.label(kind.says),
        version=kind.version,
        group=_group(kind),
        about=_about(_is_about(kind)) if kind.folds_in else (),
        blanks=tuple(_blanks(kind.fields, without=kind.folds_in)),
        lists=tuple(
            BlankRows(says=boxes.label(each.says), columns=tuple(_columns(each)), rows=FEW.get(each.name, ROWS))
            for each in kind.rows
            if each is not KEPT_AS_TEXT
        ),
    )


def _is_about(kind: EntryKind) -> str:
    """Which kind of thing an entry of that kind is about; empty where it may be any."""
    return next((field.refers_to for field in kind.fields if field.name == kind.folds_in), kind.opens)


def _group(kind: EntryKind) -> str:
    on_leaks = _("On a leak")
    return {
        "call": _("On a call"),
        "dig": _("On a dig"),
        "lot": _("Stores, instruments and places"),
        "instrument": _("Stores, instruments and places"),
        "shelf": _("Stores, instruments and places"),
        "place": _("Stores, instruments and places"),
        "person": _("Who comes to help"),
    }.get(_is_about(kind), on_leaks)


def _about(what: str) -> tuple[Blank, ...]:
    address = Blank(says=_("Address"))
    return {
        "leak": (Blank(says=_("Leak number")), address),
        "call": (Blank(says=_("Call number")), address),
        "dig": (
            Blank(says=_("Leak number")),
            address,
            Blank(says=_("Which dig"), hint=_("its number, or where it is")),
        ),
        "lot": (Blank(says=_("Lot number"), hint=_("as read off it")), Blank(says=_("What it is"))),
        "person": (Blank(says=_("Name")), Blank(says=_("Company"))),
        "shelf": (Blank(says=_("Shelf or truck"), hint=_("as it is called")), Blank(says=_("Where it is"))),
        "instrument": (Blank(says=_("Instrument"), hint=_("as marked")), Blank(says=_("What it is"))),
    }.get(what, (Blank(says=_("Leak or call number")), address))


def _blanks(fields: Sequence[Field], *, without: str = "") -> Iterator[Blank]:
    """Each field once; of a thing on the books and its name where it is not, one line serves for both. The area stands
    at the head of every form."""
    names = {field.name for field in fields}
    for field in fields:
        named = field.name == "named" and {"person", "lot", "crew"} & names
        beside = field in (HAPPENED_KNOWN, TYPED_FROM) or field.refers_to == "area"
        if not beside and field.name != without and not named and not _names(field, names):
            yield _blank(field)


def _columns(rows: Rows) -> Iterator[Blank]:
    """A screen keeps the key of a place; whoever writes on paper says which place it was."""
    key = boxes.label("key of the place")
    for blank in _blanks(rows.fields):
        yield replace(blank, says=_("At which place")) if blank.says == key else blank


def _names(field: Field, names: set[str]) -> bool:
    if field.name == "instrument_used":
        return "instrument" in names
    stem = field.name.removesuffix("_named")
    return field.name.endswith("_named") and bool({stem, f"{stem}_person"} & names)


def _blank(field: Field) -> Blank:
    return Blank(
        says=boxes.label(field.says),
        choices=tuple(codes.word(code) for code in field.codes),
        lines=LONG_LINES if field.kind == "text" and field.longest >= boxes.LONG_TEXT else 1,
        hint=_hint(field),
        needed=field.required,
    )


def _hint(field: Field) -> str:
    if field.kind == "measure":
        return _("with its unit, {such_as}").format(such_as=boxes.how_said(field.quantity))
    if field.kind == "ref":
        return {
            "person": _("name"),
            "lot": _("number as read off it"),
            "leak": _("number"),
            "source": _("number, or what leaks"),
        }.get(field.refers_to, _("name"))
    asked = {
        "when": _("day and time"),
        "day": _("day"),
        "hole": _("number of the bar hole"),
        "entry": _("day, and what it was"),
    }
    return asked.get(field.kind, "")
