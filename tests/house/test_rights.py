"""Who may open which page, and send its form: every route there is, by every role, by a person of another area and by
nobody. Which kind of entry each may post through the interface for programs stands in `test_rights_of_kinds`."""

from __future__ import annotations

from typing import Any

import pytest
from flask import Flask

from repairlog import api, web
from repairlog.records.store import Store
from tests.house.forms_of_books import of_the_books
from tests.house.walked import Walk, walked
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.program import ROLES

# What each is answered with. `in`: asked to sign in. 303: saved, and sent to where the page goes then. 403: may not.
# 404: sees nothing there. 401: a program without a token. The crew, the supervisor, the leak and its attempt are of one
# area, `foreign` is a supervisor of the other one, the officer and the administrator are of every area. What is left
# unfinished is the crew's: refused, so that whoever oversees its area sees it, too.
TABLE = """
route           method  crew  supervisor  officer  administrator  foreign  nobody
drawn.file      GET     200   200         200      200            200      200
healthy.page    GET     200   200         200      200            200      200
first.page      GET     302   302         302      302            302      302
sign_in.page    GET     200   200         200      200            200      200
sign_in.come_in POST    403   403         403      403            403      403
today.page      GET     200   200         200      200            200      in
calls.page      GET     200   200         200      200            200      in
call.page       GET     200   200         200      200            404      in
new_call.page   GET     200   200         200      403            200      in
new_call.page   POST    303   303         303      403            403      in
call_steps.page GET     200   200         200      403            404      in
call_steps.page POST    303   303         303      403            403      in
call_steps.tap  POST    303   303         303      403            404      in
call_steps.undo POST    404   404         404      404            404      in
opens_leak.page GET     200   200         200      403            404      in
opens_leak.page POST    303   303         303      403            422      in
leaks.page      GET     200   200         200      200            200      in
paper.page      GET     200   200         200      200            200      in
paper.form      GET     200   200         200      200            200      in
lots.page       GET     200   200         200      200            200      in
lots.one        GET     200   200         200      200            404      in
stores.receive  GET     403   200         200      200            200      in
stores.receive  POST    403   303         303      303            403      in
stores.shelf    GET     403   200         200      200            200      in
stores.shelf    POST    403   303         303      303            403      in
stores.page     GET     200   200         200      200            404      in
stores.page     POST    303   303         303      303            403      in
records.page    GET     200   200         200      200            200      in
records.stories GET     200   200         200      200            200      in
looked_at.page  GET     403   403         200      200            403      in
rulebooks.page  GET     200   200         200      200            200      in
rulebooks.one   GET     200   200         200      200            200      in
adoptions.page  GET     200   200         200      200            404      in
adoptions.adopt GET     403   403         200      200            404      in
adoptions.adopt POST    403   403         303      303            403      in
adoptions.confirm GET   403   403         200      200            404      in
adoptions.confirm POST  403   403         303      303            422      in
adoptions.working_days GET   403   403    200      200            404      in
adoptions.working_days POST  403   403    303      303            403      in
adoptions.void  GET     403   403         200      200            404      in
adoptions.void  POST    403   403         303      303            403      in
sheet.page      GET     200   200         200      200            404      in
gaps.page       GET     200   200         200      200            200      in
due.page        GET     200   200         200      200            200      in
area_says.typing_time GET 403 403     200      200            404      in
area_says.typing_time POST 403 403    303      303            403      in
area_says.own_acceptance GET 403 403  200      200            404      in
area_says.own_acceptance POST 403 403 303      303            403      in
call_gaps.set_aside GET 404 404       404      404            404      in
call_gaps.set_aside POST 403 403      303      403            403      in
works.waiting   GET     200   200         200      403            404      in
works.waiting   POST    303   303         303      403            403      in
works.goes_on   GET     200   200         200      403            404      in
works.goes_on   POST    303   303         303      403            403      in
works.briefing  GET     200   200         200      403            404      in
works.briefing  POST    303   303         303      403            403      in
works.settle    GET     200   200         200      403            404      in
works.settle    POST    303   303         303      403            403      in
orders.give     GET     403   200         200      403            404      in
orders.give     POST    403   303         303      403            403      in
orders.schedule GET     403   200         200      403            404      in
orders.schedule POST    403   303         303      403            403      in
orders.reopen   GET     403   200         200      403            404      in
orders.reopen   POST    403   303         303      403            403      in
orders.review   GET     403   200         200      403            404      in
orders.review   POST    403   303         303      403            403      in
gaps.set_aside  GET     403   403         200      403            404      in
gaps.set_aside  POST    403   403         303      403            403      in
put_right.page  GET     403   200         200      403            404      in
put_right.page  POST    403   303         303      403            403      in
put_right.void  GET     403   200         200      403            404      in
put_right.void  POST    403   303         303      403            403      in
put_right.of_books GET  403   403         200      200            404      in
put_right.of_books POST 403   403         303      303            403      in
put_right.void_of_books GET 403 403       200      200            404      in
put_right.void_of_books POST 403 403      303      303            403      in
owed.page       GET     200   200         200      200            404      in
figures.page    GET     200   200         200      200            200      in
figures.one     GET     200   200         200      200            200      in
cure_of_file.page GET   200   200         200      200            200      in
cure_of_file.page POST  422   422         422      422            422      in
people.page     GET     403   200         200      200            200      in
person.page     GET     200   200         200      200            404      in
person_said.new GET     403   403         403      200            403      in
person_said.new POST    303   303         403      303            303      in
person_said.page GET    403   403         200      200            404      in
person_said.page POST   403   403         303      303            403      in
sign_ins.page   GET     403   403         403      200            403      in
sign_ins.end    POST    403   403         403      302            403      in
sign_ins.end_token POST 403   403         403      302            403      in
sign_ins.password POST  403   403         403      422            403      in
sign_ins.close  POST    403   403         403      422            403      in
mine.end        POST    302   302         302      302            302      in
mine.end_token  POST    302   302         302      302            302      in
person_signs_in.page GET 403  403         403      200            403      in
person_signs_in.page POST 403 403         403      422            403      in
companies.page  GET     403   200         200      200            200      in
companies.unknown GET   403   200         200      200            200      in
out_of_term.page GET    403   200         200      200            200      in
company.page    GET     403   200         200      200            200      in
company_said.new GET    403   403         403      200            403      in
company_said.new POST   403   403         403      303            403      in
company_said.page GET   403   403         403      200            403      in
company_said.page POST  403   403         403      303            403      in
crews.page      GET     403   200         200      200            200      in
crews.one       GET     403   200         200      200            404      in
crews.new       GET     403   200         200      200            200      in
crews.new       POST    403   303         303      303            403      in
crews.change    GET     403   200         200      200            404      in
crews.change    POST    403   303         303      303            403      in
instruments.page GET    200   200         200      200            200      in
instrument.page GET     200   200         200      200            404      in
instrument_said.new GET 200   200         200      200            200      in
instrument_said.new POST 303  303         303      303            403      in
visitors.page   GET     200   200         403      200            200      in
visitors.page   POST    303   303         403      303            303      in
instrument_said.page GET 200  200         200      200            404      in
instrument_said.page POST 303 303         303      303            403      in
places.page     GET     200   200         200      200            200      in
places.one      GET     200   200         200      200            404      in
places.street   GET     200   200         200      200            404      in
place_said.new  GET     200   200         200      200            200      in
place_said.new  POST    303   303         303      303            403      in
place_said.retire GET   403   200         200      200            404      in
place_said.retire POST  403   303         303      303            403      in
made_one.choose GET     403   403         200      200            404      in
made_one.page   GET     403   403         200      200            404      in
made_one.page   POST    403   403         303      303            403      in
made_one.choose_street GET 403 200        200      200            404      in
made_one.street GET     403   200         200      200            404      in
made_one.street POST    403   303         303      303            404      in
digs_listed.page GET    200   200         200      200            200      in
work_listed.page GET    200   200         200      200            200      in
shelves.page    GET     200   200         200      200            200      in
operator.page   GET     404   404         200      200            404      in
every_sign_in.page GET  403   403         403      200            403      in
areas.page      GET     200   200         200      200            200      in
areas.one       GET     200   200         200      200            404      in
areas.new       GET     403   403         403      200            403      in
areas.new       POST    403   403         403      303            403      in
areas.cut_over  GET     403   403         403      200            404      in
areas.cut_over  POST    403   403         403      303            403      in
figures_kept.page GET   303   303         303      303            404      in
lost.page       GET     200   200         200      200            404      in
figures_kept.page POST  303   303         303      303            403      in
mine.page       GET     200   200         200      200            200      in
mine.units      POST    302   302         302      302            302      in
mine.password   POST    422   422         422      422            422      in
openings.page   GET     200   200         200      403            200      in
openings.page   POST    303   303         303      403            403      in
first_hour.page GET     200   200         200      403            404      in
first_hour.tap  POST    303   303         303      403            404      in
first_hour.undo POST    403   303         303      403            404      in
first_hour.typed GET    200   200         200      403            404      in
first_hour.typed POST   303   303         303      403            403      in
visits.page     GET     200   200         200      403            404      in
visits.page     POST    303   303         303      403            403      in
grades.page     GET     200   200         200      403            404      in
grades.page     POST    303   303         303      403            403      in
sources.page    GET     200   200         200      403            404      in
sources.page    POST    303   303         303      403            403      in
links.choose    GET     200   200         200      403            404      in
links.page      GET     200   200         200      403            404      in
links.page      POST    303   303         303      403            403      in
otherwise.page  GET   200   200         200      403            404      in
otherwise.page  POST  303   303         303      403            403      in
repairs.page    GET     200   200         200      403            404      in
repairs.page    POST    303   303         303      403            403      in
tests.page      GET     200   200         200      403            404      in
tests.page      POST    303   303         303      403            403      in
digs.opening    GET     200   200         200      403            404      in
digs.opening    POST    303   303         303      403            403      in
digs.page       GET     200   200         200      403            404      in
digs.page       POST    303   303         303      403            403      in
ties.number     GET     200   200         200      200            404      in
ties.number     POST    303   303         303      303            403      in
attachments.page GET    200   200         200      200            404      in
attachments.page POST   303   303         303      303            403      in
files.whole     GET     200   200         200      200            404      in
files.picture   GET     404   404         404      404            404      in
ties.link       GET     200   200         200      403            404      in
ties.link       POST    303   303         303      403            422      in
notes.page      GET     200   200         200      200            404      in
on_books.page   GET     200   200         200      200            404      in
on_books.page   POST    303   303         303      303            403      in
attachments.to_books GET 200  200         200      200            404      in
attachments.to_books POST 303 303         303      303            403      in
shelves.one     GET     200   200         200      200            404      in
stores.temperature GET  200   200         200      200            404      in
stores.temperature POST 303   303         303      303            403      in
notes.page      POST    303   303         303      303            403      in
reviews.page    GET     403   200         200      403            404      in
reviews.page    POST    403   303         303      403            403      in
emergencies.page GET    403   200         200      403            404      in
emergencies.page POST   403   303         303      403            403      in
endings.page    GET     403   200         200      403            404      in
endings.page    POST    403   303         303      403            403      in
unfinished.page GET     200   200         200      200            200      in
unfinished.one  GET     200   200         200      404            404      in
unfinished.send_back GET 403 200      200      404            404      in
unfinished.send_back POST 403 422     422      404            404      in
unfinished.away GET     200   403         403      404            404      in
unfinished.away POST    303   403         403      404            404      in
moves.page      GET     200   200         200      200            200      in
moves.move      GET     403   200         200      200            404      in
moves.move      POST    403   403         303      303            303      in
entries.post    POST    401   401         401      401            401      401
schema.told     GET     200   200         200      200            200      200
problems.told   GET     200   200         200      200            200      200
sign_in.out     POST    302   302         302      302            302      302
"""
HEAD, *ROWS = (line.split() for line in TABLE.strip().splitlines())
WHO = (*ROLES, "nobody")
SAID = {
    "person_said.page": "qualified",
    "company_said.page": "left",
    "instrument_said.page": "check",
    "on_books.page": "note",
}
"""What is said on pages that say one of several things."""


