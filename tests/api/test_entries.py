"""Entries posted by programs: receipts, or problem details that say what, where, why and what to do."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from repairlog.entries.moments import moment_text, read_moment
from repairlog.records.beside.tokens import token_shown
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from repairlog.records.store.fair_lock import FairLock
from repairlog.records.tables.beside import TOKEN, UNFINISHED
from repairlog.records.tables.journal import JOURNAL
from repairlog.trade.rulebook.kept import Rulebooks
from tests.makers import book as m
from tests.makers.copies import changed, copy_of, count, rows
from tests.makers.program import Program, actors, program
from tests.makers.site import Site, site

OUTSIDE_THE_SPEC = {"message", "hint", "detail", "title"}
"""What is said in words, and tested where the words are."""


@pytest.fixture
def open_site(sqlite_store: Store) -> Site:
    """The application on an open book."""
    return site(m.opened(sqlite_store))


@pytest.fixture
def either_site(store: Store) -> Site:
    """The same, on either database."""
    return site(m.opened(store))


@pytest.fixture
def crew(open_site: Site) -> Program:
    """A crew's program."""
    return program(open_site, open_site.book.crew)


def told(answer: Any) -> tuple[int, str, dict[str, Any]]:
    """Status, code and what else stands in a problem; it is one in form."""
    body = answer.get_json()
    assert answer.mimetype == "application/problem+json"
    assert (body["type"], body["status"]) == (f"/api/problems/{body['code']}", answer.status_code)
    assert all(isinstance(body[name], str) and body[name] for name in ("title", "detail"))
    rest = {name: it for name, it in body.items() if name not in {"type", "status", "code", *OUTSIDE_THE_SPEC}}
    return answer.status_code, body["code"], rest


def test_what_comes_first_is_recorded_and_what_comes_again_gets_the_same_receipts(either_site: Site):
    crew = program(either_site, either_site.book.crew)
    book = either_site.book
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "W-81?"}])
    first, again = (crew.post({"entries": [leak, attempt]}) for _ in range(2))
    assert (first.status_code, again.status_code, first.mimetype) == (201, 200, "application/json")
    journal = rows(book.store, JOURNAL)[8:]
    assert first.get_json() == {
        "receipts": [
            {"id": entry["id"], "index": row["journal_index"], "leaf": row["leaf"].hex(), "number": "ES-26-0001"}
            | {"raised": raised}
            for entry, row, raised in zip(
                [leak, attempt], journal, [["typed_long_after"], ["lot_not_on_the_books"]], strict=True
            )
        ]
    }
    assert again.get_json() == first.get_json()


def test_a_call_of_which_some_is_new_is_recorded_anew(crew: Program, open_site: Site):
    leak = m.leak(open_site.book)
    assert crew.post(leak).status_code == 201
    answer = crew.post([leak, m.grade(leak["id"])])
    assert (answer.status_code, [each["index"] for each in answer.get_json()["receipts"]]) == (201, [8, 9])


def test_who_sent_it_and_how_sure_and_the_device_s_clock_are_sealed(crew: Program, open_site: Site):
    leak = m.leak(open_site.book, written="2026-03-05T15:20:11.000Z")
    assert crew.post({"entries": [leak], "sent": "2026-03-05T15:20:12.000Z", "offset_ms": -120}).status_code == 201
    line = json.loads(rows(open_site.book.store, JOURNAL)[-1]["line"])
    person = str(open_site.book.crew.person)
    assert line["by"] == {"did": [{"key": "d1", "person": person}], "typed": person, "sent": person, "sure": "token"}
    received = line["moments"].pop("received")
    assert moment_text(read_moment(received)) == received > "2026-03-05T15:20:12.000Z"
    assert line["moments"] == {
        "written": "2026-03-05T15:20:11.000Z",
        "sent": "2026-03-05T15:20:12.000Z",
        "offset_ms": -120,
    }


