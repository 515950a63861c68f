"""Nothing typed is lost: what comes when nobody is signed in stays on the page, and one button sends it again."""

from __future__ import annotations

import json

import pytest

from repairlog.clock import now
from repairlog.records.beside.sign_ins import close_sign_in
from repairlog.web.frame.typed import TOKEN, Typed, label_of, packed, unpacked
from tests.makers.cells import do
from tests.makers.trial import forms_of, sign_in, token_of
from tests.web.frame.conftest import NAME, PASSWORD

FIELDS = [
    ("street", "Quarry Lane"),
    ("repair-kept_as_text", "pressure_found"),
    ("repair-kept_as_text", "hole_size"),
    ("repair-remarks", 'two\r\nlines, "quoted" & <b>bold</b>'),
    ("name", "R. Tolland"),
    ("password", "of a gate"),
    ("repair-cause", "corrosion_failure"),
    ("leak", "019cb4d0-1180-7abc-9def-000000000001"),
    ("empty", ""),
    ("save", "yes"),
]
"""Lists of one name, names that signing in has too, and signs that a page could trip over."""


def body(token: str, fields=FIELDS) -> dict[str, list[str]]:
    """The fields as a browser posts them."""
    given: dict[str, list[str]] = {TOKEN: [token]}
    for name, value in fields:
        given.setdefault(name, []).append(value)
    return given


def without_token(fields: list[tuple[str, str]]) -> list[tuple[str, str]]:
    return [pair for pair in fields if pair[0] != TOKEN]


def signed_in(trial):
    client = trial.site.app.test_client()
    assert sign_in(client, NAME, PASSWORD).status_code == 302
    return client


def test_what_is_posted_after_the_sign_in_ended_comes_back_after_signing_in_and_is_sent_by_the_button_alone(
    trial, book
):
    client = signed_in(trial)
    token = token_of(client)
    client.post("/sign-out", data={TOKEN: token})
    asked = client.post("/trial?leak=7", data=body(token))
    assert (asked.status_code, "Sign in" in asked.text, trial.took) == (403, True, [])
    kept = dict(forms_of(asked.text)["/sign-in"])
    wrong = client.post("/sign-in", data={**kept, "name": NAME, "password": "guess"})
    kept = dict(forms_of(wrong.text)["/sign-in"])
    came = client.post("/sign-in", data={**kept, "name": NAME, "password": PASSWORD})
    assert (wrong.status_code, came.status_code, trial.took) == (403, 200, [])
    assert f"Typed before signing in as {NAME}." in came.text
    again = forms_of(came.text)["/trial?leak=7"]
    assert client.post("/trial?leak=7", data=body(dict(again)[TOKEN], without_token(again))).text == "taken"
    assert [sorted(each) for each in trial.took] == [sorted(FIELDS)]


@pytest.mark.parametrize("how", ["closed", "idle", "cookie gone"])
def test_however_the_sign_in_ended_every_field_is_on_the_page_that_asks_for_it(trial, book, how):
    client = signed_in(trial)
    token = token_of(client)
    if how == "closed":
        close_sign_in(book.store, NAME, at=now())
    elif how == "idle":
        trial.site.app.config["REPAIRLOG_IDLE"] *= 0
    else:
        client = trial.site.app.test_client()
    answer = client.post("/trial", data=body(token))
    with trial.site.app.test_request_context():
        held = unpacked(dict(forms_of(answer.text)["/sign-in"])["typed"])
    assert held == Typed(address="/trial", fields=held.fields)
    assert (answer.status_code, sorted(held.fields), trial.took) == (403, sorted(FIELDS), [])


def test_a_page_that_grew_old_holds_what_was_typed_for_who_is_signed_in(trial):
    client = signed_in(trial)
    answer = client.post("/trial", data=body("old"))
    again = forms_of(answer.text)["/trial"]
    assert (answer.status_code, sorted(without_token(again)), trial.took) == (400, sorted(FIELDS), [])
    client.post("/trial", data=body(dict(again)[TOKEN], without_token(again)))
    assert [sorted(each) for each in trial.took] == [sorted(FIELDS)]


