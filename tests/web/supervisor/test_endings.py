"""A leak is ended as ticked, and the page says before what would come of it."""

from typing import Any

import pytest
from sqlalchemy import select

from repairlog.entries.leak import ENDINGS
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from repairlog.records.tables.metadata import METADATA
from tests.makers import book as m
from tests.makers.form_page import FormPage, fill_in, form_page, press_on
from tests.makers.site import site

OPEN = "Ended by repair as ticked, the leak would stay open"
ENDED = "Ended by repair as ticked, the leak is ended"


WHEN: dict[str, str | list[str]] = {"ending__happened": ["2026-03-06", "08:40"]}


def address(leak: str) -> str:
    return f"/leaks/{leak}/end"


def drawn(book: m.Book, leak: str) -> FormPage:
    return form_page(site(book).client(book.supervisor).get(address(leak)))


def ticked(page: FormPage) -> list[str]:
    """The attempts that are ticked, by id."""
    return [it for name, values in page.boxes.items() for it in values if name.endswith("-attempt")]


def status(book: m.Book, leak: str) -> tuple[Any, ...]:
    of = METADATA.tables["leak"]
    with book.store.reading() as tx:
        return tuple(tx.connection.execute(select(of.c.status, of.c.ended_how).where(of.c.id == m.read_id(leak))).one())


def named(book: m.Book) -> list[str]:
    with book.store.reading() as tx:
        rows = tx.connection.execute(select(METADATA.tables["leak_ended_attempts"]))
        return [str(row.attempt_id) for row in rows]


def two_sources(book: m.Book, leak: str) -> tuple[str, str]:
    first, second = m.source(leak), m.source(leak, component="coupling", happened="2026-03-03 09:30")
    book.say(first, second)
    return first["id"], second["id"]


def test_the_tight_permanent_repair_of_each_source_is_ticked_where_there_is_only_one(book: m.Book, leak: str) -> None:
    first, second = two_sources(book, leak)
    failed = m.attempt(leak, source=first, happened="2026-03-05 08:00", outcome="not_tight")
    tight = m.attempt(leak, source=first, happened="2026-03-05 09:00")
    either = [m.attempt(leak, source=second, happened=f"2026-03-05 10:0{minute}") for minute in (1, 2)]
    book.say(failed, tight, *either)
    page = drawn(book, leak)
    assert ticked(page) == [tight["id"]]
    assert OPEN in page.texts["prospect"]
    assert "A source has no repair ticked." in page.texts["prospect"]


def test_a_leak_is_ended_by_the_repairs_that_are_ticked(store: Store) -> None:
    book = m.opened(store)
    opened = m.leak(book)
    book.say(opened)
    leak = opened["id"]
    first, second = two_sources(book, leak)
    done = [m.attempt(leak, source=source) for source in (first, second)]
    book.say(*done, *(m.review(leak, each["id"]) for each in done))
    supervisor = site(book).client(book.supervisor)
    page = form_page(supervisor.get(address(leak)))
    assert page.texts["prospect"] == ENDED
    saved = press_on(supervisor, address(leak), page, **WHEN, ending__how="repaired", ending__reason="both dry")
    assert saved.status_code == 303
    assert (status(book, leak), sorted(named(book))) == (("ended", "repaired"), sorted(each["id"] for each in done))


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({"outcome": "not_tight"}, "A repair that is ticked is not tight."),
        ({"lasting": "temporary"}, "A repair that is ticked is temporary. A temporary repair ends no leak."),
    ],
)
def test_what_would_keep_the_leak_open_is_said_before_and_what_is_ticked_is_saved(
    book: m.Book, leak: str, fields: dict[str, str], why: str
) -> None:
    attempt = m.attempt(leak, **fields)
    book.say(attempt)
    supervisor = site(book).client(book.supervisor)
    page = form_page(supervisor.get(address(leak)))
    tick = {"ending__attempts__0__attempt": attempt["id"], "ending__how": "repaired"}
    looked = form_page(press_on(supervisor, address(leak), page, press="check=all", **WHEN | tick))
    assert (ticked(page), looked.texts["prospect"].startswith(f"{OPEN} {why}")) == ([], True)
    assert press_on(supervisor, address(leak), looked).status_code == 303
    assert (status(book, leak), named(book)) == (("open", None), [attempt["id"]])


@pytest.mark.parametrize(
    ("outcome", "said"),
    [
        ("accepted", ""),
        ("returned", " A repair that is ticked was returned by a supervisor: that will be raised."),
        ("", " No supervisor has accepted a repair that is ticked: that will be raised until one does."),
    ],
)
def test_a_repair_that_nobody_accepted_ends_the_leak_and_will_be_raised(
    book: m.Book, leak: str, outcome: str, said: str
) -> None:
    attempt = m.attempt(leak)
    book.say(attempt, *([m.review(leak, attempt["id"], outcome=outcome)] if outcome else []))
    assert drawn(book, leak).texts["prospect"] == f"{ENDED}{said}"


@pytest.mark.parametrize("how", [each for each in ENDINGS if each not in ("repaired", "joined")])
def test_another_way_of_ending_names_no_repair(book: m.Book, leak: str, how: str) -> None:
    book.say(m.attempt(leak))
    assert ticked(drawn(book, leak)) != []
    fill_in(site(book).client(book.supervisor), address(leak), **WHEN, ending__how=how)
    assert (status(book, leak), named(book)) == (("ended", how), [])