def test_the_same_id_with_other_content_is_a_conflict_that_shows_both(either_site: Site):
    crew = program(either_site, either_site.book.crew)
    leak = m.leak(either_site.book, reporter_name="J. Thwaite")
    other = leak | {"street": "Mill Lane"}
    crew.post(leak)
    before = copy_of(either_site.book.store)
    status, code, more = told(crew.post([m.grade(leak["id"]), other]))
    person = str(either_site.book.crew.person)
    by = {"did": [{"key": "d1", "person": person}], "typed": person}
    said, came = ({name: it for name, it in each.items() if name != "reporter_name"} for each in (leak, other))
    assert (status, code) == (409, "conflict")
    assert more == {
        "id": leak["id"],
        "stands": {"said": said | {"version": 1}, **by},
        "came": {"said": came | {"version": 1}, **by},
    }
    assert changed(before, copy_of(either_site.book.store)) == set()


def test_what_stands_is_shown_to_nobody_outside_its_area(either_site: Site):
    crew = program(either_site, either_site.book.crew)
    leak = m.leak(either_site.book)
    crew.post(leak)
    foreign = program(either_site, actors(either_site.book)["foreign"])
    status, code, more = told(foreign.post(leak | {"street": "Mill Lane"}))
    assert (status, code, more["stands"], more["came"]["said"]["street"]) == (409, "conflict", {}, "Mill Lane")


def test_what_is_not_understood_is_told_entry_by_entry_and_field_by_field(crew: Program, open_site: Site):
    leak = m.leak(open_site.book)
    attempt = m.attempt(leak["id"], pressure_found="45 psy", outcome="perhaps", cause=7)
    answer = crew.post([leak, attempt, {"kind": "gossip"}])
    assert answer.status_code == 422
    complaints = answer.get_json()["complaints"]
    assert [(each["entry"], each["field"], each["code"]) for each in complaints] == [
        (1, "cause", "not_text"),
        (1, "outcome", "not_one_of"),
        (2, "kind", "kind_unknown"),
    ]
    assert complaints[1] == {
        "entry": 1,
        "field": "outcome",
        "code": "not_one_of",
        "facts": {"got": "perhaps", "would_have": ["tight", "not_tight", "not_tested"]},
        "message": "“perhaps” is none of the answers here.",
        "hint": "Choose one of: tight, not_tight, not_tested.",
    }
    assert count(open_site.book.store, JOURNAL) == 8


def test_a_wrong_unit_is_told_and_what_was_typed_is_kept_until_it_is_put_right(crew: Program, open_site: Site):
    leak = m.leak(open_site.book)
    crew.post(leak)
    wrong = m.attempt(leak["id"], pressure_found="45 psy")
    status, code, more = told(crew.post(wrong))
    assert (status, code, more["complaints"][0]["field"]) == (422, "not_understood", "pressure_found")
    (kept,) = of_person(open_site.book.store, open_site.book.crew.person)
    assert (kept.because, kept.form, kept.raw) == ("not_understood", "entries", [wrong])
    assert crew.post(wrong | {"pressure_found": "45 psi"}).status_code == 201
    assert count(open_site.book.store, UNFINISHED) == 0


def test_numbers_that_are_no_whole_ones_are_told_where_they_stand_and_kept(either_site: Site):
    crew = program(either_site, either_site.book.crew)
    leak = m.leak(either_site.book)
    crew.post(leak)
    body = json.dumps(m.source(leak["id"], pressure=45.5, installed_year="YEAR")).replace('"YEAR"', "1" * 30)
    _status, code, more = told(crew.post(body))
    complaints = [(each["field"], each["code"], each["facts"]["got"]) for each in more["complaints"]]
    assert (code, complaints) == (
        "not_understood",
        [("pressure", "not_text", "45.5"), ("installed_year", "not_a_whole_number", "1.111111111111111e+29")],
    )
    assert count(either_site.book.store, UNFINISHED) == 1


def test_what_may_not_be_posted_says_which_entry_and_is_kept(crew: Program, open_site: Site):
    leak = m.leak(open_site.book)
    answer = told(crew.post([leak, m.ending(leak["id"])]))
    assert answer == (403, "refused", {"entry": 1, "kind": "leak_ended"})
    assert [kept.because for kept in of_person(open_site.book.store, open_site.book.crew.person)] == ["refused"]