def routes() -> dict[tuple[str, str], str]:
    """By endpoint and method, the address of every route there is."""
    app = Flask("walked", static_folder=None)
    for each in (*web.ROUTES, *api.ROUTES):
        app.register_blueprint(each)
    return {
        (rule.endpoint, method): rule.rule
        for rule in app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }


@pytest.fixture
def walk(sqlite_store: Store) -> Walk:
    return walked(sqlite_store)


def form(walk: Walk, endpoint: str) -> dict[str, str]:
    """What the form of that page sends, with a new id; nothing where the page has none."""
    leak, attempt = walk.named["leak"], walk.named["attempt"]
    parts: dict[str, tuple[str, dict[str, Any]]] = {
        "new_call.page": ("call", c.call(walk.site.book)),
        "call_steps.page": ("step", c.told(walk.named["call"])),
        "openings.page": ("leak", m.leak(walk.site.book)),
        "first_hour.typed": ("entry", c.told(leak)),
        "visits.page": ("visit", m.visit(leak, outcome="no_access")),
        "grades.page": ("grade", m.grade(leak)),
        "sources.page": ("source", m.source(leak)),
        "otherwise.page": ("source", m.otherwise(leak, walk.named["source"])),
        "repairs.page": ("repair", m.attempt(leak)),
        "tests.page": ("test", m.test_of(leak, attempt)),
        "notes.page": ("note", m.note(leak)),
        "visitors.page": ("entry", {"id": m.new_id(), "name": "R. Guest", "happened": "2026-03-05"}),
        "on_books.page": ("entry", m.note(leak)),
        "stores.temperature": ("entry", s.temperature(walk.named["shelf"])),
        "stores.receive": ("stores", s.received(walk.site.book)),
        "stores.shelf": ("stores", s.shelf(walk.site.book)),
        "stores.page": ("stores", s.moved(walk.named["lot"])),
        "digs.opening": ("dig", d.dig(walk.site.book)),
        "digs.page": ("step", d.owed(walk.named["dig"])),
        "attachments.page": ("file", d.attached(leak) | {"length": "7"}),
        "attachments.to_books": ("file", d.attached(leak) | {"length": "7"}),
        "ties.number": ("number", d.number(leak)),
        "ties.link": ("link", d.linked(leak, walk.named["number"])),
        "links.page": ("entry", d.linked(leak, walk.named["other_leak"])),
        "figures_kept.page": ("keep", {"id": m.new_id(), "happened": "2026-03-05"}),
        "reviews.page": ("review", m.review(leak, attempt)),
        "emergencies.page": ("review", c.emergency_reviewed(leak)),
        "works.waiting": ("entry", m.waiting(leak)),
        "works.goes_on": ("entry", m.goes_on(leak)),
        "works.briefing": ("entry", m.briefing(leak)),
        "works.settle": ("entry", m.settled(leak, walk.named["given"])),
        "orders.give": ("entry", m.given(leak)),
        "orders.schedule": ("entry", m.scheduled(leak)),
        "orders.reopen": ("entry", m.reopened(leak)),
        "orders.review": ("entry", m.downgrade(leak, walk.named["grade_set"])),
        "gaps.set_aside": ("entry", m.set_aside(leak, walk.named["entry"], "grade_not_known")),
        "put_right.void": ("void", m.void(walk.named["entry"])),
        "adoptions.adopt": ("adopt", m.adopted(walk.named["area"], happened="2026-03-05", from_on="2031-01-01")),
        "adoptions.confirm": ("confirm", m.confirmed(walk.named["area"], happened="2026-03-05")),
        "adoptions.working_days": ("days", m.working_days(walk.named["area"], happened="2026-03-05")),
        "adoptions.void": ("void", m.void(walk.named["adopted"])),
        "endings.page": ("ending", m.ending(leak, how="no_reading", reason="looked again, nothing")),
    }
    parts |= of_the_books(walk.site.book, walk.named)
    if endpoint == "put_right.page":  # a grade that is another for each who sends it
        said = {"right-id": m.new_id(), "right-reason": "misread", "entry-leak": leak}
        said |= {"entry-did-0-key": "d1", "entry-did-0-person": str(walk.site.book.everyone.person)}
        return said | {"entry-happened": "2026-03-02", "entry-grade": f"C{m.new_id()[-8:]}"}
    if endpoint == "put_right.of_books":  # a day that is another for each who sends it
        said = {"right-id": m.new_id(), "right-reason": "misread", "entry-happened": "2026-01-05"}
        said |= {"entry-subject": walk.named["person"]}
        said |= {"entry-did-0-key": "d1", "entry-did-0-person": str(walk.site.book.everyone.person)}
        return said | {"entry-task": f"install clamp {m.new_id()[-8:]}", "entry-until_on": "2027-01-05"}
    if endpoint == "made_one.street":  # where there are several areas, one is chosen
        said = {"entry-id": m.new_id(), "entry-reason": "written short", "entry-happened": "2026-03-05"}
        return said | {"entry-subject": walk.named["area"]}
    if endpoint == "call_steps.tap":
        return {"id": m.new_id(), "step": "on-site"}
    if endpoint == "area_says.typing_time":
        return {"entry-id": m.new_id(), "entry-happened": "2026-03-04", "entry-hours": "72"}
    if endpoint == "area_says.own_acceptance":
        said = {"entry-id": m.new_id(), "entry-happened": "2026-03-04", "entry-accepts": "no"}
        return said | {"entry-reason": "there are two of us"}
    if endpoint == "call_gaps.set_aside":
        return {"entry-id": m.new_id(), "entry-happened": "2026-03-04", "entry-reason": "known to the office"}
    if endpoint in ("first_hour.undo", "call_steps.undo"):  # nobody's touch: a grade that the table's book began with
        return {"id": m.new_id(), "entry": walk.named["entry"]}
    if endpoint == "first_hour.tap":
        return {"id": m.new_id(), "moment": "first_gas"}
    if endpoint == "opens_leak.page":  # both at once: the outcome names the leak by itself
        outcome = {"outcome-id": m.new_id(), "outcome-happened": "2026-03-03 08:30"}
        return outcome | {"leak-id": m.new_id(), "leak-happened": "2026-03-03 07:44"}
    part, raw = parts.get(endpoint, ("", {}))
    by_the_page = {"lot", "kind", "leak", "attempt", "subject", "rulebook", "rule"}
    by_the_page |= {"to_subject"} if endpoint == "links.page" else set()
    typed = {name: value for name, value in raw.items() if isinstance(value, str) and name not in by_the_page}
    around = {"hole": "1/16 in", "pressure": "45 psi"} if endpoint == "figures_kept.page" else {}
    return around | {f"{part}-{name}": value for name, value in typed.items()}


