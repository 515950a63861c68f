"""The one way in which a page's form is drawn, looked over and posted. Whatever happens, what was typed stands."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from flask import abort, redirect, render_template, request
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict
from wtforms import Form

from repairlog.access import Refused
from repairlog.entries.ids import as_id, new_uuid7
from repairlog.entries.kinds import KINDS, field_at, rows_named
from repairlog.intake import Complaint, NotUnderstood, WaitsFor, record, with_asks
from repairlog.intake.form import Choices, add_row, form_of, form_with, heard, is_empty, offer, raw_of, say_who_asks
from repairlog.intake.when import as_typed
from repairlog.records.post import Receipt
from repairlog.records.queries.adopted import authorities
from repairlog.records.queries.companies import company_names
from repairlog.records.queries.people import names_of
from repairlog.records.store import Busy
from repairlog.trade.area import Area
from repairlog.web.frame.again import Again, opened_again, typed_by
from repairlog.web.frame.asking import asker, count_unfinished, store
from repairlog.web.frame.told import Told, Wrong, in_page_order, tell_complaints, tell_heard
from repairlog.words import complaints, refusals

_NAME = re.compile(r"(?:[A-Za-z_]+|[0-9]{1,6})(?:-(?:[A-Za-z_]+|[0-9]{1,6}))*")
"""What the name of a box may be; a row's number beyond a million is none of ours."""

Call = Mapping[str, Mapping[str, Any]]
"""The raw entries of a call by the part that gives them, in their order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One entry of a page. `name`: what its boxes' names begin with. `choices`, `without`, `labels`: as `form_of` takes
    them. `said`: fields that the page itself says, such as the leak; no box asks for them. `names`: fields that name
    the entry of an earlier part, such as a test its attempt. `begins`: what boxes hold at first. `optional`: left out
    of the call where nothing was typed into it."""

    name: str
    kind: str
    choices: Mapping[str, Choices] = field(default_factory=dict)
    without: Collection[str] = ()
    said: Mapping[str, Any] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)
    begins: Mapping[str, Any] = field(default_factory=dict)
    labels: Mapping[str, str] = field(default_factory=dict)
    optional: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page with a form. `template`: draws it from `forms` (by part) and `told`. `parts`: its entries, in their order;
    they are posted all or none. `areas`: where it may have happened; the one of its leak, or those that a box `area`
    offers; `otherwise`: whose clock counts where nobody says one. `then`: the address to go to with the receipts.
    `around`: what else the template takes.

    What a page may do of its own: `means`: the call that is meant by what was typed, and what it has to ask first;
    `shows`: a call as its boxes show it, the way back; `ready`: the last touch to forms and what is told beside them.
    `shows_first`: whether something that follows from what was typed has to be seen before it is saved.
    `sends`: the call that is recorded, where that is another than what is meant; `answers`: by part of that call, the
    forms whose boxes its complaints are told beside. `open_to_asker`: whether the asker may, where that hangs on more
    than the kinds of its parts.
    """

    template: str
    parts: Sequence[Part]
    areas: Sequence[Area]
    then: Callable[[Sequence[Receipt]], str]
    around: Mapping[str, Any] = field(default_factory=dict)
    means: Callable[[Call], tuple[Call, Sequence[Complaint]]] = lambda call: (call, ())
    shows: Callable[[Call], Call] = lambda call: call
    ready: Callable[[Mapping[str, Form], Told], None] = lambda _forms, _told: None
    shows_first: Callable[[Mapping[str, Form]], bool] = lambda _forms: False
    sends: Callable[[Call], Call] = lambda call: call
    answers: Callable[[Mapping[str, Form], str], Sequence[Form]] = lambda forms, name: [forms[name]]
    open_to_asker: bool | None = None
    otherwise: Area | None = None


def entering(page: Page) -> ResponseReturnValue:
    """Answer a GET or a POST of that page's form.

    GET draws it, empty or filled from `?unfinished=`; 403 for who may not post it in any of its areas. POST `add` draws
    it with one more row, `now` with this minute in a box, `check` with how its measures are read; anything else records
    it: 303 to where the page goes then, 422 with what could not be read, 403 or 202 with word that it is kept, 503
    where the book is busy.
    """
    if request.method == "GET":
        return _drawn_first(page)
    typed = MultiDict((name, value) for name, value in request.form.items(multi=True) if _NAME.fullmatch(name))
    forms = {part.name: _form_of(part, typed=typed) for part in page.parts}
    told = Told()
    if "add" in typed:
        return _with_row(page, forms, told, wanted=typed["add"])
    if "now" in typed:
        return _at_this_minute(page, forms, told, wanted=typed["now"])
    if "check" in typed:
        _tell_heard(page, forms, told, complain=True)
        return _drawn(page, forms, told, looked_over=True)
    if page.shows_first(forms):
        _tell_heard(page, forms, told, complain=True)
        return _drawn(page, forms, told, shown_first=True)
    return _saved(page, forms, told)


def _drawn_first(page: Page) -> ResponseReturnValue:
    again = opened_again(store(), asker())
    if again is None and not _may(page):
        abort(403)
    filled = page.shows(_by_part(page, again)) if again else {part.name: part.begins for part in page.parts}
    forms = {part.name: _form_of(part, raw=filled.get(part.name)) for part in page.parts}
    told = Told()
    if again is None:
        return _drawn(page, forms, told)
    meant, asks = page.means(filled)
    in_order = [page.answers(forms, name) for name in page.sends(meant)]
    tell_complaints(told, in_order, complaints_made=with_asks(asks, again.complaints))
    _tell_heard(page, forms, told, complain=again.because == "not_understood")
    return _drawn(page, forms, told, again=again)


def _may(page: Page) -> bool:
    if page.open_to_asker is not None:
        return page.open_to_asker
    kinds = [part.kind for part in page.parts if not part.optional]
    return any(asker().may(*kinds, area=area.id) for area in page.areas)


def _by_part(page: Page, again: Again) -> Call:
    """The raw entries of what was left unfinished, by the part that asks for their kind, in the order of the call."""
    found: dict[str, Mapping[str, Any]] = {}
    for raw in again.raw:
        part = next((each for each in page.parts if each.kind == raw.get("kind") and each.name not in found), None)
        if part is not None:
            found[part.name] = {name: _held(part, name, value) for name, value in raw.items()}
    return found


def _held(part: Part, name: str, value: object) -> object:
    """What boxes can hold of a field's value; of a list the rows of texts. A program may have sent anything."""
    if rows_named(KINDS[part.kind], name) is None:
        return value
    rows = value if isinstance(value, list) else []
    return [row for row in rows if isinstance(row, dict) and all(isinstance(each, str) for each in row.values())]


