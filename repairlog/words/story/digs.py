"""Digs, links, outside numbers and files, as a story tells them: a title, a verdict, measured ties."""

from __future__ import annotations

from collections.abc import Iterator

from repairlog.entries.entry import Row, Standing
from repairlog.entries.fields import Field
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, rows_named
from repairlog.records.story import Told
from repairlog.trade.dig import Dig
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.story.fields import Shown, a_list, value
from repairlog.words.story.pieces import Item
from repairlog.words.story.reader import Reader, name_of, small

_HEADING = tuple[str, str, bool]


def opened(reader: Reader, entry: Standing) -> _HEADING:
    """`Dig 1`, and whether it is a dry hole, open, filled or restored."""
    of = _dig(reader, str(entry.id))
    title = _("{dig} opened").format(dig=name_of(reader, str(entry.id)))
    if of is None or entry.void is not None:
        return title, _("opened in error") if entry.void is not None else "", False
    dry = _("a dry hole") if of.found == "nothing" else ""
    said = {"open": _("not backfilled yet"), "backfilled": _("backfilled"), "restored": _("restored")}[of.status]
    return title, ", ".join(filter(None, (dry, said))), of.status != "open"


def found(reader: Reader, entry: Standing) -> _HEADING:
    """`Dig 1: found the source`."""
    what = {"source": _("the source"), "nothing": _("nothing: a dry hole"), "other_pipe": _("another pipe")}
    named = small(name_of(reader, entry.text("source"))) if entry.text("source") else ""
    said = what.get(entry.text("found"), entry.text("found"))
    told = _("{dig}: found {what}").format(dig=_name(reader, entry), what=said)
    return f"{told} ({named})" if named else told, "", True


def exposed(reader: Reader, entry: Standing) -> _HEADING:
    """`Dig 1: pipe laid bare, source 2`."""
    named = small(name_of(reader, entry.text("source"))) if entry.text("source") else entry.text("pipe")
    told = _("{dig}: exposed pipe").format(dig=_name(reader, entry))
    return ", ".join(filter(None, (told, named))), "", True


def backfilled(reader: Reader, entry: Standing) -> _HEADING:
    """`Dig 1: backfilled`."""
    return _("{dig}: backfilled").format(dig=_name(reader, entry)), "", True


def owed(reader: Reader, entry: Standing) -> _HEADING:
    """What is owed after a dig, and whether it was done."""
    of = _dig(reader, entry.text("dig"))
    this = next((each for each in of.owed if each.entry == entry.id), None) if of else None
    done = this.restored_on if this else ""
    verdict = _("done {day}").format(day=day(done)) if done else _("still owed")
    return _("{dig}: restoration owed").format(dig=_name(reader, entry)), verdict, bool(done)


def restored(reader: Reader, entry: Standing) -> _HEADING:
    """`Dig 1: restored`."""
    return _("{dig}: restored").format(dig=_name(reader, entry)), "", True


def number(_reader: Reader, entry: Standing) -> _HEADING:
    """`Also known as: claim C-2026-55`."""
    return _("Also known as: {what} {number}").format(what=entry.text("what"), number=entry.text("number")), "", True


def linked(reader: Reader, entry: Standing) -> _HEADING:
    """`Linked: waits on ES-26-0002`."""
    how, to = small(reader.word(entry.text("how"))), name_of(reader, entry.text("to_subject"))
    return _("Linked: {how} {what}").format(how=how, what=to), "", True


def attached(_reader: Reader, entry: Standing) -> _HEADING:
    """`Picture`, or `File` for what is none."""
    return _("Picture") if entry.text("media_type").startswith("image/") else _("File"), "", True


def ties(reader: Reader, told: Told) -> Iterator[Item]:
    """The measured ties of a dig, and the other leaks that it serves."""

    def tie(version: Standing, row: Row) -> Shown:
        text, also = value(reader, version, field=_DISTANCE, path=f"ties.{row['key']}.distance")
        return _("{distance} from {what}").format(distance=text or "?", what=row.get("from_what", "")), also

    def leak(_version: Standing, row: Row) -> Shown:
        other = row["leak"] != str(reader.story.leak.opened.id)
        return name_of(reader, row["leak"]) if other else "", ""

    yield from a_list(told, "ties", says=_("Measured ties"), show=tie)
    yield from a_list(told, "leaks", says=_("Serves also"), show=leak)


def _dig(reader: Reader, id: str) -> Dig | None:
    return next((each for each in reader.story.digs if each.opened.id == read_id(id)), None)


def _name(reader: Reader, entry: Standing) -> str:
    return name_of(reader, entry.text("dig"))


def _distance() -> Field:
    of = rows_named(KINDS["dig_opened"], "ties")
    assert of is not None
    return next(field for field in of.fields if field.name == "distance")


_DISTANCE = _distance()
