"""Any entry of a leak, or of what the books keep, is put right: corrected field by field, or made void, each with its
reason. Nothing is lost."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from flask import abort, request, url_for
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.entry import Standing
from repairlog.entries.fields import EntryKind
from repairlog.entries.ids import as_id, read_id
from repairlog.entries.kinds import KINDS, RIGHTING, field_at
from repairlog.intake import Complaint
from repairlog.intake.changes import changes_between, with_changes_made
from repairlog.intake.form import form_of, form_with, offer, raw_of
from repairlog.records.post.chain import chain_of
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.queries.people import names_of
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.records.story import Story, story_of, story_of_book
from repairlog.web.everyone.offered import choices_of, known_of, names_leaks
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import book_of, page_of
from repairlog.web.frame.entering import Call, Page, Part, entering
from repairlog.web.frame.righted import Target, as_raw, rights, target
from repairlog.web.frame.where import Where, leak_numbered, where_of
from repairlog.words import _
from repairlog.words.boxes import label
from repairlog.words.story import tell

routes = room("put_right", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Righting:
    """What a page that puts an entry right is about. `called`: what the books call it; `back`: where its page is, with
    what was saved; `touches`: what is worked out again with it. `choices`: by path; `base`: the entry as its boxes held
    it when the page was drawn; `present`: as they would hold it now."""

    where: Where
    called: str
    back: Callable[[str], str]
    touches: str
    story: Story | None
    target: Target
    kind: EntryKind
    title: str
    may: bool
    form: type[Form]
    base: Mapping[str, Any]
    present: Mapping[str, Any]
    choices: Mapping[str, Any]

    @property
    def is_late(self) -> bool:
        """Whether somebody saves what others put right meanwhile."""
        return request.method == "POST" and "save" in request.form and bool(self.target.meanwhile)


@routes.route("/leaks/<uuid:leak>/entries/<uuid:entry>/right", methods=["GET", "POST"])
def page(leak: UUID, entry: UUID) -> ResponseReturnValue:
    """Correct any field of that entry of a leak."""
    return _corrects(_about(_of_leak(leak), entry), entry)


@routes.route("/leaks/<uuid:leak>/entries/<uuid:entry>/void", methods=["GET", "POST"])
def void(leak: UUID, entry: UUID) -> ResponseReturnValue:
    """Make that entry of a leak void; of a correction or a void: have it count no longer."""
    return _voids(_about(_of_leak(leak), entry), entry)


@routes.route("/books/<uuid:subject>/entries/<uuid:entry>/right", methods=["GET", "POST"])
def of_books(subject: UUID, entry: UUID) -> ResponseReturnValue:
    """Correct any field of that entry about a person, a crew, an instrument, an area or the like."""
    return _corrects(_about(_of_book(subject), entry), entry)


@routes.route("/books/<uuid:subject>/entries/<uuid:entry>/void", methods=["GET", "POST"])
def void_of_books(subject: UUID, entry: UUID) -> ResponseReturnValue:
    """Make that entry about one of these void; of a correction or a void: have it count no longer."""
    return _voids(_about(_of_book(subject), entry), entry)


def _corrects(about: Righting, entry: UUID) -> ResponseReturnValue:
    """What is changed becomes a correction, what is not stays as it stands."""
    if about.kind.name == "void":
        abort(404)
    return entering(
        Page(
            template="everyone/put_right.html",
            parts=[
                Part(name="right", kind="corrected", said={"entry": str(entry)}, without=("changes", "did")),
                Part(
                    name="entry",
                    kind=about.kind.name,
                    choices=about.choices,
                    without=_without(about.kind),
                    begins=about.base,
                ),
            ],
            areas=_areas(about),
            otherwise=next(iter(about.where.areas), None),
            then=lambda receipts: about.back(str(receipts[0].id)),
            around={
                **_around(about),
                "numbers": names_leaks(about.kind.name),
                "drawn_at": about.target.newest if about.is_late else about.target.drawn_at,
                "meanwhile": _meanwhile(about) if about.is_late else [],
            },
            means=lambda call: (call, _asks(call, about)),
            shows=lambda call: _shows(call, about),
            ready=lambda forms, _told: _ready(forms, about),
            sends=lambda call: _sends(call, about),
            answers=_answers,
            open_to_asker=about.may,
        )
    )


def _voids(about: Righting, entry: UUID) -> ResponseReturnValue:
    return entering(
        Page(
            template="everyone/void.html",
            parts=[Part(name="void", kind="void", said={"entry": str(entry)}, without=("did",))],
            areas=about.where.areas,
            then=lambda receipts: about.back(str(receipts[0].id)),
            around={**_around(about), "kind": about.kind.name},
            open_to_asker=about.may,
        )
    )


def _around(about: Righting) -> dict[str, Any]:
    return {
        "leak": about.where.leak,
        "called": about.called,
        "back": about.back(""),
        "touches": about.touches,
        "title": about.title,
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """In whose story the entry stands: a leak's, or that of one thing of the books."""

    id: UUID
    where: Where
    called: str
    back: Callable[[str], str]
    touches: str
    reads: Callable[[Tx], Story | None]


