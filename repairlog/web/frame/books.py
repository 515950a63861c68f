"""What the pages of the books share: a page that tells of one thing there, and one that enters something about it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.intake.form import Choices
from repairlog.records.beside.preferred import preferred_units
from repairlog.records.queries.areas_listed import leaks_there
from repairlog.records.queries.companies import company_seen
from repairlog.records.queries.made_one import Record
from repairlog.records.queries.named import named
from repairlog.records.queries.people_listed import person_seen
from repairlog.records.queries.settings import areas, subjects
from repairlog.records.store import Tx
from repairlog.records.story import Story, story_of_book
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.files import files_told
from repairlog.web.frame.first import first_page
from repairlog.web.frame.moved_away import not_here
from repairlog.web.frame.righted import WaysToRight, ways_to_right
from repairlog.web.frame.there import hide, operators_own, people_to_choose
from repairlog.words import _
from repairlog.words import areas as words
from repairlog.words.story import Telling, tell, times


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One thing of the books: its `story`, the `entries` of it as they are told, the newest first, and the one that
    was just `saved`; `to_right`: what of it the asker may put right. `files`: as a sheet takes them; `beside`: what the
    asker may add to anything, and where; `to_picture`: as `page_to_picture` gives it; `times`: of which zone its times
    are."""

    story: Story
    entries: Sequence[Telling]
    saved: Telling | None
    to_right: WaysToRight
    files: Mapping[UUID, tuple[str, bool, bool]] = field(default_factory=dict)
    beside: Sequence[tuple[str, str]] = ()
    to_picture: str = ""
    times: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Says:
    """What a page enters about one thing. `called`: what that is called; `opens_to`: whether the asker may; `areas`:
    as `Page` takes them; `said`, `choices`, `labels`, `begins`, `without`: as `Part` does. `first`: what is asked for
    openly beside what is needed; `hint`: what is to be known before; `told`: what it would
    touch, line by line; `caution`: it may be entered where there is gas."""

    kind: str
    heading: str
    save: str
    called: str
    back: str
    then: str
    opens_to: bool
    areas: Sequence[Area]
    otherwise: Area | None = None
    said: Mapping[str, str] = field(default_factory=dict)
    choices: Mapping[str, Choices] = field(default_factory=dict)
    labels: Mapping[str, str] = field(default_factory=dict)
    begins: Mapping[str, Any] = field(default_factory=dict)
    without: Collection[str] = ()
    first: Collection[str] = ()
    hint: str = ""
    told: Collection[str] = ()
    caution: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing that may be said of something on the books, under an address of its own. `first`, `hint`, `labels`,
    `caution`: as `Says` takes them; `happened`: what the day of it is called."""

    kind: str
    heading: str
    save: str
    happened: str
    first: tuple[str, ...] = ()
    hint: str = ""
    labels: Mapping[str, str] = field(default_factory=dict)
    caution: bool = False


def told_of(tx: Tx, of: UUID) -> Told:
    """The story of that thing for the asker; 404 where they may not see it, or there is none."""
    story = story_of_book(asker().scope, tx, of=of)
    if story is None or not story.told:
        not_here(tx, of)
    entries = tell(story, units=preferred_units(tx, asker().actor.person))
    rows = subjects(asker().scope, tx, ids=[of])
    area = next((row.area or row.id for row in rows if row.kind in PAGES and row.kind not in OF_NO_AREA), None)
    to_right = ways_on(of, story, area=area)
    return Told(
        story=story,
        entries=entries[::-1],
        saved=just_saved(story, entries),
        to_right=to_right,
        files=files_told(story),
        beside=list(ways_beside(of, area=area)),
        to_picture=page_to_picture(story, subject=of, area=area),
        times=times(story),
    )


def stories_of(tx: Tx, records: Iterable[Record]) -> Iterator[tuple[Record, Story]]:
    """Each of these records that the asker may see, with its story."""
    for each in records:
        if story := story_of_book(asker().scope, tx, of=each.id):
            yield each, story


def ways_beside(of: UUID, *, area: UUID | None) -> Iterator[tuple[str, str]]:
    """What the asker may add to anything of the books, with its address. `area`: of it; None where it is of none."""
    offered = (
        ("note", _("Add a note"), url_for("on_books.page", subject=of, said="note")),
        ("attached", _("Attach a picture"), url_for("attachments.to_books", subject=of)),
        ("outside_number_added", _("Add an outside number"), url_for("on_books.page", subject=of, said="number")),
    )
    yield from ((name, address) for kind, name, address in offered if asker().may(kind, area=area))


def just_saved(story: Story, entries: Sequence[Telling]) -> Telling | None:
    """Of these entries of a story, the one that the address says was just saved, or just put right."""
    id = as_id(request.args.get("saved", ""))
    of = {each.id: of.entry.id for of in story.told for each in (of.entry, *of.corrections, *of.undone, *of.rightings)}
    of |= {each.voided_by.id: each.entry.id for each in story.told if each.voided_by}
    return next((entry for entry in entries if id and entry.id == of.get(id)), None)


def page_to_picture(story: Story, *, area: UUID | None, leak: UUID | None = None, subject: UUID | None = None) -> str:
    """Where a picture is attached of the page from which the entry was typed that the address says was just saved.
    Empty where it was typed from none, where a file came since or on the same day, and for who may attach none."""
    id = as_id(request.args.get("saved", ""))
    standing = [each.entry for each in story.told if each.entry.void is None]
    entry = next((each for each in standing if id and each.id == id), None)
    if entry is None or entry.text("typed_from") != "paper" or not asker().may("attached", area=area):
        return ""
    day = str(entry.moments["received"])[:10]
    if any(each.kind == "attached" and str(each.moments["received"])[:10] >= day for each in standing):
        return ""
    return url_for("attachments.page", leak=leak) if leak else url_for("attachments.to_books", subject=subject)


def ways_on(of: UUID, story: Story, *, area: UUID | None) -> WaysToRight:
    """What the asker may put right in the story of what is no leak. `area`: of it; None where it belongs to none."""
    return ways_to_right(
        story,
        area=area,
        right=lambda entry: url_for("put_right.of_books", subject=of, entry=entry),
        void=lambda entry: url_for("put_right.void_of_books", subject=of, entry=entry),
    )


def enters(says: Says) -> ResponseReturnValue:
    """Answer a GET or a POST of that page. `then`: the address to go to, to which the entry that was saved is added."""
    part = Part(
        name="entry",
        kind=says.kind,
        said=says.said,
        choices=says.choices,
        labels=says.labels,
        begins=says.begins,
        without=says.without,
    )
    return entering(
        Page(
            template="frame/says.html",
            parts=[part],
            areas=says.areas,
            otherwise=says.otherwise,
            then=lambda receipts: then(says.then.format(id=receipts[0].id), saved=str(receipts[0].id)),
            open_to_asker=says.opens_to,
            around={
                "heading": says.heading,
                "called": says.called,
                "back": says.back,
                "save": says.save,
                "first": says.first,
                "hint": says.hint,
                "lines": says.told,
                "caution": says.caution,
            },
        )
    )


def enters_step(of: Step, subject: UUID, *, at: str, **says: Any) -> ResponseReturnValue:
    """Answer a GET or a POST of the page of that step, which says it of that thing. `at`: the thing's page, to which it
    leads back; `says`: what else `Says` takes."""
    return enters(
        Says(
            kind=of.kind,
            heading=of.heading,
            save=of.save,
            back=at,
            then=at,
            said={"subject": str(subject)},
            labels={"happened": of.happened, **of.labels},
            first=of.first,
            hint=of.hint,
            caution=of.caution,
            **says,
        )
    )


PAGES = {
    "call": ("call.page", "call"),
    "company": ("company.page", "company"),
    "person": ("person.page", "person"),
    "crew": ("crews.one", "crew"),
    "instrument": ("instrument.page", "instrument"),
    "area": ("areas.one", "area"),
    "lot": ("lots.one", "lot"),
    "shelf": ("shelves.one", "shelf"),
    "place": ("places.one", "place"),
    "operator": ("operator.page", "operator"),
}
"""By kind of subject that is no leak, the page that tells of one, and what its address names it by."""

OF_NO_AREA = ("company", "person", "operator")
"""Kinds of these that belong to no area, and are none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """One thing of the books, where an entry about it is put right. `areas`: its own, else the operator's clock.
    `touches`: what is worked out again with it."""

    kind: str
    called: str
    areas: Sequence[Area]
    people: Choices
    touches: str


