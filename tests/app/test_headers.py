"""Headers of every answer, whatever it is."""

from __future__ import annotations

import pytest

from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.site import site

ADDRESSES = ("/sign-in", "/leaks", "/no/such/page", "/healthy", "/drawn/notebook.css", "/drawn/none.css", "/api/none")


@pytest.fixture
def client(sqlite_store: Store):
    return site(m.opened(sqlite_store)).app.test_client()


@pytest.mark.parametrize("address", ADDRESSES)
def test_nothing_from_elsewhere_is_loaded_nothing_inline_is_run_and_nobody_frames_a_page(client, address):
    with client.get(address) as answer:
        headers = answer.headers
    policy = dict(part.split(" ", 1) for part in headers["Content-Security-Policy"].split("; "))
    assert policy.pop("default-src") == "'none'"
    assert (policy.pop("base-uri"), policy.pop("frame-ancestors")) == ("'none'", "'none'")
    assert set(policy.values()) == {"'self'"}
    assert (headers["X-Content-Type-Options"], headers["X-Frame-Options"]) == ("nosniff", "DENY")


@pytest.mark.parametrize("address", ADDRESSES)
def test_what_the_book_says_is_kept_by_no_cache_and_what_is_drawn_with_for_a_day(client, address):
    with client.get(address) as answer:
        kept = answer.headers["Cache-Control"]
    assert kept == ("public, max-age=86400" if address == "/drawn/notebook.css" else "no-store")


def test_a_file_outside_the_folder_is_not_handed_out(client):
    assert client.get("/drawn/..%2Ftyped.py").status_code == 404
    assert client.get("/drawn/../typed.py").status_code == 404