def address_of(walk: Walk, endpoint: str, method: str, **instead: str) -> str:
    """Where that route is on the walked book; `instead`: other names than its own in the address."""
    app = walk.site.app
    rule = next(each for each in app.url_map.iter_rules(endpoint) if method in (each.methods or ()))
    with app.test_request_context():
        of_books = {"subject": walk.named["person"], "entry": walk.named["evaluation"]}
        if endpoint.startswith("made_one."):
            of_books = {"subject": walk.named["person"], "other": walk.named["signs in nowhere"]}
            of_books |= {"other": str(d.street_id("Weir Street", "Harrowsedge"))} if "street" in endpoint else {}
        of_the_books = endpoint.endswith("of_books") or endpoint.startswith("made_one.")
        named = walk.named | (of_books if of_the_books else {}) | {"said": SAID.get(endpoint, "")}
        if endpoint in ("on_books.page", "attachments.to_books"):
            named["subject"] = walk.named["place"]
        if endpoint.startswith("links."):
            named |= {"subject": named["leak"], "other": named["other_leak"]}
        if endpoint == "moves.move":
            named["subject"] = walk.named["instrument"]
        if endpoint.startswith("sign_ins."):  # nobody who walks is signed out on the way
            named["person"] = walk.named["signs in nowhere"]
        return app.url_for(endpoint, **{name: named[name] for name in rule.arguments} | instead)