def test_what_names_something_unknown_waits_and_is_recorded_when_that_comes(either_site: Site):
    crew = program(either_site, either_site.book.crew)
    leak = m.leak(either_site.book)
    grade = m.grade(leak["id"])
    assert told(crew.post(grade)) == (202, "waits", {"waits_for": [leak["id"]]})
    assert count(either_site.book.store, JOURNAL) == 8
    assert crew.post(leak).status_code == 201
    assert count(either_site.book.store, JOURNAL) == 10
    assert crew.post(grade).status_code == 200


@pytest.mark.parametrize(
    ("header", "code", "challenge"),
    [
        (None, "token_missing", 'Bearer realm="repairlog"'),
        ("", "token_missing", 'Bearer realm="repairlog"'),
        ("Bearer", "token_missing", 'Bearer realm="repairlog"'),
        ("Bearer ", "token_missing", 'Bearer realm="repairlog"'),
        ("Basic Y3JldzpjcmV3", "token_missing", 'Bearer realm="repairlog"'),
        ("Bearer of-bad-news", "token_unknown", 'Bearer realm="repairlog", error="invalid_token"'),
        ("Bearer \xe9\xff", "token_unknown", 'Bearer realm="repairlog", error="invalid_token"'),
    ],
)
def test_who_shows_no_token_of_ours_is_asked_for_one(
    open_site: Site, header: str | None, code: str, challenge: str
) -> None:
    headers = {} if header is None else {"Authorization": header}
    answer = program(open_site, None).post(m.leak(open_site.book), headers=headers)
    assert told(answer) == (401, code, {})
    assert answer.headers["WWW-Authenticate"] == challenge
    assert count(open_site.book.store, JOURNAL) == 8


def test_a_token_is_shown_in_whatever_case_its_scheme_is_written(crew: Program, open_site: Site):
    header = {"Authorization": f"bearer {crew.token}"}
    assert crew.post(m.leak(open_site.book), headers=header).status_code == 201


def test_a_token_under_another_scheme_is_no_token(crew: Program, open_site: Site):
    answer = crew.post(m.leak(open_site.book), headers={"Authorization": f"Token {crew.token}"})
    assert told(answer) == (401, "token_missing", {})


def test_a_closed_token_is_none_of_ours(crew: Program, open_site: Site):
    store = open_site.book.store
    with store.writing() as tx:
        tx.connection.execute(TOKEN.update().values(closed_at=m.RECEIVED))
    assert token_shown(store, crew.token) is None
    answer = crew.post(m.leak(open_site.book))
    assert told(answer)[:2] == (401, "token_closed")
    assert "A supervisor of the area can enter it" in answer.json["detail"]


def test_a_token_opens_no_page_and_a_sign_in_posts_nothing(crew: Program, open_site: Site):
    page = crew.client.get("/leaks", headers={"Authorization": f"Bearer {crew.token}"})
    signed_in = Program(open_site.client(open_site.book.crew), "")
    assert (page.status_code, told(signed_in.post(m.leak(open_site.book)))[:2]) == (302, (401, "token_missing"))


@pytest.mark.parametrize(
    "headers",
    [
        {"Content-Type": ""},
        {"Content-Type": "text/plain"},
        {"Content-Type": "application/x-www-form-urlencoded"},
        {"Content-Type": "application/json; charset=latin-1"},
        {"Content-Encoding": "gzip"},
    ],
)
def test_what_is_not_said_to_be_json_is_not_read(crew: Program, open_site: Site, headers: dict[str, str]):
    assert told(crew.post(m.leak(open_site.book), headers=headers)) == (415, "not_json", {})


@pytest.mark.parametrize("kind", ["application/json; charset=UTF-8", 'Application/JSON; charset="utf-8"'])
def test_json_may_name_its_own_characters(crew: Program, open_site: Site, kind: str):
    assert crew.post(m.leak(open_site.book), headers={"Content-Type": kind}).status_code == 201


def test_what_is_no_json_says_from_where_on(crew: Program):
    answer = crew.post(b'{\n "entries": [,]}')
    assert told(answer) == (400, "json_unreadable", {"line": 2, "column": 14})
    assert answer.get_json()["detail"].startswith("It is no JSON from line 2, column 14 on")


def test_a_name_that_stands_twice_is_complained_of(crew: Program):
    _status, code, more = told(crew.post(b'{"kind": "note", "text": "a", "text": "b"}'))
    assert (code, [(each["field"], each["code"]) for each in more["complaints"]]) == (
        "not_understood",
        [("text", "field_twice")],
    )