def test_what_was_typed_is_shown_in_the_words_of_its_fields(trial):
    page = signed_in(trial).post("/trial", data=body("old")).text
    assert '<dt>Cause of the leak</dt><dd class="typed">Corrosion failure</dd>' in page
    assert "<dt>Leak</dt>" not in page  # an id, which no person reads
    fields = (("did-0-key", "r1"), ("save", "all"), ("note-text", "gate is open"))
    assert Typed(address="/leaks", fields=fields).shown == [("Text", "gate is open")]
    assert "&lt;b&gt;bold&lt;/b&gt;" in page
    assert "<b>bold" not in page
    assert label_of("repair-materials-0-used") == "How much was used"
    assert label_of("pressure_found") == "Line pressure found"
    assert label_of("repair-remarks") == "Remarks"  # the fields of that name do not say the same
    assert label_of("no_such_field") == "No such field"


def test_while_one_waits_to_sign_in_again_what_was_typed_is_kept(trial):
    client = trial.site.app.test_client()
    for _ in range(5):
        sign_in(client, NAME, "guess")
    given = packed(Typed(address="/trial", fields=tuple(FIELDS)))
    waits = sign_in(client, NAME, PASSWORD, typed=given)
    old = client.post("/sign-in", data={"typed": given, TOKEN: "old"})
    assert (waits.status_code, old.status_code) == (429, 400)
    assert [dict(forms_of(each.text)["/sign-in"])["typed"] for each in (waits, old)] == [given, given]


def test_a_fault_while_one_signs_in_again_does_not_lose_it_either(trial, book):
    client = trial.site.app.test_client()
    token = token_of(client)
    do(book.store, "DROP TABLE failed_sign_in")
    given = {
        "name": NAME,
        "password": PASSWORD,
        TOKEN: token,
        "typed": packed(Typed(address="/trial", fields=tuple(FIELDS))),
    }
    answer = client.post("/sign-in", data=given)
    again = without_token(forms_of(answer.text)["/trial"])
    assert (answer.status_code, again, PASSWORD in answer.text) == (500, FIELDS, False)


@pytest.mark.parametrize(
    "text",
    [
        packed(Typed(address="https://elsewhere.example/trial", fields=(("a", "b"),))),
        packed(Typed(address="//elsewhere.example/trial", fields=(("a", "b"),))),
        packed(Typed(address="/leaks", fields=(("a", "b"),))),
        packed(Typed(address="/no/such/page", fields=())),
        "",
        "{",
        "null",
        "[]",
        "[1]",
        '["/trial", ["a"]]',
        '["/trial", ["a", 1]]',
        '["/trial", "ab", 7]',
        "[" * 50_000,
        json.dumps({"/trial": "a"}) + "x",
    ],
    ids=range(14),
)
def test_what_was_not_typed_into_a_page_of_ours_is_offered_to_nobody(trial, text):
    answer = sign_in(trial.site.app.test_client(), NAME, PASSWORD, typed=text)
    assert (answer.status_code, answer.location) == (302, "/today")


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
    ],
    ids=str,
)
def test_what_a_page_of_another_site_sent_is_not_offered_to_be_sent_again(trial, headers):
    inside, outside = signed_in(trial), trial.site.app.test_client()
    refused = inside.post("/trial", data=body("made up"), headers=headers)
    assert (refused.status_code, "A page of another site sent this." in refused.text) == (400, True)
    assert "/trial" not in forms_of(refused.text)
    assert outside.post("/trial", data=body("made up"), headers=headers).location == "/sign-in"


@pytest.mark.parametrize(
    "headers", [{"Sec-Fetch-Site": "same-origin"}, {"Sec-Fetch-Site": "none"}, {"Origin": "http://localhost"}]
)
def test_what_our_own_page_sent_is_offered(trial, headers):
    assert "/trial" in forms_of(signed_in(trial).post("/trial", data=body("old"), headers=headers).text)


def test_a_password_is_no_part_of_what_is_kept(trial):
    client = signed_in(trial)
    given = {"name": NAME, "password": PASSWORD, TOKEN: "old"}
    pages = [client.post(address, data=given).text for address in ("/sign-in", "/sign-out")]
    assert [PASSWORD in page for page in pages] == [False, False]


def test_a_post_that_brought_nothing_goes_the_way_of_signing_in(trial):
    client = trial.site.app.test_client()
    assert client.post("/trial", data={TOKEN: token_of(client)}).location == "/sign-in"


def test_a_part_of_a_page_that_is_asked_for_without_a_sign_in_sends_the_whole_page_to_sign_in(trial):
    answer = trial.site.app.test_client().get("/trial", headers={"HX-Request": "true"})
    assert (answer.status_code, answer.headers["HX-Redirect"], answer.text) == (204, "/sign-in", "")
