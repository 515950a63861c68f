"""The same walk for everybody else: dispatcher, manager, storekeeper, inspector, and a crew of another company. Each is
answered as somebody of the first table, but for the routes that stand here."""

from __future__ import annotations

import pytest

from repairlog.access import Actor
from tests.house.test_rights import ROWS, TABLE, answer, routes, walk
from tests.house.walked import Walk
from tests.makers import book as m

__all__ = ["walk"]

# Who, as whom, and what else: after each answer the routes that answer so. All five are of the leak's area; the
# inspector looks at its month, and of the work of the contractor nothing is in the book.
OTHERWISE = """
dispatcher administrator
  404 operator.page:GET
  200 new_call.page:GET call_steps.page:GET opens_leak.page:GET openings.page:GET first_hour.page:GET
      first_hour.typed:GET
  303 new_call.page:POST call_steps.page:POST call_steps.tap:POST opens_leak.page:POST openings.page:POST
      first_hour.tap:POST first_hour.typed:POST
  403 companies.page:GET companies.unknown:GET out_of_term.page:GET company.page:GET
      company_said.new:GET company_said.new:POST company_said.page:GET company_said.page:POST
      visitors.page:GET visitors.page:POST
      moves.move:GET moves.move:POST stores.temperature:GET stores.temperature:POST
      stores.receive:GET stores.receive:POST stores.shelf:GET stores.shelf:POST stores.page:GET stores.page:POST
      area_says.typing_time:GET area_says.typing_time:POST area_says.own_acceptance:GET area_says.own_acceptance:POST
      adoptions.adopt:GET adoptions.adopt:POST adoptions.confirm:GET adoptions.confirm:POST
      adoptions.working_days:GET adoptions.working_days:POST adoptions.void:GET adoptions.void:POST
      put_right.of_books:GET put_right.of_books:POST put_right.void_of_books:GET put_right.void_of_books:POST
      areas.new:GET areas.new:POST areas.cut_over:GET areas.cut_over:POST looked_at.page:GET people.page:GET
      person.page:GET person_said.new:GET person_said.new:POST person_said.page:GET person_said.page:POST
      sign_ins.page:GET sign_ins.end:POST sign_ins.end_token:POST sign_ins.password:POST sign_ins.close:POST
      person_signs_in.page:GET person_signs_in.page:POST crews.page:GET crews.one:GET crews.new:GET crews.new:POST
      crews.change:GET crews.change:POST instrument_said.new:GET instrument_said.new:POST instrument_said.page:GET
      instrument_said.page:POST
      place_said.new:GET place_said.new:POST place_said.retire:GET place_said.retire:POST made_one.choose:GET
      made_one.page:GET made_one.page:POST made_one.choose_street:GET made_one.street:GET made_one.street:POST
      every_sign_in.page:GET
manager administrator
  404 operator.page:GET
  403 company_said.new:GET company_said.new:POST company_said.page:GET company_said.page:POST
      visitors.page:GET visitors.page:POST
      moves.move:GET moves.move:POST stores.temperature:GET stores.temperature:POST
      stores.receive:GET stores.receive:POST stores.shelf:GET stores.shelf:POST stores.page:GET stores.page:POST
      area_says.typing_time:GET area_says.typing_time:POST area_says.own_acceptance:GET area_says.own_acceptance:POST
      adoptions.adopt:GET adoptions.adopt:POST adoptions.confirm:GET adoptions.confirm:POST
      adoptions.working_days:GET adoptions.working_days:POST adoptions.void:GET adoptions.void:POST
      put_right.of_books:GET put_right.of_books:POST put_right.void_of_books:GET put_right.void_of_books:POST
      areas.new:GET areas.new:POST areas.cut_over:GET areas.cut_over:POST looked_at.page:GET person_said.new:GET
      person_said.new:POST person_said.page:GET person_said.page:POST sign_ins.page:GET sign_ins.end:POST
      sign_ins.end_token:POST sign_ins.password:POST sign_ins.close:POST person_signs_in.page:GET
      person_signs_in.page:POST crews.new:GET crews.new:POST crews.change:GET crews.change:POST
      instrument_said.new:GET instrument_said.new:POST instrument_said.page:GET instrument_said.page:POST
      place_said.new:GET place_said.new:POST place_said.retire:GET place_said.retire:POST made_one.choose:GET
      made_one.page:GET made_one.page:POST made_one.choose_street:GET made_one.street:GET made_one.street:POST
      every_sign_in.page:GET
storekeeper administrator
  404 operator.page:GET
  403 companies.page:GET companies.unknown:GET out_of_term.page:GET company.page:GET
      company_said.new:GET company_said.new:POST company_said.page:GET company_said.page:POST
      visitors.page:GET visitors.page:POST
      moves.move:POST adoptions.adopt:GET adoptions.adopt:POST adoptions.confirm:GET adoptions.confirm:POST
      area_says.typing_time:GET area_says.typing_time:POST area_says.own_acceptance:GET area_says.own_acceptance:POST
      adoptions.working_days:GET adoptions.working_days:POST adoptions.void:GET adoptions.void:POST
      put_right.of_books:GET put_right.of_books:POST put_right.void_of_books:GET put_right.void_of_books:POST
      areas.new:GET areas.new:POST areas.cut_over:GET areas.cut_over:POST looked_at.page:GET people.page:GET
      person.page:GET person_said.new:GET person_said.new:POST person_said.page:GET person_said.page:POST
      sign_ins.page:GET sign_ins.end:POST sign_ins.end_token:POST sign_ins.password:POST sign_ins.close:POST
      person_signs_in.page:GET person_signs_in.page:POST crews.page:GET crews.one:GET crews.new:GET crews.new:POST
      crews.change:GET crews.change:POST
      place_said.new:GET place_said.new:POST place_said.retire:GET place_said.retire:POST made_one.choose:GET
      made_one.page:GET made_one.page:POST made_one.choose_street:GET made_one.street:GET made_one.street:POST
      every_sign_in.page:GET
inspector administrator
  403 companies.page:GET companies.unknown:GET out_of_term.page:GET company.page:GET
      company_said.new:GET company_said.new:POST company_said.page:POST
      visitors.page:GET visitors.page:POST
      moves.move:POST stores.temperature:POST on_books.page:POST attachments.to_books:POST
      figures_kept.page:POST
      area_says.typing_time:GET area_says.typing_time:POST area_says.own_acceptance:GET area_says.own_acceptance:POST
      stores.receive:GET stores.receive:POST stores.shelf:GET stores.shelf:POST stores.page:POST adoptions.adopt:GET
      adoptions.adopt:POST adoptions.confirm:GET adoptions.confirm:POST adoptions.working_days:GET
      adoptions.working_days:POST adoptions.void:GET adoptions.void:POST put_right.of_books:POST
      put_right.void_of_books:POST areas.new:GET areas.new:POST areas.cut_over:GET areas.cut_over:POST
      looked_at.page:GET people.page:GET person.page:GET person_said.new:GET person_said.new:POST
      person_said.page:POST sign_ins.page:GET sign_ins.end:POST sign_ins.end_token:POST sign_ins.password:POST
      sign_ins.close:POST person_signs_in.page:GET person_signs_in.page:POST crews.page:GET crews.one:GET
      crews.new:GET crews.new:POST crews.change:POST instrument_said.new:GET instrument_said.new:POST
      instrument_said.page:POST ties.number:GET ties.number:POST attachments.page:GET attachments.page:POST
      notes.page:GET notes.page:POST place_said.new:GET place_said.new:POST place_said.retire:POST made_one.page:POST
      made_one.choose_street:GET made_one.street:GET made_one.street:POST every_sign_in.page:GET
  404 company_said.page:GET
      moves.move:GET on_books.page:GET attachments.to_books:GET shelves.one:GET stores.temperature:GET
      operator.page:GET
      places.one:GET place_said.retire:GET made_one.choose:GET made_one.page:GET
      lots.one:GET stores.page:GET put_right.of_books:GET put_right.void_of_books:GET areas.one:GET call.page:GET
      call_steps.page:GET call_steps.tap:POST opens_leak.page:GET person_said.page:GET crews.change:GET
      instrument.page:GET instrument_said.page:GET
  422 ties.link:POST
contractor crew
  200 company.page:GET
  403 stores.temperature:POST on_books.page:POST attachments.to_books:POST
      figures_kept.page:POST
      stores.page:POST call_steps.page:POST works.waiting:POST works.goes_on:POST works.briefing:POST
      works.settle:POST person.page:GET instrument_said.page:POST first_hour.typed:POST visits.page:POST
      grades.page:POST sources.page:POST otherwise.page:POST repairs.page:POST tests.page:POST digs.opening:POST
      digs.page:POST links.page:POST ties.number:POST attachments.page:POST notes.page:POST place_said.new:POST
  404 moves.move:GET on_books.page:GET attachments.to_books:GET
      figures_kept.page:GET lost.page:GET places.one:GET place_said.retire:GET made_one.choose:GET made_one.page:GET
      made_one.street:GET made_one.street:POST
      operator.page:GET
      put_right.of_books:GET put_right.void_of_books:GET areas.one:GET call.page:GET call_steps.page:GET
      call_steps.tap:POST opens_leak.page:GET sheet.page:GET works.waiting:GET works.goes_on:GET works.briefing:GET
      works.settle:GET orders.give:GET orders.schedule:GET orders.reopen:GET orders.review:GET gaps.set_aside:GET
      put_right.page:GET put_right.void:GET owed.page:GET person_said.page:GET crews.change:GET instrument.page:GET
      instrument_said.page:GET first_hour.page:GET first_hour.tap:POST first_hour.undo:POST first_hour.typed:GET
      visits.page:GET grades.page:GET sources.page:GET otherwise.page:GET repairs.page:GET tests.page:GET
      digs.opening:GET digs.page:GET ties.number:GET attachments.page:GET files.whole:GET ties.link:GET links.choose:GET
      links.page:GET notes.page:GET
      reviews.page:GET emergencies.page:GET endings.page:GET unfinished.one:GET unfinished.away:GET unfinished.away:POST
      unfinished.send_back:GET unfinished.send_back:POST
  422 opens_leak.page:POST ties.link:POST
"""
HEAD = TABLE.split("\n")[1].split()[2:]
MONTH = {"until_on": "2999-12-31", "period_from_on": "2026-03-01", "period_until_on": "2026-03-31"}
ROLES = {
    "dispatcher": m.role_given(m.new_id(), "dispatcher"),
    "manager": m.role_given(m.new_id(), "manager"),
    "storekeeper": m.role_given(m.new_id(), "storekeeper"),
    "inspector": m.role_given(m.new_id(), "inspector", **MONTH),
    "contractor": m.role_given(m.new_id(), "crew", company="Dale Pipe Co"),
}