def _of_leak(leak: UUID) -> Whose:
    return Whose(
        id=leak,
        where=where_of(leak),
        called="",
        back=lambda saved: url_for("sheet.page", leak=leak, saved=saved or None),
        touches="",
        reads=lambda tx: story_of(asker().scope, tx, leak=leak),
    )


def _of_book(subject: UUID) -> Whose:
    book = book_of(subject)
    return Whose(
        id=subject,
        where=Where(leak=None, areas=book.areas, people=book.people),
        called=book.called,
        back=lambda saved: page_of(book.kind, subject, saved=saved),
        touches=book.touches,
        reads=lambda tx: story_of_book(asker().scope, tx, of=subject),
    )


def _about(whose: Whose, entry: UUID) -> Righting:
    """404 where there is no such entry in that story."""
    where = whose.where
    with store().reading() as tx:
        chain = chain_of(tx, entry)
        if not chain:
            abort(404)
        found = target(entry, chain, drawn_at=request.form.get("drawn_at", ""))
        story = whose.reads(tx)
        if found.root.id not in {each.entry.id for each in story.told} if story else found.subject != whose.id:
            abort(404)
        told = list(tell(story)) if story else []
        known = known_of(tx, where, story=story, told=told) if story else None
    kind, private = KINDS[found.now.kind], story.private if story else {}
    base, now = as_raw(found.as_drawn, private), as_raw(found.now, private)
    choices = choices_of(kind, known, stands=now) if known else _nothing_to_choose(kind)
    form = form_of(kind, choices=choices, without=_without(kind))
    area = where.areas[0] if where.areas else None
    title = next((each.title for each in told if each.id == found.root.id), "")
    return Righting(
        where=where,
        called=whose.called,
        back=whose.back,
        touches=whose.touches,
        story=story,
        target=found,
        kind=kind,
        title=_of_righting(found.now, title),
        may=bool(story and rights(story, area=area.id if area else None)(found.now, found.root)),
        form=form,
        base=_as_boxes_hold(kind, form, raw=base, area=area),
        present=_as_boxes_hold(kind, form, raw=now, area=area),
        choices=choices,
    )


def _of_righting(entry: Standing, title: str) -> str:
    """What the entry is called: of what puts another right, that and the other's title."""
    said = {"corrected": _("A correction of: {title}"), "void": _("Made void: {title}")}
    return said[entry.kind].format(title=title) if entry.kind in said else title


def _without(kind: EntryKind) -> tuple[str, ...]:
    return ("entry", "did") if kind.name in RIGHTING else _AS_WORKED.get(kind.name, ())


_AS_WORKED = {
    "figure_kept": tuple(f.name for f in KINDS["figure_kept"].fields if f.name not in ("happened", "remarks"))
}
_AS_WORKED["figure_kept"] += tuple(rows.name for rows in KINDS["figure_kept"].rows)
"""What was worked out is not put right by hand: it is made void, and worked out again."""


def _nothing_to_choose(kind: EntryKind) -> dict[str, Any]:
    """For a form that is read and never drawn."""
    every = [(field.name, field) for field in kind.fields]
    every += [(f"{rows.name}.{field.name}", field) for rows in kind.rows for field in rows.fields]
    return {path: [] for path, field in (*every, ("did.person", None)) if not field or field.kind in _CHOSEN}


_CHOSEN = ("ref", "entry", "hole")


def _as_boxes_hold(kind: EntryKind, form: type[Form], *, raw: Mapping[str, Any], area: Any) -> dict[str, Any]:
    """The entry as a form gives it back where nobody touches a box: only what differs from that was changed."""
    held = raw_of(kind, form_with(form, prefix="entry", raw=raw), area=area)
    return {name: value for name, value in held.items() if name not in ("id", "kind")}


