"""What stands beside an entry: what does not hold up, what was put right and by whom, what came in late."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.naming import target_of
from repairlog.records.story import Story, Told
from repairlog.trade.typed_after import days_after, written_at
from repairlog.words import _, of_number
from repairlog.words.days import day
from repairlog.words.gaps import told as told_of
from repairlog.words.story import figures
from repairlog.words.story.owed import due_notes
from repairlog.words.story.pieces import Margin
from repairlog.words.story.reader import Reader, day_and_hour, person, reader_of, received


def margin(reader: Reader, told: Told) -> Iterator[Margin]:
    """Every note beside one entry: what wants somebody first."""
    entry = told.entry
    gaps = [gap for gap in reader.story.gaps if gap.entry == entry.id]
    said = {(told_of(gap.code, gap.facts, kind=entry.kind), gap.set_aside is None): gap for gap in reversed(gaps)}
    for (text, wants), gap in reversed(said.items()):  # once, though two of its rows may lack the same
        head = _("Gap") if wants else _("Gap, set aside")
        yield Margin(head=head, text=text, wants=wants, gap=gap.code if wants else "", row=gap.row)
    if entry.void is None and reader.at is not None:
        yield from due_notes(reader.story, entry, at=reader.at)
    if entry.void is None:
        yield from figures.beside(reader, entry)
        yield from _came_in_after(reader, entry)
        yield from _typed_long_after(entry)
    for correction in told.corrections:
        yield _righted(reader, correction, _("Corrected {day} by {who}"))
    for undone in told.undone:
        yield _righted(reader, undone, _undone(undone))
    for righting in told.rightings:
        yield _righted(reader, righting, _of_righting(righting, told))


def voided(reader: Reader, told: Told) -> Margin | None:
    """Why an entry does not count; None where it does."""
    return _righted(reader, told.voided_by, _("Void since {day}, by {who}")) if told.voided_by else None


def _righted(reader: Reader, righting: Standing, head: str) -> Margin:
    who = person(reader, righting.by["typed"])
    said = head.format(day=day(righting.on), who=who)
    return Margin(head=said, text=righting.text("reason"), righting=righting.id)


def _undone(righting: Standing) -> str:
    if righting.kind == "corrected":
        return _("Corrected {day} by {who}, and not so since")
    return _("Made void {day} by {who}, and restored since")


def _of_righting(righting: Standing, told: Told) -> str:
    """Of what puts a correction or a void right in turn."""
    if righting.kind == "corrected":
        return _("That was corrected in turn {day} by {who}")
    kinds = {each.id: each.kind for each in (*told.corrections, *told.undone, *told.rightings)}
    target = target_of(righting.said)
    if target is not None and kinds.get(target) == "void":
        return _("Restored {day} by {who}")
    return _("That correction was made void {day} by {who}")


def _came_in_after(reader: Reader, entry: Standing) -> Iterator[Margin]:
    """It happened before an ending or an acceptance that was in the book already when it came in."""
    stood = [
        each.kind
        for each in reader.closings
        if each.index < entry.index and order_of_happening(entry) < order_of_happening(each)
    ]
    if stood:
        ended, accepted = _("Came in after the leak was ended"), _("Came in after a repair was accepted")
        head = ended if "leak_ended" in stood else accepted
        yield Margin(head=head, text=_("Received {moment}.").format(moment=received(entry)))


def _typed_long_after(entry: Standing) -> Iterator[Margin]:
    """Written by the device's clock more than a day after it happened."""
    if days := days_after(entry):
        head = _typed_after(days, from_paper=entry.text("typed_from") == "paper")
        local = written_at(entry).astimezone(ZoneInfo(entry.understood["zone"]))
        yield Margin(head=head, text=_("Written {moment}.").format(moment=day_and_hour(local)))


def _typed_after(days: int, *, from_paper: bool) -> str:
    if from_paper:
        said = of_number("Keyed from paper {number} day after", "Keyed from paper {number} days after", number=days)
    else:
        said = of_number("Typed {number} day after", "Typed {number} days after", number=days)
    return said.format(number=days)


def kept(reader: Reader, entry: Standing) -> str:
    """How it came into the book: who typed and sent it, how sure that is, when it was received, its line."""
    typed, sent = entry.by["typed"], entry.by["sent"]
    sender = "" if typed == sent else _(", sent by {who}").format(who=person(reader, sent))
    from_paper = entry.text("typed_from") == "paper"
    keyed = _("Keyed from paper by {who}{sender}, {sure}. Received {moment}. Line {index} of the journal.")
    typed_by = _("Typed by {who}{sender}, {sure}. Received {moment}. Line {index} of the journal.")
    said = keyed if from_paper else typed_by
    return said.format(
        who=person(reader, typed),
        sender=sender,
        sure=_sure(entry.by["sure"]),
        moment=received(entry),
        index=entry.index,
    )


def _sure(code: str) -> str:
    known = {
        "password": _("signed in with a password"),
        "token": _("by a program"),
        "import": _("taken in from a list"),
        "system": _("by the command line of the book"),
    }
    return known.get(code, code)


def moved_away(story: Story) -> Sequence[Margin]:
    """What is said of entries that left this story for another leak's."""
    head = _("An entry was moved from here to another leak {day} by {who}")
    return [_righted(reader_of(story), each, head) for each in story.moved_away]