def test_a_call_larger_than_is_taken_says_so_and_how_much_is(crew: Program, open_site: Site):
    most = open_site.app.config["MAX_CONTENT_LENGTH"]
    answer = crew.post(b'"' + b"x" * (most - 1) + b'"')
    assert told(answer) == (413, "too_large", {})
    assert str(most) in answer.get_json()["detail"]
    assert told(crew.post(b'"' + b"x" * (most - 2) + b'"'))[:2] == (422, "not_understood")


@pytest.mark.parametrize(("entries", "code"), [(0, "number_of_entries"), (1001, "number_of_entries")])
def test_a_call_of_none_or_of_too_many_entries_is_not_taken(crew: Program, entries: int, code: str):
    _status, _code, more = told(crew.post([{"kind": "note"}] * entries))
    assert [(each["code"], each["facts"]["got"]) for each in more["complaints"]] == [(code, str(entries))]


def test_as_many_complaints_are_told_as_can_be_read_and_how_many_are_left_out(crew: Program):
    _status, _code, more = told(crew.post([{"kind": "note"}] * 1000))
    assert (len(more["complaints"]), more["left_out"]) == (2000, 2000)


@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "PATCH", "DELETE"])
def test_entries_are_posted_and_nothing_else(crew: Program, method: str):
    answer = crew.client.open("/api/entries", method=method)
    assert (answer.status_code, set(answer.headers["Allow"].split(", "))) == (405, {"POST", "OPTIONS"})
    if method != "HEAD":
        assert told(answer) == (405, "method_not_allowed", {})


def test_what_an_address_takes_is_told_without_a_page(crew: Program):
    answer = crew.client.options("/api/entries")
    assert (answer.status_code, answer.data, answer.headers.get("Content-Type")) == (200, b"", None)
    assert set(answer.headers["Allow"].split(", ")) == {"POST", "OPTIONS"}


def test_a_book_that_is_busy_says_when_to_come_again(sqlite_store: Store):
    open_site = site(m.opened(sqlite_store))
    crew = program(open_site, open_site.book.crew)
    impatient = FairLock(Path(f"{sqlite_store.engine.url.database}.lock"), patience=0.05)
    open_site.app.extensions["repairlog.store"] = replace(sqlite_store, lock=impatient)
    with sqlite_store.writing():
        answer = crew.post(m.leak(open_site.book))
    assert (told(answer), answer.headers["Retry-After"]) == ((503, "busy", {}), "2")


def test_a_rulebook_that_nobody_can_open_is_told_with_what_to_do_and_nothing_is_recorded(sqlite_store: Store):
    """As where a newer release wrote its text, or a backup left it out: to programs and on pages alike."""
    open_site = site(m.opened(sqlite_store))
    book = open_site.book
    book.say(leak := m.leak(book), m.adopted(book.area))
    crew, page = program(open_site, book.crew), open_site.client(book.crew)
    open_site.app.extensions["repairlog.store"] = replace(sqlite_store, rulebooks=Rulebooks())
    answer = crew.post(m.visit(leak["id"]))
    assert answer.status_code == 503
    assert (answer.json["code"], answer.json["digest"]) == ("rulebook_unreadable", m.PRACTICE)
    assert "`repairlog journal verify` says whether its text is kept" in answer.json["detail"]
    shown = page.get(f"/leaks/{leak['id']}/visit")
    assert (shown.status_code, m.PRACTICE in shown.text) == (503, True)
    open_site.app.extensions["repairlog.store"] = sqlite_store
    assert crew.post(m.visit(leak["id"])).status_code == 201


def test_a_fault_of_our_own_is_told_without_what_it_was(crew: Program, open_site: Site, caplog: Any):
    with open_site.book.store.writing() as tx:
        tx.connection.execute(text("DROP TABLE gap"))
    answer = crew.post(m.leak(open_site.book, reporter_name="J. Thwaite"))
    assert told(answer) == (500, "fault", {})
    assert "gap" not in answer.text
    assert not {crew.token, "J. Thwaite"} & {word for word in (crew.token, "J. Thwaite") if word in caplog.text}