def book_of(subject: UUID) -> Book:
    """That thing; 404 for who asks to see one that they may not, or that is not there. For who sends something about
    it all the same it has no areas: what they typed is kept."""
    scope = asker().scope
    with store().reading() as tx:
        person = person_seen(scope, tx, person=subject)
        name = person or company_seen(scope, tx, company=subject)
        row = next((each for each in subjects(scope, tx, ids=[subject]) if each.kind in PAGES), None)
        clock, people = operators_own(tx), people_to_choose(tx)
        if name is not None:
            kind = "company" if person is None else "person"
            return Book(kind=kind, called=name, areas=[clock] if clock else (), people=people, touches="")
        area = next((each for each in areas(scope, tx) if row and each.id == (row.area or row.id)), None)
        area = clock if row and row.kind == "operator" else area
        if row is None or area is None:
            hide(None)
            return Book(kind="", called="", areas=(), people=(), touches="")
        called = named(scope, tx, ids=[subject])[subject].called
        there = leaks_there(scope, tx).get(area.id)
    touches = words.touched_by_settings(there.all if there else 0) if row.kind == "area" else ""
    return Book(kind=row.kind, called=called, areas=[area], people=people, touches=touches)


def may_say(kind: str, of: Book) -> bool:
    """Whether the asker may post an entry of that kind about it: in its area; of a company or a person, in every
    area."""
    area = None if of.kind in ("company", "person") else next((area.id for area in of.areas), None)
    return bool(of.areas) and asker().may(kind, area=area)


def page_of(kind: str, subject: UUID, *, saved: str = "") -> str:
    """The address of the page that tells of it, with what was just saved; the first page for a kind that has none."""
    if kind not in PAGES:
        return first_page()
    endpoint, name = PAGES[kind]
    values: dict[str, Any] = {name: subject} | ({"saved": saved} if saved else {})
    return url_for(endpoint, **values)


def then(at: str, **saved: str) -> str:
    """The address with what was just saved."""
    return f"{at}?{urlencode(saved)}"
