"""What of a row is new, where its leak is in the book already: said before, said otherwise, or not said yet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.intake.lists.columns import folded
from repairlog.intake.lists.declared import OPENED, SOURCE, Columns
from repairlog.intake.lists.drafts import Draft, Drafts, otherwise
from repairlog.intake.lists.names import entries_named
from repairlog.intake.lists.refusal import Refusal, Refused
from repairlog.intake.said import said_of
from repairlog.records.post.stories import Story
from repairlog.trade.sources import sources

Raw = dict[str, Any]
Named = tuple[Draft, Raw]


def entries_of(drafts: Drafts, leak: UUID, *, area: UUID, columns: Columns, story: Story | None) -> list[Named]:
    """The entries that a row brings anew, each with the draft it comes from; none where all of it is in the book.

    `story`: that of its leak, None where the leak is new. Raises Refused where the row says something else about a fact
    that stands: a grade of the same day, the ending, the day of the report.
    """
    opening: Raw = {**drafts.opened.said, "id": str(leak), "area": str(area)}
    if story is None:
        return [(drafts.opened, opening), *_linked(entries_named(drafts, leak))]
    noted = _opened_otherwise(drafts, opening, columns=columns, story=story)
    named = entries_named(drafts, leak, also=noted)
    return _linked(named, said_by=lambda each: _said_by(drafts, each, story))


def _linked(named: list[Named], *, said_by: Callable[[Named], UUID | None] = lambda _named: None) -> list[Named]:
    """Those that are new, the attempt with its source and the ending with its attempt. `said_by`: the entry in the book
    that says the same."""
    new, names = [], dict[str, str]()
    for draft, raw in named:
        if raw["kind"] == "repair_attempted" and "source_added" in names:
            raw["source"] = names["source_added"]
        if raw["kind"] == "leak_ended" and "repair_attempted" in names:
            raw["attempts"] = [{"key": "a1", "attempt": names["repair_attempted"]}]
        there = said_by((draft, raw))
        names[raw["kind"]] = str(there or raw["id"])
        if there is None:
            new.append((draft, raw))
    return new


def _said_by(drafts: Drafts, named: Named, story: Story) -> UUID | None:
    """The entry of the story that says the same; None where nothing does. Raises Refused where one says otherwise."""
    draft, raw = named
    if _is_sealed(raw, story):
        return read_id(raw["id"])
    live = [entry for entry in story.standing if entry.kind == raw["kind"] and entry.void is None]
    if raw["kind"] == "source_added" and (known := _source_known(raw, story)) is not None:
        return known
    for entry in live:
        if _SAME[raw["kind"]](entry, raw):
            return entry.id
    for entry in live:
        if _ABOUT_THE_SAME[raw["kind"]](entry, raw):
            raise _refused(drafts, draft, stands=_shown(entry.said), came=_shown(raw))
    if read_id(raw["id"]) in story.sealed:  # made void since, or moved: what it says now is something else
        raise _refused(drafts, draft, stands=_shown(story.sealed[read_id(raw["id"])].said), came=_shown(raw))
    return None


def _is_sealed(raw: Raw, story: Story) -> bool:
    """Whether the same was recorded under the same id, whatever was corrected or made void since."""
    sealed = story.sealed.get(read_id(raw["id"]))
    return sealed is not None and said_of(raw, 0)[0].said == sealed.said


def _same_day(entry: Standing, raw: Raw) -> bool:
    known = entry.understood.get("happened_known") == raw.get("happened_known")
    return known and entry.on == raw["happened"][:10]


def _source_known(raw: Raw, story: Story) -> UUID | None:
    """The source that is known now as the list says, where it was first told otherwise: a later list may know it."""
    live = sorted((entry for entry in story.standing if entry.void is None), key=order_of_happening)
    names = [name for name in SOURCE if name in raw]
    found = (each.id for each in sources(live) if all(folded(each.text(n)) == folded(str(raw[n])) for n in names))
    return next(found, None)


def _same_words(entry: Standing, raw: Raw, names: tuple[str, ...]) -> bool:
    """Whether the entry says all that the list says under these names, capitals or not."""
    return all(folded(entry.text(name)) == folded(str(raw[name])) for name in names if name in raw)


_SAME: Mapping[str, Callable[[Standing, Raw], bool]] = {
    "grade_set": lambda entry, raw: _same_day(entry, raw) and _same_words(entry, raw, ("grade",)),
    "note": lambda entry, raw: _same_words(entry, raw, ("text",)),
    "source_added": lambda entry, raw: _same_words(entry, raw, SOURCE),
    "repair_attempted": lambda entry, raw: _same_day(entry, raw) and _same_words(entry, raw, ("lasting", "method")),
    "leak_ended": lambda entry, raw: _same_day(entry, raw) and _same_words(entry, raw, ("how",)),
}
_ABOUT_THE_SAME: Mapping[str, Callable[[Standing, Raw], bool]] = {
    "grade_set": _same_day,
    "note": lambda _entry, _raw: False,
    "source_added": lambda _entry, _raw: True,
    "repair_attempted": lambda _entry, _raw: False,
    "leak_ended": lambda _entry, _raw: True,
}


def _opened_otherwise(drafts: Drafts, opening: Raw, *, columns: Columns, story: Story) -> Draft | None:
    """A note of what the list writes otherwise of the leak itself; None where it says the same or less.

    Raises Refused where both know the day of the report and it is not the same.
    """
    if _is_sealed(opening, story):
        return None
    opened, came_on = story.opened, str(opening["happened"])[:10]
    told = dict(_told_otherwise(drafts, opened))
    if "happened_known" not in opening and came_on != opened.on:
        if "happened_known" not in opened.understood or came_on > opened.on:
            raise _refused(drafts, drafts.opened, stands=opened.on, came=came_on, field="happened")
        told = {drafts.opened.columns["happened"]: came_on} | told
    return otherwise(columns, told) if told else None


def _told_otherwise(drafts: Drafts, opened: Standing) -> Iterator[tuple[str, str]]:
    said, where = drafts.opened.said, drafts.opened.columns
    for name in (name for name in OPENED if name in said and name != "detected_by"):
        if folded(str(said[name])) != folded(opened.text(name)):
            column = where.get(name, name)
            yield column, drafts.row.cells.get(column, str(said[name]))


def _refused(drafts: Drafts, draft: Draft, *, stands: str, came: str, field: str = "") -> Refused:
    column = next((draft.columns[name] for name in (field, "grade", "text", "happened") if draft.columns.get(name)), "")
    facts = {"kind": str(draft.said["kind"]), "stands": stands, "came": came}
    refusal = Refusal(
        line=drafts.row.line,
        column=column,
        cell=drafts.row.cells.get(column, ""),
        code="says_otherwise",
        facts=facts,
    )
    return Refused([refusal])


def _shown(said: Mapping[str, Any]) -> str:
    """An entry in few words: its plain values, in the order of its fields."""
    plain = (of.name for of in KINDS[said["kind"]].fields if of.kind not in ("ref", "entry"))
    return ", ".join(str(said[name]) for name in plain if name in said)