def _areas(about: Righting) -> Sequence[Any]:
    """Where it may have happened: any of the asker's areas, where the entry itself says which."""
    if not about.where.areas or not any(field.name == "area" for field in about.kind.fields):
        return about.where.areas
    with store().reading() as tx:
        return areas(asker().scope, tx)


def _typed(call: Call, about: Righting) -> dict[str, Any]:
    """What was typed, leaks by their ids again."""
    raw = dict(call.get("entry", {}))
    for name in names_leaks(about.kind.name):
        number = str(raw.get(name, "")).strip()
        if number and (found := as_id(number) or leak_numbered(number)):
            raw[name] = str(found)
    return raw


def _sends(call: Call, about: Righting) -> Call:
    changes = changes_between(about.kind, was=about.base, now=_typed(call, about))
    return {"right": {**call.get("right", {}), "changes": changes}}


def _asks(call: Call, about: Righting) -> list[Complaint]:
    if "entry" not in call:
        return []
    if about.is_late:
        who = {read_id(each.by["typed"]) for each in about.target.meanwhile}
        with store().reading() as tx:
            names = names_of(asker().scope, tx, ids=who)
        facts = {"by": ", ".join(names.values()) or _("Somebody")}
        return [Complaint(entry=0, field="", code="put_right_meanwhile", facts=facts)]
    typed = _typed(call, about)
    asks = [
        Complaint(entry=0, field=name, code="leak_number_unknown", facts={"got": str(typed[name])})
        for name in names_leaks(about.kind.name)
        if name in typed and not as_id(typed[name])
    ]
    if not changes_between(about.kind, was=about.base, now=typed):
        asks.append(Complaint(entry=0, field="", code="nothing_changed", facts={}))
    return asks


def _shows(call: Call, about: Righting) -> Call:
    """A correction that was left unfinished, as its boxes show it: what stands now with its changes made."""
    right = call.get("right", {})
    return {"right": right, "entry": with_changes_made(about.present, right.get("changes", ()))}


def _answers(forms: Mapping[str, Form], _name: str) -> list[Form]:
    """A complaint about the reason is about that of the correction, unless one is given."""
    in_order = [forms["right"], forms["entry"]]
    return in_order[::-1] if (forms["right"]["reason"].data or "").strip() else in_order


def _ready(forms: Mapping[str, Form], about: Righting) -> None:
    if about.is_late and isinstance(forms, dict):
        area = about.where.areas[0] if about.where.areas else None
        typed = _typed({"entry": raw_of(about.kind, forms["entry"], area=area)}, about)
        changes = changes_between(about.kind, was=about.base, now=typed)
        forms["entry"] = form_with(about.form, prefix="entry", raw=with_changes_made(about.present, changes))
    entry = forms["entry"]
    for name in names_leaks(about.kind.name):
        entry[name].data = _number(str(entry[name].data or ""))
    if "places" in entry and "readings" in entry:
        places: Any = entry["places"]
        readings: Any = entry["readings"]
        names = [(row.form["key"].data, _place(row.form, place)) for place, row in enumerate(places, start=1)]
        for row in readings:
            offer(row.form["place"], names)


def _place(form: Form, number: int) -> str:
    said = form["label"].data or ""
    return (
        _("Place {number}: {label}").format(number=number, label=said)
        if said
        else _("Place {number}").format(number=number)
    )


def _number(text: str) -> str:
    """The number of the leak of that id, for who may see it; what is no such id stays as typed."""
    id = as_id(text)
    if id is None:
        return text
    with store().reading() as tx:
        found = leak_with_id(asker().scope, tx, leak=id)
    return found.number if found else text


def _meanwhile(about: Righting) -> list[tuple[str, str, str]]:
    """Field by field, what stood when the page was drawn and what stands now."""
    found = []
    for change in changes_between(about.kind, was=about.base, now=about.present):
        path = change["field"]
        of = field_at(about.kind, path)
        found.append((label(of.says) if of else path, _at(about.base, path), _at(about.present, path)))
    return found


def _at(raw: Mapping[str, Any], path: str) -> str:
    name, _dot, rest = path.partition(".")
    if not rest:
        return str(raw.get(name, ""))
    key, _dot, field = rest.partition(".")
    row: Mapping[str, Any] = next((row for row in raw.get(name, ()) if row["key"] == key), {})
    return str(row.get(field, "")) if field else ", ".join(str(it) for of, it in row.items() if of != "key")
