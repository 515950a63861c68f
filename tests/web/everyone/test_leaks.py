"""The list of leaks: rows, filters that the address holds, pages, and what is said where nothing is shown."""

from __future__ import annotations

import pytest

from repairlog.web.frame import listing
from tests.makers import book as m
from tests.makers.site import TOKEN
from tests.web.everyone.read import chosen, link, rows_of, said_beside, text_of, value_of

NO_GRADE = "\N{EN DASH}"


@pytest.fixture
def supervisor(site, book):
    return site.client(book.supervisor)


@pytest.fixture
def officer(site, book):
    return site.client(book.officer)


def numbers(page: str) -> list[str]:
    return [word for row in rows_of(page) for word in row.split() if word.startswith(("ES-", "HF-"))]


def test_a_row_says_grade_place_number_status_report_attempts_and_gaps(book, supervisor):
    leak = m.leak(book, cross_street="Mill Lane")
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "off the truck"}])
    book.say(leak, m.grade(leak["id"]), attempt, m.ending(leak["id"], [attempt["id"]]))
    book.say(
        m.leak(book, happened="2016-12-31", happened_known="on_or_before", street="", town="", location="the mast")
    )
    page = supervisor.get("/leaks").text
    assert rows_of(page) == [
        "2 14 Quarry Lane at Mill Lane, Harrowsedge ES-26-0001 Repaired, 5 Mar 2026 3 Mar 2026 1 2",
        f"{NO_GRADE} 14, the mast ES-16-0001 Open on or before 31 Dec 2016",
    ]
    assert 'class="grade r2" role="img" aria-label="grade 2"' in page
    assert link(page, "14 Quarry Lane at Mill Lane, Harrowsedge") == f"/leaks/{leak['id']}"
    assert "2 leaks" in text_of(page)


def test_the_address_holds_the_filter_and_the_fields_show_it(book, officer):
    book.say(m.leak(book), m.leak(book, area=book.other_area, street="Mill Lane"), m.leak(book, happened="2026-02-01"))
    address = "/leaks?area=hf&status=open&street=mill&from=2026-03-01&until=2026-03-31&number=hf-26&grade="
    page = officer.get(address).text
    assert numbers(page) == ["HF-26-0001"]
    assert [value_of(page, name) for name in ("street", "from", "until", "number", "grade")] == [
        "mill",
        "2026-03-01",
        "2026-03-31",
        "hf-26",
        "",
    ]
    assert (chosen(page, "area"), chosen(page, "status")) == ("HF", "open")
    assert numbers(officer.get("/leaks?until=2026-02-28").text) == ["ES-26-0002"]


def test_a_filter_that_cannot_be_read_is_said_beside_its_field_and_the_others_stand(book, officer):
    book.say(m.leak(book), m.leak(book, street="Mill Lane"))
    page = officer.get("/leaks?area=ZZ&status=odd&from=2026-02-30&until=soon&street=mill").text
    assert numbers(page) == ["ES-26-0002"]
    assert said_beside(page, "area") == "There is no area “ZZ” here; it is left out for now."
    assert said_beside(page, "status") == "“odd” is none of the choices; it is left out for now."
    wrong = "“{}” is no day of the calendar. Write it like 2026-03-05; it is left out for now."
    assert said_beside(page, "from") == wrong.format("2026-02-30")
    assert said_beside(page, "until") == wrong.format("soon")
    assert [value_of(page, "from"), value_of(page, "until")] == ["2026-02-30", "soon"]
    assert (chosen(page, "area"), chosen(page, "status")) == ("ZZ", "odd")


def test_a_last_day_before_the_first_one_is_left_out_and_said(book, officer):
    book.say(m.leak(book))
    page = officer.get("/leaks?from=2026-03-02&until=2026-03-01").text
    assert numbers(page) == ["ES-26-0001"]
    assert said_beside(page, "until") == "“2026-03-01” comes before the first day; it is left out for now."
    assert said_beside(officer.get("/leaks?from=2026-03-02&until=2026-03-02").text, "until") == ""