def numbers(book: m.Book) -> dict[str, str]:
    of = METADATA.tables["leak"]
    with book.store.reading() as tx:
        return {str(row.id): row.number for row in tx.connection.execute(select(of))}


def test_a_leak_is_joined_to_another_by_its_number_capitals_or_not(book: m.Book, leak: str) -> None:
    other = m.leak(book)
    book.say(other)
    number = numbers(book)[other["id"]]
    typed = {"ending__how": "joined", "ending__joined_to": f" {number.lower()} "}
    assert fill_in(site(book).client(book.supervisor), address(leak), **WHEN | typed).status_code == 303
    with book.store.reading() as tx:
        (ended,) = tx.connection.execute(select(METADATA.tables["leak_ended"]))
    assert (ended.how, ended.joined_to_id) == ("joined", m.read_id(other["id"]))


def test_a_number_that_no_leak_in_sight_bears_is_asked_about_and_kept_as_typed(book: m.Book, leak: str) -> None:
    elsewhere = m.leak(book, area=book.other_area)
    book.say(elsewhere)
    supervisor = site(book).client(book.supervisor)
    for number, said in [
        ("ES-26-9", "No leak here bears the number “ES-26-9”."),
        (numbers(book)[elsewhere["id"]], "No leak here bears the number “HF-26-0001”."),
        (numbers(book)[leak], "“ES-26-0001” is the number of this leak itself."),
    ]:
        answer = fill_in(supervisor, address(leak), **WHEN, ending__how="joined", ending__joined_to=number)
        page = form_page(answer)
        assert (answer.status_code, page.boxes["ending-joined_to"]) == (422, [number])
        assert page.said("ending-joined_to").startswith(said)
        assert answer.text.count('class="error"') == 1
    kept = [unfinished.raw[0]["joined_to"] for unfinished in of_person(book.store, book.supervisor.person)]
    assert sorted(kept) == ["ES-26-0001", "ES-26-9", "HF-26-0001"]
    assert status(book, leak) == ("open", None)


def test_a_number_is_not_joined_to_one_that_was_opened_in_error(book: m.Book, leak: str) -> None:
    one, another = m.leak(book), m.leak(book)
    book.say(one, another, m.void(one["id"]), m.ending(another["id"], how="opened_in_error"))
    supervisor, typed = site(book).client(book.supervisor), {"ending__how": "joined"}
    for number, why in (
        ("ES-26-0002", "No leak here bears the number “ES-26-0002”."),
        ("ES-26-0003", "“ES-26-0003” was opened by mistake, so that the hazard would be open under neither number."),
    ):
        answer = fill_in(supervisor, address(leak), **WHEN, **typed, ending__joined_to=number)
        said = form_page(answer).said("ending-joined_to")
        assert (answer.status_code, said.startswith(why)) == (422, True)


def test_numbers_are_not_joined_in_a_ring(book: m.Book, leak: str) -> None:
    second, third = m.leak(book), m.leak(book)
    supervisor, typed = site(book).client(book.supervisor), {"ending__how": "joined"}
    book.say(second, third, m.ending(second["id"], how="joined", joined_to=third["id"]))
    last = numbers(book)[third["id"]]
    assert fill_in(supervisor, address(leak), **WHEN, **typed, ending__joined_to=last).status_code == 303
    for of, number in ((third["id"], numbers(book)[leak]), (third["id"], numbers(book)[second["id"]])):
        answer = fill_in(supervisor, address(of), **WHEN, **typed, ending__joined_to=number)
        said = form_page(answer).said("ending-joined_to")
        assert (answer.status_code, said.startswith(f"“{number}” was joined to this leak itself")) == (422, True)
        assert status(book, of) == ("open", None)


def test_what_was_asked_is_asked_again_where_it_was_left_unfinished(book: m.Book, leak: str) -> None:
    supervisor = site(book).client(book.supervisor)
    typed = {"ending__how": "joined", "ending__joined_to": "ES-26-9"}
    page = form_page(fill_in(supervisor, address(leak), **WHEN | typed))
    again = supervisor.get(f"{address(leak)}?unfinished={page.boxes['ending-id'][0]}")
    assert form_page(again).boxes["ending-joined_to"] == ["ES-26-9"]
    assert form_page(again).said("ending-joined_to").startswith("No leak here bears the number “ES-26-9”.")
    assert again.text.count('class="error"') == 1


def test_what_was_left_unfinished_comes_back_with_the_other_leak_s_number(book: m.Book, leak: str) -> None:
    other = m.leak(book)
    book.say(other)
    number = numbers(book)[other["id"]]
    supervisor = site(book).client(book.supervisor)
    typed = {"ending__joined_to": number, "ending__how": "joined", "ending__happened": ["2036-01-01", "10:00"]}
    page = form_page(fill_in(supervisor, address(leak), **typed))
    again = form_page(supervisor.get(f"{address(leak)}?unfinished={page.boxes['ending-id'][0]}"))
    assert (again.boxes["ending-joined_to"], again.boxes["ending-how"]) == ([number], ["joined"])
    assert "2036-01-01" in again.said("ending-happened")


def test_a_crew_may_not_end_a_leak_and_is_told_so_and_a_leak_elsewhere_is_not_there(book: m.Book, leak: str) -> None:
    elsewhere = m.leak(book, area=book.other_area)
    book.say(elsewhere)
    pages = site(book)
    asked = [(book.crew, leak), (book.supervisor, elsewhere["id"]), (book.officer, elsewhere["id"])]
    assert [pages.client(who).get(address(of)).status_code for who, of in asked] == [403, 404, 200]
