"""What does not hold up in the record of a call or a dig stands in the list of gaps and is set aside as a leak's is."""

from __future__ import annotations

from repairlog.records.rebuild import check
from repairlog.records.tables.worked import GAP
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers.copies import rows
from tests.makers.form_page import fill_in
from tests.makers.site import Site
from tests.web.everyone.read import link, rows_of

ON = {"entry__happened": "2026-03-04", "entry__reason": "known to the office"}


def raised(page: str) -> list[str]:
    """The rows of what does not hold up, without what is not settled of an area before them."""
    return rows_of(page.partition('<th scope="col">Day</th>')[2])


def test_a_gap_of_a_call_leads_to_its_page_and_is_set_aside_there(site: Site) -> None:
    book = site.book
    call = c.call(book)
    out = c.outcome(call["id"], outcome="customers")
    book.say(call, out, c.sent(call["id"], named="a helper"))
    officer, crew = (site.client(who) for who in (book.officer, book.crew))
    (helper, customers) = raised(officer.get("/gaps").text)
    assert "ES-C26-0001 14 Quarry Lane" in customers
    assert "The person \u201ca helper\u201d is not on the books." in helper
    page = officer.get(f"/calls/{call['id']}").text
    of_customers = f"/calls/{call['id']}/entries/{out['id']}/gaps/customers_piping_not_made_safe"
    assert (of_customers in page, of_customers in crew.get(f"/calls/{call['id']}").text) == (True, False)
    assert "It is the customer&#39;s piping" in officer.get(of_customers).text
    assert fill_in(officer, of_customers, **ON).status_code == 303
    assert fill_in(officer, link(page.partition("a helper")[2], "Set aside"), **ON).status_code == 303
    assert raised(officer.get("/gaps").text) == []
    assert len(raised(officer.get("/gaps?aside=yes").text)) == 2
    assert officer.get(of_customers.replace("customers_", "no_")).status_code == 404
    assert check(book.store).differences == ()


def test_a_gap_of_a_dig_leads_to_a_leak_that_it_serves_and_is_set_aside_there(site: Site) -> None:
    book = site.book
    leak, other = m.leak(book), m.leak(book)
    dig = d.dig(book, [leak["id"], other["id"]], ticket=None)
    book.say(leak, other, {name: said for name, said in dig.items() if said is not None})
    officer = site.client(book.officer)
    (listed,) = raised(officer.get("/gaps").text)
    assert ("No locate ticket" in listed, "ES-26-0001 14 Quarry Lane" in listed) == (True, True)
    at = f"/leaks/{leak['id']}/entries/{dig['id']}/gaps/no_locate_ticket"
    for page in ("/gaps", f"/leaks/{leak['id']}"):
        assert at in officer.get(page).text
    assert fill_in(officer, at, **ON).status_code == 303
    assert [row["set_aside_by_id"] is None for row in rows(book.store, GAP)] == [False]
    assert raised(officer.get("/gaps").text) == []
    assert at not in officer.get(f"/leaks/{leak['id']}").text


def test_nobody_sees_the_gaps_of_calls_and_digs_of_another_area(site: Site) -> None:
    book = site.book
    leak, call = m.leak(book, area=book.other_area), c.call(book, area=book.other_area)
    dig = {name: said for name, said in d.dig(book, [leak["id"]], area=book.other_area).items() if name != "ticket"}
    book.say(leak, call, dig, c.outcome(call["id"], outcome="customers"))
    assert raised(site.client(book.supervisor).get("/gaps").text) == []
    assert len(raised(site.client(book.officer).get("/gaps").text)) == 2