def answer(walk: Walk, who: str, endpoint: str, method: str) -> str:
    """The status with which somebody is answered; `in` where they are asked to sign in."""
    address = address_of(walk, endpoint, method)
    # each from a place of their own: who fails to sign in too often is to wait
    came_from = {"environ_overrides": {"REMOTE_ADDR": f"127.0.1.{[*walk.browsers].index(who)}"}}
    sent = {"data": form(walk, endpoint) | {"name": who}} if method == "POST" else {}
    with walk.browsers[who].open(address, method=method, **sent, **came_from) as told:
        asked = (told.location or "").startswith("/sign-in") or 'name="password"' in told.text
        return "in" if asked and not endpoint.startswith("sign_in.") else str(told.status_code)


def test_every_route_has_its_row_and_every_row_a_route() -> None:
    assert sorted((row[0], row[1]) for row in ROWS) == sorted(routes())
    assert tuple(HEAD[2:]) == WHO


def test_every_route_answers_everybody_as_the_table_says(walk: Walk) -> None:
    """In the order of the table, in the end of which they sign out; the crew comes last, for what is thrown away there
    was its own."""
    found = {}
    for endpoint, method, *_said in (row for row in ROWS if (row[0], row[1]) in routes()):
        answers = {who: answer(walk, who, endpoint, method) for who in (*WHO[1:], "crew")}
        found[endpoint, method] = [answers[who] for who in WHO]
    assert found == {(row[0], row[1]): row[2:] for row in ROWS}
