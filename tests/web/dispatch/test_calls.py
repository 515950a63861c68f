"""A call on pages: taken, sent to, brought to an end, opened as a leak; found again in the list and on Today."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.records.tables import worked
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.copies import rows
from tests.makers.form_page import fill_in
from tests.makers.site import site
from tests.records.queries.test_leaks_plan import run


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


def stands(book: m.Book, call: str) -> dict[str, Any]:
    return next(row for row in rows(book.store, worked.CALL) if row["id"] == read_id(call))


def words_of(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def test_a_call_is_taken_and_its_caller_stands_beside_the_journal(book: m.Book, crew: FlaskClient) -> None:
    typed = {"report": "odor", "happened": "2026-03-03 07:44", "street": "Quarry Lane", "caller_name": "J. Thwaite"}
    answer = fill_in(crew, "/calls/new", **{f"call__{name}": value for name, value in typed.items()})
    assert answer.status_code == 303
    page = words_of(crew.get(answer.location).text)
    assert [word in page for word in ("ES-C26-0001", "Nobody sent", "J. Thwaite")] == [True] * 3


def test_while_an_address_is_typed_earlier_calls_and_open_leaks_of_the_street_are_shown(
    book: m.Book, crew: FlaskClient
) -> None:
    ended, far = m.leak(book), c.call(book, street="Mill Lane")
    book.say(m.leak(book), ended, c.call(book), far, m.ending(ended["id"], how="no_reading"))

    def near(street: str) -> str:
        page = fill_in(crew, "/calls/new", press="check=one", call__street=street).text
        found = re.search(r'<section id="near".*?</section>', page, re.DOTALL)
        assert found
        return words_of(found[0])

    shown = near("quar")
    assert ("ES-26-0001" in shown, "ES-26-0002" in shown, "ES-C26-0001" in shown) == (True, False, True)
    assert "ES-C26-0002" not in shown
    assert near("qu") == near("nowhere") == ""


def test_a_step_is_tapped_as_of_this_minute_and_a_second_touch_is_no_second_entry(
    book: m.Book, crew: FlaskClient
) -> None:
    call = c.call(book)
    book.say(call)
    address = f"/calls/{call['id']}"
    page = crew.get(address).text
    token, id = (re.search(f'name="{name}" value="([^"]+)"', page) for name in ("csrf_token", "id"))
    assert token
    assert id
    sent = {"csrf_token": token[1], "id": id[1], "step": "on-way"}
    before = datetime.now(UTC).replace(second=0, microsecond=0)
    assert [crew.post(f"{address}/tap", data=sent).status_code for _ in range(2)] == [303, 303]
    found = stands(book, call["id"])
    assert (found["status"], before <= found["on_way_at"] <= datetime.now(UTC)) == ("on_way", True)
    assert crew.post(f"{address}/tap", data=sent | {"step": "fly"}).status_code == 404


def test_while_nobody_is_sent_sending_somebody_comes_first(book: m.Book, crew: FlaskClient) -> None:
    call = c.call(book)
    book.say(call)
    before = words_of(crew.get(f"/calls/{call['id']}").text)
    book.say(c.sent(call["id"]))
    after = words_of(crew.get(f"/calls/{call['id']}").text)
    assert ("Send somebody On the way now On site now Our leak: open it" in before, before.count("Send somebody")) == (
        True,
        1,
    )
    assert ("On the way now On site now Our leak: open it" in after, "Send somebody On the way" in after) == (
        True,
        False,
    )


def test_somebody_is_sent_and_stands_on_today_with_the_minutes(book: m.Book, crew: FlaskClient) -> None:
    at = datetime.now(UTC) - timedelta(minutes=14)
    call, truck = c.call(book, happened=f"{at:%Y-%m-%d %H:%M} Z"), c.crew(book)
    book.say(call, truck, moments=Moments(received=datetime.now(UTC)))
    page = words_of(crew.get("/today").text)
    assert re.search(r"1 with nobody sent 1[45] min Odor of gas, outside: 14 Quarry Lane", page)
    answer = fill_in(crew, f"/calls/{call['id']}/send", step__happened=f"{at:%Y-%m-%d %H:%M} Z", step__crew=truck["id"])
    assert answer.status_code == 303
    page = words_of(crew.get("/today").text)
    assert "No call waits" in page
    assert "Truck 6: sent" in page


def test_a_watch_stands_on_today_with_its_next_reading(book: m.Book, crew: FlaskClient) -> None:
    leak = m.leak(book)
    book.say(leak, c.watch(leak["id"], next_reading_by="2026-03-03 15:00"))
    page = words_of(crew.get("/today").text)
    assert "day crew leader: watching a leak" in page
    assert "next reading was to be" in page


def test_a_call_opens_a_leak_and_ends_in_one_save(book: m.Book, crew: FlaskClient) -> None:
    call = c.call(book, location="by the steps")
    book.say(call, c.sent(call["id"]), c.on_site(call["id"]))
    answer = fill_in(crew, f"/calls/{call['id']}/leak", outcome__happened="2026-03-03 08:30")
    assert answer.status_code == 303
    (leak,) = rows(book.store, worked.LEAK)
    found = stands(book, call["id"])
    assert (found["status"], found["outcome"], found["leak_id"]) == ("ended", "operators_leak", leak["id"])
    assert (leak["house_number"], leak["reported_at"]) == ("14", datetime(2026, 3, 3, 12, 44, tzinfo=UTC))
    assert "ES-26-0001" in words_of(crew.get(f"/calls/{call['id']}").text)
    assert f'<a href="/calls/{call["id"]}">Call ES-C26-0001</a>' in crew.get(f"/leaks/{leak['id']}").text


def test_an_outcome_joins_an_open_leak_of_the_street_or_an_earlier_call(book: m.Book, crew: FlaskClient) -> None:
    leak, first, second = m.leak(book), c.call(book), c.call(book)
    book.say(leak, first, second)
    when = {"step__happened": "2026-03-03 08:30"}
    join = {"step__outcome": "operators_leak", "step__found_leak": leak["id"]}
    assert fill_in(crew, f"/calls/{first['id']}/outcome", **when, **join).status_code == 303
    same = {"step__outcome": "same_call", "step__same_as": first["id"]}
    assert fill_in(crew, f"/calls/{second['id']}/outcome", **when, **same).status_code == 303
    assert stands(book, first["id"])["leak_id"] == read_id(leak["id"])
    assert stands(book, second["id"])["same_as_id"] == read_id(first["id"])


def test_the_list_of_calls_is_filtered_by_its_address_and_says_what_it_could_not_read(
    book: m.Book, crew: FlaskClient
) -> None:
    fire, done = c.call(book, report="fire", street="Mill Lane"), c.call(book, happened="2026-03-01 09:00")
    far = c.call(book, area=book.other_area)
    book.say(fire, done, far, c.outcome(done["id"], happened="2026-03-01 10:00"))

    def numbers(filter: str) -> list[str]:
        return re.findall(r"(?:ES|HF)-C26-\d+", crew.get(f"/calls?{filter}").text)

    assert numbers("") == ["ES-C26-0001", "ES-C26-0002"]
    assert numbers("status=not_ended") == numbers("report=fire") == numbers("street=mill") == ["ES-C26-0001"]
    assert numbers("outcome=nothing_found") == numbers("until=2026-03-02") == ["ES-C26-0002"]
    assert numbers("number=es-c26-0002") == ["ES-C26-0002"]
    page = crew.get("/calls?status=warm&from=soon&area=XX").text
    assert page.count("it is left out for now") == 3


def test_the_pages_of_calls_ask_as_often_for_one_as_for_many(book: m.Book, crew: FlaskClient) -> None:
    def often() -> list[int]:
        counts = []
        for address in ("/calls", "/today"):
            with run(book.store) as seen:
                crew.get(address)
            counts.append(len(seen))
        return counts

    book.say(c.call(book))
    few = often()
    book.say(*(c.call(book) for _ in range(60)))
    assert often() == few


def test_times_out_of_order_and_an_outcome_that_names_no_leak_stand_in_the_margin(
    book: m.Book, crew: FlaskClient
) -> None:
    call = c.call(book)
    book.say(call, c.sent(call["id"], happened="2026-03-03 07:40"), c.outcome(call["id"], outcome="operators_leak"))
    page = words_of(crew.get(f"/calls/{call['id']}").text)
    assert "no leak is named" in page
    assert "Correct whichever time is wrong" in page


def test_the_list_is_taken_away_as_a_file_by_the_same_filter_and_says_nothing_of_who_called(book, crew) -> None:
    first = c.call(book, caller_name="J. Thwaite", location="=cmd")
    book.say(first, c.sent(first["id"], person=str(book.crew.person), named=""), c.call(book, report="fire"))
    page = crew.get("/calls?report=odor").text
    address = re.search(r'href="([^"]*as=csv)"', page)
    assert address
    answer = crew.get(address[1].replace("&amp;", "&"))
    lines = answer.get_data().decode("utf-8-sig").split("\r\n")
    assert lines[0].startswith("Number,Area,Received on,Received at,Reported,")
    assert (len(lines), lines[1].startswith("ES-C26-0001,Eastmarsh,2026-03-0"), "M. Aldous" in lines[1]) == (
        3,
        True,
        True,
    )
    assert "Thwaite" not in answer.text
    assert crew.get("/calls?as=csv").get_data().count(b"\r\n") == 3
