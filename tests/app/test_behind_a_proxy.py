"""What a proxy says of a request is believed where the settings say that there is one, and only its last word."""

from __future__ import annotations

from datetime import timedelta

import pytest

from repairlog.app import create_app
from repairlog.clock import now
from repairlog.records.beside.failed_sign_ins import Trying, wait_of
from repairlog.records.store import Store
from repairlog.settings import Settings
from tests.makers import book as m
from tests.makers.trial import forms_of

NAME = "M. Aldous"
SAID = {
    "X-Forwarded-For": "198.51.100.1, 203.0.113.7",
    "X-Forwarded-Proto": "https",
    "X-Forwarded-Host": "book.example",
    "Referer": "https://book.example/sign-in",
}


def app_on(store: Store, *, https: bool):
    m.opened(store)
    return create_app(Settings(database_url=store.engine.url.render_as_string(hide_password=False), https=https))


def guesses(app, times: int) -> list[int]:
    client = app.test_client()
    page = client.get("/sign-in", headers=SAID)
    cookie = page.headers["Set-Cookie"].partition(";")[0]
    given = {"csrf_token": dict(forms_of(page.text)["/sign-in"])["csrf_token"], "name": NAME, "password": "guess"}
    headers = {**SAID, "Cookie": cookie}
    return [client.post("/sign-in", data=given, headers=headers).status_code for _ in range(times)]


@pytest.mark.parametrize(("https", "from_where"), [(True, "203.0.113.7"), (False, "127.0.0.1")])
def test_where_signing_in_is_tried_from_is_the_proxy_s_last_word_or_else_the_other_end(sqlite_store, https, from_where):
    app = app_on(sqlite_store, https=https)
    assert guesses(app, 5) == [403] * 5
    waits = {
        address: wait_of(sqlite_store, Trying(name=NAME, address=address), at=now()) > timedelta(0)
        for address in ("198.51.100.1", "203.0.113.7", "127.0.0.1")
    }
    assert [address for address, wait in waits.items() if wait] == [from_where]


@pytest.mark.parametrize("https", [True, False])
def test_cookies_go_by_https_alone_and_browsers_ask_by_nothing_else_where_pages_are_reached_so(sqlite_store, https):
    answer = app_on(sqlite_store, https=https).test_client().get("/sign-in", headers=SAID)
    flags = set(answer.headers["Set-Cookie"].split("; ")[1:])
    assert flags == {"HttpOnly", "Path=/", "SameSite=Lax"} | ({"Secure"} if https else set())
    assert ("Strict-Transport-Security" in answer.headers) is https
