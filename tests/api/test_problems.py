"""Problem details: one form for everything that goes wrong, and an address that says what each is."""

from __future__ import annotations

import pytest
from werkzeug.exceptions import HTTPException, TooManyRequests

from repairlog.api.problems import STATUS, answer, fault
from repairlog.records.store import Store
from repairlog.words import answers
from tests.makers import book as m
from tests.makers.site import Site, site
from tests.words.spoken import refusal_codes


@pytest.fixture
def open_site(sqlite_store: Store) -> Site:
    """The application on an open book."""
    return site(m.opened(sqlite_store))


@pytest.mark.parametrize("code", STATUS)
def test_the_type_of_a_problem_leads_to_what_it_is(open_site: Site, code: str) -> None:
    told = open_site.app.test_client().get(f"/api/problems/{code}")
    assert (told.status_code, told.mimetype) == (200, "application/json")
    assert told.get_json() == {
        "code": code,
        "status": STATUS[code],
        "title": answers.title(code),
        "detail": answers.detail(code, {"line": "N", "column": "N", "most": "4194304", "digest": "DIGEST"}),
    }


@pytest.mark.parametrize("code", STATUS)
def test_a_problem_is_said_in_sentences_with_something_to_do(code: str) -> None:
    said = answers.detail(code, {"line": "2", "column": "3", "most": "4194304"})
    assert (said[-1], "{" in said, answers.title(code)[-1].isalpha()) == (".", False, True)


def test_no_title_is_kept_for_what_is_never_told() -> None:
    assert set(answers._titles()) == set(STATUS)
    assert set(answers._of_programs()) < set(STATUS)


def test_what_a_call_may_be_refused_for_has_a_status() -> None:
    assert {"not_understood", "refused", "waits", "conflict", "busy", "json_unreadable"} <= refusal_codes() & set(
        STATUS
    )


@pytest.mark.parametrize("address", ["/api/", "/api/entry", "/api/problems/unknown", "/api/entries/schema/x"])
def test_an_address_that_there_is_not_is_told_as_a_problem(open_site: Site, address: str) -> None:
    told = open_site.app.test_client().get(address)
    assert (told.status_code, told.mimetype) == (404, "application/problem+json")
    assert told.get_json() == {
        "type": "/api/problems/no_such_address",
        "title": "There is no such address",
        "status": 404,
        "code": "no_such_address",
        "detail": "Entries are posted to /api/entries; /api/entries/schema says how they are written.",
    }


@pytest.mark.parametrize(
    ("status", "code", "told"),
    [(429, "bad_request", 429), (400, "bad_request", 400), (502, "fault", 502), (500, "fault", 500)],
)
def test_a_status_without_a_code_of_its_own_is_told_with_its_own_number(
    open_site: Site, status: int, code: str, told: int
) -> None:
    error = TooManyRequests(retry_after=9) if status == 429 else HTTPException()
    error.code = status
    with open_site.app.test_request_context("/api/entries"):
        said = answer(error)
    assert (said.status_code, said.get_json()["status"], said.get_json()["code"]) == (told, told, code)
    assert said.headers.get("Retry-After") == ("9" if status == 429 else None)


def test_what_is_no_trouble_that_we_know_is_a_fault_of_our_own(open_site: Site) -> None:
    with open_site.app.test_request_context("/api/entries"):
        assert answer(RuntimeError("a secret")) is None
        assert (fault().status_code, fault().get_json()["code"]) == (500, "fault")
