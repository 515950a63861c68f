"""A picture is attached on a page, shown on the sheet as it is drawn anew, and handed out as it came."""

from __future__ import annotations

import re
from dataclasses import replace
from hashlib import sha256
from io import BytesIO

import pytest
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image
from werkzeug.test import TestResponse

from tests.intake.lines import size
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.form_page import form_page
from tests.makers.site import site


@pytest.fixture
def app(book: m.Book) -> Flask:
    return site(book).app


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


def photograph() -> bytes:
    made = BytesIO()
    Image.new("RGB", (60, 40), "grey").save(made, "PNG")
    return made.getvalue()


def attach(
    client: FlaskClient, leak: str, content: bytes | None, *, name: str = "hole.png", **typed: str
) -> TestResponse:
    address = f"/leaks/{leak}/attach"
    page = form_page(client.get(address))
    data = {**{box: values[-1] for box, values in page.boxes.items()}, "csrf_token": page.token, "save": "all"}
    data |= {box.replace("__", "-"): value for box, value in typed.items()}
    if content is not None:
        data["picture"] = (BytesIO(content), name)  # type: ignore[assignment]
    return client.post(address, data=data, content_type="multipart/form-data")


def test_a_picture_is_attached_shown_and_handed_out(crew: FlaskClient, leak: str, book: m.Book) -> None:
    content = photograph()
    said = attach(crew, leak, content, file__happened="2026-03-05 09:40", file__caption="the hole")
    assert said.status_code == 303
    sheet = crew.get(f"/leaks/{leak}").text
    address = f"/files/{sha256(content).hexdigest()}"
    assert re.search(rf'<img src="{address}/picture"', sheet)
    assert "the hole" in sheet
    shown = crew.get(f"{address}/picture", buffered=True)
    assert (shown.mimetype, shown.headers["X-Content-Type-Options"]) == ("image/jpeg", "nosniff")
    assert shown.data[:3] == b"\xff\xd8\xff"
    whole = crew.get(address, buffered=True)
    assert (whole.data, whole.mimetype) == (content, "application/octet-stream")
    assert whole.headers["Content-Disposition"] == "attachment; filename=hole.png"


def test_a_file_that_came_is_not_lost_where_something_else_could_not_be_read(
    crew: FlaskClient, leak: str, book: m.Book
) -> None:
    content, before = photograph(), size(book.store)
    answer = attach(crew, leak, content, file__happened="some day")
    page = form_page(answer)
    assert (answer.status_code, size(book.store)) == (422, before)
    assert page.boxes["file-digest"] == [sha256(content).hexdigest()]
    assert "hole.png is here already" in answer.text
    data = {box: values[-1] for box, values in page.boxes.items()}
    data |= {"csrf_token": page.token, "save": "all", "file-happened": "2026-03-05"}
    assert crew.post(f"/leaks/{leak}/attach", data=data, content_type="multipart/form-data").status_code == 303
    assert "/picture" in crew.get(f"/leaks/{leak}").text


@pytest.mark.parametrize("content", [None, b""])
def test_without_a_file_one_is_asked_for(crew: FlaskClient, leak: str, book: m.Book, content: bytes | None) -> None:
    before = size(book.store)
    answer = attach(crew, leak, content, file__happened="2026-03-05", file__caption="the hole")
    assert (answer.status_code, size(book.store)) == (422, before)
    assert "No picture or file came." in form_page(answer).said("file-digest")
    assert form_page(answer).boxes["file-caption"] == ["the hole"]


def test_an_entry_may_come_before_its_picture(crew: FlaskClient, leak: str, book: m.Book) -> None:
    content = photograph()
    book.say(d.attached(leak, content, media_type="image/png"))
    assert "Picture not yet here." in crew.get(f"/leaks/{leak}").text
    assert crew.get(f"/files/{sha256(content).hexdigest()}").status_code == 404


def test_a_file_is_seen_by_whoever_sees_what_it_is_about_or_sent_it(leak: str, book: m.Book) -> None:
    content, other = photograph(), b"tag 31\n"
    crew, supervisor = site(book).client(book.crew), site(book).client(book.supervisor)
    attach(crew, leak, content, file__happened="2026-03-05")
    attach(crew, leak, other, name="tag.txt", file__happened="not a day")
    elsewhere = m.leak(book, area=book.other_area)
    book.say(elsewhere, d.attached(elsewhere["id"], b"far"))
    addresses = [f"/files/{sha256(each).hexdigest()}" for each in (content, other)]
    assert [crew.get(each, buffered=True).status_code for each in addresses] == [200, 200]
    assert [supervisor.get(each, buffered=True).status_code for each in addresses] == [200, 404]
    assert crew.get(f"/files/{sha256(b'far').hexdigest()}").status_code == 404
    assert crew.get("/files/..%2f..%2fbook.db").status_code == 404


def test_a_markup_file_is_never_shown_as_a_page(crew: FlaskClient, leak: str, book: m.Book) -> None:
    content = b"<script>alert(1)</script>"
    attach(crew, leak, content, name="x.html", file__happened="2026-03-05")
    address = f"/files/{sha256(content).hexdigest()}"
    handed = crew.get(address, buffered=True)
    assert (handed.mimetype, handed.headers["Content-Disposition"][:10]) == ("application/octet-stream", "attachment")
    assert crew.get(f"{address}/picture", buffered=True).status_code == 404


def test_a_file_that_is_too_large_is_told_beside_its_box_and_nothing_else_is_lost(crew: FlaskClient, leak: str) -> None:
    site = crew.application.extensions
    site["repairlog.files"] = replace(site["repairlog.files"], most=100_000)
    found = {}
    for length in (100_000, 100_001, 400_000):
        answer = attach(crew, leak, b"x" * length, file__happened="2026-03-05 09:40", file__caption="the hole")
        found[length] = (answer.status_code, "The file has more than 0.1 MB." in answer.text, "the hole" in answer.text)
    assert found == {100_000: (303, False, False), 100_001: (422, True, True), 400_000: (422, True, True)}