def _with_row(page: Page, forms: Mapping[str, Form], told: Told, *, wanted: str) -> ResponseReturnValue:
    _tell_heard(page, forms, told, complain=False)
    for part in page.parts:
        name = wanted.removeprefix(f"{part.name}-")
        rows = rows_named(KINDS[part.kind], name)
        if rows is not None and wanted == f"{part.name}-{name}" and name in forms[part.name]:
            add_row(forms[part.name], name, most=rows.most)
            last: Any = list(forms[part.name][name])[-1]  # type: ignore[call-overload]
            told.focus = next(box.id for box in last.form if box.type != "HiddenField")
    return _drawn(page, forms, told)


def _at_this_minute(page: Page, forms: Mapping[str, Form], told: Told, *, wanted: str) -> ResponseReturnValue:
    """The form with this minute in that box, by the clock of the area: nobody else says for a person when it was."""
    _tell_heard(page, forms, told, complain=False)
    box = next((box for form in forms.values() for box in form if box.name == wanted and box.type == "WhenBox"), None)
    if box is not None:
        told.focus = box.id
        if (area := _area(page, forms)) is None:
            nowhere = Complaint(entry=0, field="happened", code="area_first", facts={})
            told.wrongs.append(Wrong(box.id, box.label.text, *complaints.sentence(nowhere)))
        else:
            box.data = as_typed(asker().at, area.zone)
    return _drawn(page, forms, told)


def _saved(page: Page, forms: Mapping[str, Form], told: Told) -> ResponseReturnValue:
    meant, asks = page.means(_call_of(page, forms))
    call = page.sends(meant)
    who, said = asker(), list(call.values())
    if (author := typed_by(store(), who)) is not None:
        said = [{**raw, "typed": str(author)} for raw in said]
    try:
        receipts = record(store(), said, actor=who.actor, moments=who.moments, form=request.path, asks=asks)
    except NotUnderstood as unread:
        count_unfinished()
        if not page.areas:  # somebody's who may not see it: what stands there is not drawn for them
            return kept(unread)
        tell_complaints(told, [page.answers(forms, name) for name in call], complaints_made=unread.complaints)
        _tell_heard(page, forms, told, complain=True)
        is_kept = any(as_id(raw["id"]) for raw in said[:1])
        return _drawn(page, forms, told, is_kept=is_kept), 422
    except (Refused, WaitsFor) as not_yet:
        count_unfinished()
        return kept(not_yet)
    except Busy as busy:
        _tell_heard(page, forms, told, complain=False)
        return _drawn(page, forms, told, notice=refusals.sentence(busy.code)), 503
    return redirect(page.then(receipts), 303)


