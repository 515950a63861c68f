"""What deserves to be told in its own way: a title, a verdict, and lists that read better than field by field."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from repairlog.entries.entry import Row, Standing
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.naming import own_subject
from repairlog.records.story import Told
from repairlog.trade.answers_to import answers_of
from repairlog.words import _
from repairlog.words.boxes import label
from repairlog.words.days import day
from repairlog.words.story import digs, figures, sources
from repairlog.words.story.fields import Shown, a_list, entry_named, piece
from repairlog.words.story.pieces import Item
from repairlog.words.story.reader import Reader, name_of, small
from repairlog.words.story.visits import looked_at

Heading = tuple[str, str, bool]
"""Title, verdict (empty where there is none), and whether the verdict is a good one."""


@dataclass(frozen=True, slots=True)
class Kind:
    """How a kind is told: its heading; fields and lists that need not be told again; lists told here."""

    heading: Callable[[Reader, Standing], Heading]
    told: tuple[str, ...] = ()
    lists: Callable[[Reader, Told], Iterator[Item]] | None = None


def kind_of(name: str) -> Kind:
    """How entries of that kind are told; by their declaration alone, where nothing else is said."""
    return _KINDS.get(name, Kind(lambda _reader, entry: (label(KINDS[entry.kind].says), "", True)))


def _opened(reader: Reader, entry: Standing) -> Heading:
    detected = entry.text("detected_by")
    title = _("Reported")
    if detected:
        title = _("Reported: {how}").format(how=small(reader.word(detected)))
    return title, _("opened in error") if entry.void is not None else "", False


def _visit(reader: Reader, entry: Standing) -> Heading:
    verdict = reader.word("no_access") if entry.text("outcome") == "no_access" else ""
    return reader.word(entry.text("purpose")), small(verdict), False


def _grade(_reader: Reader, entry: Standing) -> Heading:
    return _("Grade {grade}").format(grade=entry.text("grade")), "", True


def _attempt(reader: Reader, entry: Standing) -> Heading:
    lasting = small(reader.word(entry.text("lasting")))
    attempt = reader.attempts.get(str(entry.id))
    outcome = attempt.outcome if attempt else entry.text("outcome")
    words = {"lasting": lasting, "number": attempt.number if attempt else ""}
    title = (_("Repair, attempt {number}: {lasting}") if attempt else _("Repair: {lasting}")).format(**words)
    return title, small(reader.word(outcome)), outcome == "tight"


def _tested(reader: Reader, entry: Standing) -> Heading:
    result = entry.text("result")
    title = _("{test} of {attempt}").format(
        test=reader.word(entry.text("kind_of_test")), attempt=small(entry_named(reader, entry.text("attempt")))
    )
    return title, small(reader.word(result)), result == "tight"


def _reviewed(reader: Reader, entry: Standing) -> Heading:
    outcome = entry.text("outcome")
    title = _("Review of {attempt}").format(attempt=small(entry_named(reader, entry.text("attempt"))))
    return title, small(reader.word(outcome)), outcome == "accepted"


def _ended(reader: Reader, entry: Standing) -> Heading:
    ending = reader.story.of_leak.ending if reader.story.of_leak else None
    counts = ending is not None and ending.entry.id == entry.id
    title = _("Ended: {how}").format(how=small(reader.word(entry.text("how"))))
    return title, "" if counts or entry.void is not None else _("does not count"), False


def _call(reader: Reader, entry: Standing) -> Heading:
    title = _("Call: {report}").format(report=small(reader.word(entry.text("report"))))
    return title, _("received in error") if entry.void is not None else "", False


def _step(says: Callable[[], str]) -> Callable[[Reader, Standing], Heading]:
    def heading(reader: Reader, entry: Standing) -> Heading:
        who = [name_of(reader, entry.text(of)) for of in ("crew", "person") if entry.text(of)]
        who += [entry.text("named")] if entry.text("named") else []
        return ": ".join(filter(None, (says(), ", ".join(who)))), "", True

    return heading


def _came_out(reader: Reader, entry: Standing) -> Heading:
    return _("Came out: {how}").format(how=small(reader.word(entry.text("outcome")))), "", True


def _call_reviewed(reader: Reader, entry: Standing) -> Heading:
    outcome = entry.text("outcome")
    return _("Review of the call"), small(reader.word(outcome)), outcome == "accepted"


def _moment(reader: Reader, entry: Standing) -> Heading:
    return reader.word(entry.text("moment")), "", True


def _emergency_reviewed(reader: Reader, entry: Standing) -> Heading:
    followed = entry.text("procedures")
    title = _("Review of the emergency: procedures {how}")
    return title.format(how=small(reader.word(followed))), "", True


def _watch(reader: Reader, entry: Standing) -> Heading:
    to = name_of(reader, entry.text("to_person")) if entry.text("to_person") else entry.text("to_named")
    return (_("The watch goes to {who}").format(who=to) if to else _("The watch is handed over")), "", True


def _told(reader: Reader, entry: Standing) -> Heading:
    return _("Told: {whom}").format(whom=small(reader.word(entry.text("whom")))), "", True


def _decided(reader: Reader, entry: Standing) -> Heading:
    return _("Decided: {what}").format(what=small(reader.word(entry.text("decision")))), "", True


def _moved(reader: Reader, entry: Standing) -> Heading:
    of = own_subject(entry.said)
    answered = answers_of([each.entry for each in reader.story.told if own_subject(each.entry.said) == of])
    move = next((each for each in answered.moves if each.entry.id == entry.id), None) if answered else None
    to = name_of(reader, entry.text("to_area"))
    if move is None:  # it is void
        return _("Moved to {area}").format(area=to), "", True
    return _("Moved from {before} to {area}").format(before=name_of(reader, str(move.from_area)), area=to), "", True


def _note(_reader: Reader, _entry: Standing) -> Heading:
    return _("Note"), "", True


def _outside_numbers(_reader: Reader, told: Told) -> Iterator[Item]:
    def show(_version: Standing, row: Row) -> Shown:
        return _("{what} {number}").format(what=row.get("what", ""), number=row.get("number", "")), ""

    yield from a_list(told, "outside_numbers", says=_("Also known as"), show=show)


def _work(reader: Reader, told: Told) -> Iterator[Item]:
    """Materials with what the books say of their lots, and people with their tasks."""

    def source(version: Standing) -> Shown:
        named = version.text("source")
        return (name_of(reader, named) if named else "", "")

    def crew_s_word(version: Standing) -> Shown:
        return reader.word(version.text("outcome")), ""

    attempt = reader.attempts.get(str(told.entry.id))
    if at := piece(told, source):
        yield Item(label=_("On"), pieces=(at,))
    if (said := piece(told, crew_s_word)) and (said.was or (attempt and attempt.decided_by)):
        yield Item(label=_("In the crew's word"), pieces=(said,))
    yield from a_list(told, "materials", says=_("Materials"), show=lambda _version, row: _material(reader, row))
    yield from a_list(told, "people", says=_("Who did what"), show=lambda _version, row: _task(reader, row))


def _material(reader: Reader, row: Row) -> Shown:
    used = row.get("used", "")
    if "lot" not in row:
        return row.get("named", ""), ", ".join(filter(None, (used, _("not on the books"))))
    found = reader.story.named.get(read_id(row["lot"]))
    if found is None or found.lot is None:
        return _("a lot outside your areas"), used
    lot = found.lot
    until = _("to {day}").format(day=day(lot.expires_on)) if lot.expires_on else ""
    text = _("Lot {number}, {item}").format(number=lot.lot_number, item=lot.item)
    return text, ", ".join(filter(None, (used, until, _("its receipt is void") if lot.void else "")))


def _task(reader: Reader, row: Row) -> Shown:
    who = name_of(reader, row["person"]) if "person" in row else row.get("named", "")
    return who, row.get("task", "")


def _attempts_named(reader: Reader, told: Told) -> Iterator[Item]:
    def show(_version: Standing, row: Row) -> Shown:
        attempt = reader.attempts.get(row["attempt"])
        return entry_named(reader, row["attempt"]), small(reader.word(attempt.outcome)) if attempt else ""

    yield from a_list(told, "attempts", says=_("By"), show=show)


_ADDRESS = ("house_number", "street", "cross_street", "town", "postal_code")

_OF_FIGURES = ("inputs", "results", "holds_for", "cautions")

_WHO = ("crew", "person", "named")

_KINDS: Mapping[str, Kind] = {
    "leak_opened": Kind(_opened, ("detected_by", "outside_numbers", *_ADDRESS), _outside_numbers),
    "source_added": Kind(sources.added, ("part", "component", "material")),
    "source_changed": Kind(sources.turned_out, ("source",), sources.told_before),
    "visit": Kind(_visit, ("purpose", "outcome", "places", "readings"), looked_at),
    "grade_set": Kind(_grade, ("grade", "rank")),
    "repair_attempted": Kind(_attempt, ("lasting", "source", "outcome", "materials", "people"), _work),
    "tested": Kind(_tested, ("kind_of_test", "attempt", "result")),
    "repair_reviewed": Kind(_reviewed, ("attempt", "outcome")),
    "leak_ended": Kind(_ended, ("how", "attempts"), _attempts_named),
    "note": Kind(_note),
    "dig_opened": Kind(digs.opened, ("leaks", "ties"), digs.ties),
    "dig_found": Kind(digs.found, ("found", "source")),
    "pipe_exposed": Kind(digs.exposed, ("source", "pipe")),
    "dig_backfilled": Kind(digs.backfilled),
    "restoration_owed": Kind(digs.owed),
    "restored": Kind(digs.restored),
    "outside_number_added": Kind(digs.number, ("what", "number")),
    "subject_moved": Kind(_moved, ("to_area",)),
    "linked": Kind(digs.linked, ("how", "to_subject")),
    "attached": Kind(digs.attached, ("digest", "length", "media_type", "original")),
    "figure_kept": Kind(figures.heading, ("figure", "called", *_OF_FIGURES), figures.rows),
    "call_received": Kind(_call, ("report", "outside_numbers", *_ADDRESS), _outside_numbers),
    "call_sent": Kind(_step(lambda: _("Sent")), _WHO),
    "call_on_way": Kind(_step(lambda: _("On the way")), _WHO),
    "call_on_site": Kind(_step(lambda: _("On site")), _WHO),
    "call_outcome": Kind(_came_out, ("outcome",)),
    "call_reviewed": Kind(_call_reviewed, ("outcome",)),
    "moment_noted": Kind(_moment, ("moment",)),
    "watch_handed": Kind(_watch, ("to_person", "to_named")),
    "emergency_reviewed": Kind(_emergency_reviewed, ("procedures",)),
    "told": Kind(_told, ("whom",)),
    "decided": Kind(_decided, ("decision",)),
}
