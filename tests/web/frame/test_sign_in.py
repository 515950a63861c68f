"""Signing in and out: who comes in, how often one may try, and what the browser holds."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine

from repairlog.app import create_app
from repairlog.clock import now
from repairlog.records.beside.credentials import signed_in
from repairlog.records.beside.sign_ins import close_sign_in
from repairlog.records.store import Store
from repairlog.records.store.migrate import migrate
from repairlog.records.tables.beside import FAILED_SIGN_IN, SESSION
from repairlog.settings import Settings
from repairlog.web.frame.asking import HELD
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.site import site
from tests.makers.together import together
from tests.makers.trial import forms_of, sign_in, token_of
from tests.web.frame.conftest import NAME, PASSWORD, signing_in

MISFIT = "Name and password do not fit together."


@pytest.fixture
def book(store: Store) -> m.Book:
    """On either database."""
    return signing_in(store)


def held_by(client) -> str | None:
    with client.session_transaction() as session:
        return session.get(HELD)


def session_cookie(trial) -> str:
    return trial.site.app.config["SESSION_COOKIE_NAME"]


def cookies_of(response) -> dict[str, set[str]]:
    """The flags of each cookie that an answer sets, by its name."""
    found = [line.split("; ") for line in response.headers.getlist("Set-Cookie")]
    return {
        first.partition("=")[0]: {flag for flag in rest if "=" not in flag or "Same" in flag} for first, *rest in found
    }


def test_name_and_password_let_a_person_in_to_the_page_they_wanted(trial):
    client = trial.site.app.test_client()
    asked = client.get("/trial?street=Quarry+Lane")
    assert asked.location == "/sign-in?then=/trial?street%3DQuarry%2BLane"
    given = {"name": "m.  ALDOUS", "password": PASSWORD, "csrf_token": token_of(client)}
    came = client.post(asked.location, data=given)
    assert (came.status_code, came.location) == (302, "/trial?street=Quarry+Lane")
    assert client.get(came.location).text == "taken"


@pytest.mark.parametrize(("name", "password"), [(NAME, "another night"), ("D. Okoro", PASSWORD), ("", ""), (NAME, "")])
def test_what_does_not_fit_is_told_in_the_same_words_and_the_name_stays_as_typed(trial, name, password):
    client = trial.site.app.test_client()
    answer = sign_in(client, name, password)
    assert (answer.status_code, MISFIT in answer.text, held_by(client)) == (403, True, None)
    assert f'name="name" value="{name}"' in answer.text
    assert password == "" or password not in answer.text


def test_a_name_of_signs_that_no_database_takes_does_not_fit(trial):
    assert sign_in(trial.site.app.test_client(), "M.\0Aldous", PASSWORD).status_code == 403


def test_a_password_beyond_all_measure_is_nobody_s_and_takes_no_time(trial):
    assert sign_in(trial.site.app.test_client(), NAME, PASSWORD * 1000).status_code == 403


def test_the_page_names_nobody_and_says_the_cautions(trial):
    page = trial.site.app.test_client().get("/sign-in").text
    assert 'name="name" value=""' in page
    for caution in ("Gas can burn and explode.", "unless that device is approved for it", "emergency plan comes first"):
        assert caution in page
    assert "it does not make a place safe" in page
    assert "the judgement of qualified people govern" in page


@pytest.mark.parametrize(
    "then",
    [
        "https://elsewhere.example/trial",
        "//elsewhere.example/trial",
        "/\\elsewhere.example/trial",
        "/\t/elsewhere.example/trial",
        "/no/such/page",
        "trial",
        "javascript:alert(1)",
        "/sign-out",
        "http://[/trial",
        "",
    ],
)
def test_nobody_is_sent_anywhere_but_to_a_page_of_ours(trial, then):
    client = trial.site.app.test_client()
    given = {"name": NAME, "password": PASSWORD, "csrf_token": token_of(client)}
    assert client.post("/sign-in", query_string={"then": then}, data=given).location == "/today"


def test_after_five_failures_the_next_try_waits_and_the_right_password_is_not_looked_at(trial):
    client = trial.site.app.test_client()
    with time_machine.travel("2026-03-05T02:10:00Z", tick=False) as clock:
        assert [sign_in(client, NAME, "guess").status_code for _ in range(5)] == [403] * 5
        told = sign_in(client, NAME, PASSWORD)
        clock.shift(timedelta(seconds=29))
        still = sign_in(client, NAME, PASSWORD)
        clock.shift(timedelta(seconds=1))
        came = sign_in(client, NAME, PASSWORD)
    assert (told.status_code, told.headers["Retry-After"], "Wait 30 seconds" in told.text) == (429, "30", True)
    assert (still.status_code, "Wait 1 second," in still.text) == (429, True)
    assert came.status_code == 302


def test_the_count_is_the_book_s_and_so_survives_a_restart(trial, book):
    with time_machine.travel("2026-03-05T02:10:00Z", tick=False):
        for _ in range(6):
            sign_in(trial.site.app.test_client(), NAME, "guess")
        assert sign_in(site(book).app.test_client(), NAME, PASSWORD).status_code == 429


def test_coming_in_clears_the_count_of_that_name_from_there(trial, book):
    client = trial.site.app.test_client()
    for _ in range(4):
        sign_in(client, NAME, "guess")
    assert sign_in(client, NAME, PASSWORD).status_code == 302
    assert sorted(row["failures"] for row in rows(book.store, FAILED_SIGN_IN)) == [4, 4]


def test_sixteen_who_fail_at_one_moment_are_counted_as_sixteen(trial, book):
    clients = [trial.site.app.test_client() for _ in range(16)]
    tokens = [token_of(client) for client in clients]

    def post(place: int) -> int:
        given = {"csrf_token": tokens[place], "name": NAME, "password": "guess"}
        return clients[place].post("/sign-in", data=given).status_code

    answers = together(16, post)
    counted = {row["failures"] for row in rows(book.store, FAILED_SIGN_IN)}
    assert counted == {answers.count(403)}
    assert answers.count(403) + answers.count(429) == 16


def test_a_browser_in_which_a_person_came_in_before_waits_for_nobody_who_guesses_elsewhere(trial):
    known, other = trial.site.app.test_client(), trial.site.app.test_client()
    sign_in(known, NAME, PASSWORD)
    for _ in range(6):
        sign_in(other, NAME, "guess")
    assert (sign_in(other, NAME, PASSWORD).status_code, sign_in(known, NAME, PASSWORD).status_code) == (429, 302)


def test_what_says_that_a_browser_is_known_cannot_be_made_up_nor_lent_to_another_name(trial):
    known, forged = trial.site.app.test_client(), trial.site.app.test_client()
    sign_in(known, NAME, PASSWORD)
    forged.set_cookie(f"{session_cookie(trial)}_browser", "WyJjaGFuY2UiLFsiYSJdXQ.made-up", path="/sign-in")
    for client, name in ((forged, NAME), (known, "D. Okoro")):
        for _ in range(5):
            sign_in(client, name, "guess")
    fresh = trial.site.app.test_client()
    assert [sign_in(fresh, name, PASSWORD).status_code for name in (NAME, "D. Okoro")] == [429, 429]


def test_signing_in_ends_the_session_that_the_browser_held_before_and_its_forms(trial, book):
    client = trial.site.app.test_client()
    sign_in(client, NAME, PASSWORD)
    before, token = held_by(client), token_of(client)
    sign_in(client, NAME, PASSWORD)
    assert held_by(client) not in (before, None)
    assert token_of(client) != token
    assert signed_in(book.store, before, at=now(), idle=timedelta(hours=1)) is None
    assert client.post("/trial", data={"csrf_token": token, "street": "Quarry Lane"}).status_code == 400
    assert trial.took == []


def test_signing_out_ends_the_session_in_the_book_too(trial, book):
    client = trial.site.app.test_client()
    sign_in(client, NAME, PASSWORD)
    held = held_by(client)
    out = client.post("/sign-out", data={"csrf_token": token_of(client)})
    assert (out.location, held_by(client), rows(book.store, SESSION)) == ("/sign-in", None, [])
    with client.session_transaction() as session:
        session[HELD] = held  # a copy that was taken before
    assert client.get("/trial").location.startswith("/sign-in")


def test_a_closed_sign_in_is_out_at_once_and_does_not_come_in_again(trial, book):
    client = trial.site.app.test_client()
    sign_in(client, NAME, PASSWORD)
    before = client.get("/trial").text
    close_sign_in(book.store, NAME, at=now())
    assert (before, client.get("/trial").location) == ("taken", "/sign-in?then=/trial")
    answer = sign_in(client, NAME, PASSWORD)
    assert (answer.status_code, "A supervisor of the area can enter what you wrote" in answer.text) == (403, True)
    misfit = sign_in(client, NAME, "another password")
    assert (misfit.status_code, MISFIT in misfit.text, "closed" in misfit.text) == (403, True, False)


def test_a_cookie_that_others_signed_or_that_was_altered_lets_nobody_in(trial):
    client = trial.site.app.test_client()
    sign_in(client, NAME, PASSWORD)
    cookie = client.get_cookie(session_cookie(trial)).value
    content, _dot, signature = cookie.rpartition(".")
    for forged in (f"{content}.{signature[::-1]}", f"{content[:-1]}.{signature}", content, "", "null"):
        thief = trial.site.app.test_client()
        thief.set_cookie(session_cookie(trial), forged)
        assert thief.get("/trial").location == "/sign-in?then=/trial"
    thief.set_cookie(session_cookie(trial), cookie)
    assert thief.get("/trial").text == "taken"


def test_cookies_are_read_by_no_script_and_sent_along_from_no_other_site(trial):
    client = trial.site.app.test_client()
    flags = {"HttpOnly", "SameSite=Lax"}
    name = session_cookie(trial)
    assert cookies_of(sign_in(client, NAME, PASSWORD)) == {name: flags, f"{name}_browser": flags}


def test_two_books_that_one_machine_serves_do_not_take_each_other_s_cookies(trial, tmp_path):
    migrate(f"sqlite:///{tmp_path}/other.db")
    other = create_app(Settings(database_url=f"sqlite:///{tmp_path}/other.db"))
    assert other.config["SESSION_COOKIE_NAME"] != session_cookie(trial)
    other.extensions["repairlog.store"].close()


def test_a_form_that_grew_old_asks_for_the_password_again_and_keeps_the_name(trial):
    client = trial.site.app.test_client()
    answer = client.post("/sign-in?then=/trial", data={"name": NAME, "password": PASSWORD, "csrf_token": "old"})
    assert (answer.status_code, f'value="{NAME}"' in answer.text, PASSWORD in answer.text) == (400, True, False)
    assert "This page had grown old." in answer.text
    assert list(forms_of(answer.text)) == ["/sign-in?then=/trial"]