def kept(why: NotUnderstood | Refused | WaitsFor) -> ResponseReturnValue:
    """The page that says that what was typed is kept as unfinished, and why it could not be recorded."""
    facts = {"kind": why.kind} if isinstance(why, Refused) else {}
    message, hint = refusals.sentence(why.code, facts)
    status = {"refused": 403, "waits": 202}.get(why.code, 422)
    return render_template("frame/kept.html", message=message, hint=hint), status


def _form_of(part: Part, **holds: Any) -> Form:
    without = {*part.without, *part.said, *part.names}
    made = form_of(KINDS[part.kind], choices=part.choices, without=without, labels=part.labels)
    return form_with(made, prefix=part.name, **holds)


def _call_of(page: Page, forms: Mapping[str, Form]) -> Call:
    """The raw entries of the call by part, without the optional ones that nobody filled in."""
    call: dict[str, dict[str, Any]] = {}
    for part in page.parts:
        named = {name: call[of]["id"] for name, of in part.names.items() if of in call}
        said = {**part.said, **named}
        raw = raw_of(KINDS[part.kind], forms[part.name], area=_area(page, forms), said=said)
        if not (part.optional and is_empty(raw, said=said)):
            call[part.name] = raw
    keyed = next((raw["typed_from"] for raw in call.values() if "typed_from" in raw), None)
    if keyed:  # what is saved at once was keyed from one page
        takes = [name for name, raw in call.items() if field_at(KINDS[raw["kind"]], "typed_from")]
        call |= {name: {"typed_from": keyed, **call[name]} for name in takes}
    return call


def _tell_heard(page: Page, forms: Mapping[str, Form], told: Told, *, complain: bool) -> None:
    meant, _asks = page.means(_call_of(page, forms))
    for name, raw in meant.items():
        by_path = heard(KINDS[raw["kind"]], raw, area=_area(page, forms))
        tell_heard(told, forms[name], by_path=by_path, complain=complain)
    in_page_order(told, forms.values())


def _area(page: Page, forms: Mapping[str, Form]) -> Area | None:
    """Where it happened: the area that was chosen, else the only one there is, else what the page says."""
    chosen = [str(form["area"].data) for form in forms.values() if "area" in form]
    if not chosen:
        return page.areas[0] if len(page.areas) == 1 else page.otherwise
    return next((area for area in page.areas if str(area.id) in chosen), page.otherwise)


def _drawn(page: Page, forms: Mapping[str, Form], told: Told, **more: Any) -> str:
    for form in forms.values():
        if as_id(form["id"].data) is None:  # a new name for what has none that could be read
            form["id"].data = str(new_uuid7(asker().at))
    for form in (forms[part.name] for part in page.parts if part.optional):
        for box in form:  # nothing of it is needed while nothing of it is typed
            box.flags.required = False
    _name_others(forms)
    _say_who_asks(page, forms)
    page.ready(forms, told)
    return render_template(page.template, forms=forms, told=told, companies=_companies(page), **page.around, **more)


def _companies(page: Page) -> Sequence[str]:
    """The companies on the books, for a page that asks for the name of one: they are offered, any other is taken."""
    kinds = [KINDS[part.kind] for part in page.parts]
    every = [field for kind in kinds for field in (*kind.fields, *(f for rows in kind.rows for f in rows.fields))]
    if not any(field.name == "company" for field in every):
        return ()
    with store().reading() as tx:
        return company_names(asker().scope, tx)


def _say_who_asks(page: Page, forms: Mapping[str, Form]) -> None:
    """Have boxes name those who ask for them here, once each area has adopted the rules of somebody; all who may ask
    where one has not."""
    with store().reading() as tx:
        on = date.fromisoformat(asker().on)
        among = authorities(asker().scope, tx, ids=[area.id for area in page.areas], on=on)
    if among:
        for form in forms.values():
            say_who_asks(form, among=among)


def _name_others(forms: Mapping[str, Form]) -> None:
    """Show by their names those who are said to have done it and are none of the people of the area."""
    rows: list[Any] = [row.form["person"] for form in forms.values() if "did" in form for row in form["did"]]  # type: ignore[attr-defined]
    others = {id for box in rows if (id := as_id(box.data)) and box.data not in {each.value for each in box.choices}}
    if not others:
        return
    with store().reading() as tx:
        names = names_of(asker().scope, tx, ids=others)
    for box in rows:
        known = [(each.value, each.label) for each in box.choices if each.value]
        offer(box, [*known, *((str(id), name) for id, name in names.items())])