def otherwise() -> dict[str, tuple[str, dict[str, str]]]:
    """By who, as whom they are answered, and by route the answers that differ."""
    told: dict[str, tuple[str, dict[str, str]]] = {}
    status = ""
    for line in OTHERWISE.strip().splitlines():
        words = line.split()
        if not line.startswith(" "):
            told[who := words[0]] = (words[1], {})
            continue
        status, of = (words[0], words[1:]) if words[0].isdigit() else (status, words)
        told[who][1].update(dict.fromkeys(of, status))
    return told


def expected(who: str) -> dict[str, str]:
    """By route, with what they are answered."""
    like, others = otherwise()[who]
    return {f"{row[0]}:{row[1]}": row[2 + HEAD.index(like)] for row in ROWS} | others


@pytest.fixture
def further(walk: Walk) -> Walk:
    """The same book with those five people, who have come in."""
    book = walk.site.book
    for who, role in ROLES.items():
        person = {"kind": "person_added", "id": role["subject"], "name": f"the {who}", "happened": "2025-01-02"}
        book.say(person, role | {"area": book.area})
        walk.browsers[who] = walk.site.client(Actor(person=m.read_id(role["subject"]), sure="password"))
    return walk


def test_nothing_stands_here_that_is_no_route() -> None:
    every = {f"{endpoint}:{method}" for endpoint, method in routes()}
    assert {route for _like, others in otherwise().values() for route in others} - every == set()


def test_every_route_answers_the_further_roles_as_is_said(further: Walk) -> None:
    found: dict[str, dict[str, str]] = {who: {} for who in ROLES}
    for endpoint, method, *_said in (row for row in ROWS if (row[0], row[1]) in routes()):
        for who in ROLES:
            found[who][f"{endpoint}:{method}"] = answer(further, who, endpoint, method)
    differing = {
        who: {route: told for route, told in answers.items() if told != expected(who)[route]}
        for who, answers in found.items()
    }
    assert differing == {who: {} for who in ROLES}