def test_an_area_outside_the_scope_is_as_if_it_were_not_there(book, supervisor):
    book.say(m.leak(book), m.leak(book, area=book.other_area))
    page = supervisor.get("/leaks").text
    assert numbers(page) == ["ES-26-0001"]
    assert "Highfold" not in page
    # the token of the forms tells the second in which it was made
    foreign, unknown = (TOKEN.sub("", supervisor.get(f"/leaks?area={code}").text) for code in ("HF", "QQ"))
    assert foreign.replace("HF", "QQ") == unknown
    assert numbers(supervisor.get("/leaks?number=HF-26-0001").text) == []


def test_pages_go_forth_and_back_with_the_filter_and_nobody_counts_them_all(book, officer, monkeypatch):
    assert listing.A_PAGE == 50
    monkeypatch.setattr(listing, "A_PAGE", 5)
    book.say(*(m.leak(book, happened=day) for day in ("2026-03-03", "2026-03-02") for _ in range(6)))
    first = officer.get("/leaks?status=open").text
    assert "5 shown, more follow" in text_of(first)
    assert (link(first, "Before these"), link(first, "Back to the first")) == ("", "")
    second = officer.get(link(first, "Further")).text
    third = officer.get(link(second, "Further")).text
    assert link(third, "Further") == ""
    seen = [*numbers(first), *numbers(second), *numbers(third)]
    assert [len(rows_of(page)) for page in (first, second, third)] == [5, 5, 2]
    assert len(set(seen)) == 12
    assert seen[:6] == sorted(seen[:6], reverse=True)
    back = officer.get(link(third, "Before these")).text
    assert numbers(back) == numbers(second)
    again = officer.get(link(back, "Before these")).text
    assert (numbers(again), link(again, "Before these")) == (numbers(first), "")
    assert link(third, "Back to the first") == "/leaks?status=open"
    assert chosen(third, "status") == "open"


@pytest.mark.parametrize("edge", ["older=x", "older=2026-03-03", "older=2026-99-01.x", "newer=.", "older="])
def test_an_edge_that_is_none_shows_the_newest(edge, book, officer):
    book.say(m.leak(book))
    assert numbers(officer.get(f"/leaks?{edge}").text) == ["ES-26-0001"]


def test_beyond_the_last_leak_it_says_so_and_leads_back(book, officer):
    leak = m.leak(book)
    book.say(leak)
    page = officer.get(f"/leaks?older=2026-03-03.{leak['id']}").text
    assert "Nothing more stands on this side." in text_of(page)
    assert link(page, "Back to the first") == "/leaks"


def test_an_empty_book_says_what_would_be_here_and_how_to_put_it_there(site, book):
    crew = text_of(site.client(book.crew).get("/leaks").text)
    assert "No leak that you may see is in the book yet." in crew
    assert "Open a leak or have an administrator take in your old list: repairlog import" in crew
    administrator = site.client(book.everyone).get("/leaks").text
    assert "A crew opens a leak; an administrator takes in an old list: repairlog import" in text_of(administrator)
    assert link(administrator, "Open a leak") == ""


def test_a_filter_that_nothing_fits_says_so_and_can_be_cleared(book, officer):
    book.say(m.leak(book))
    page = officer.get("/leaks?street=nowhere").text
    assert "No leak fits this." in text_of(page)
    assert link(page, "show all") == "/leaks"
    assert "No leak that you may see is in the book yet." not in text_of(page)


def test_with_script_the_list_changes_as_the_filter_does_and_the_whole_page_answers(book, officer):
    book.say(m.leak(book))
    page = officer.get("/leaks", headers={"HX-Request": "true"}).text
    for name, value in {"hx-get": "/leaks", "hx-select": "#list", "hx-target": "#list", "hx-push-url": "true"}.items():
        assert f'{name}="{value}"' in page
    assert page.startswith("<!doctype html>")
    assert '<section id="list"' in page


def test_what_is_typed_and_what_is_in_the_book_is_never_markup(book, officer):
    book.say(m.leak(book, street="<b>Lane</b>", town='"><script>'))
    page = officer.get('/leaks?street=<i>&number="><script>x').text + officer.get("/leaks").text
    assert not any(bad in page for bad in ("<b>Lane", "<i>", "<script>x", '"><script>'))
