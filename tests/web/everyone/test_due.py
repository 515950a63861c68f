"""The list of what is due, as people look at it: late first, in words, filtered by its address, taken away as a file.

The invented practice: a leak of grade 2 is re-evaluated within 6 months of the last look and repaired within a calendar
year of the report, 15 months at the most (proposed until confirmed). Leaks are of 3 March 2026.
"""

from __future__ import annotations

import csv
import io
import re
from datetime import date

import pytest
import time_machine
from sqlalchemy import event

from repairlog.records.queries.due import DayCount, DueEdge
from repairlog.web.everyone.due_filter import edge_of, edge_text, end_of_month, end_of_week, house_and_street
from repairlog.web.everyone.due_weeks import weeks_of
from tests.makers import book as m
from tests.makers.site import site

STREETS = ("Quarry Lane", "Mill Lane", "Mill Lane")


@pytest.fixture
def book(sqlite_store):
    """Three leaks of grade 2 and a person who has one of them; the rule of repair is not confirmed."""
    book = m.opened(sqlite_store)
    leaks = [m.leak(book, house_number=str(house), street=street) for house, street in enumerate(STREETS, start=14)]
    leaks[1]["outside_numbers"] = [{"key": "n1", "what": "work order", "number": "WO-7781"}]
    book.say(m.adopted(book.area), *leaks, *[m.grade(leak["id"]) for leak in leaks])
    given = m.given(leaks[0]["id"], person=str(book.crew.person))
    del given["named"]
    book.say(given)
    return book


def seen(book, address="/due", *, at="2026-09-04T16:00:00Z", who=None):
    with time_machine.travel(at, tick=False):
        return site(book).client(who or book.officer).get(address)


def lines(answer):
    """Per row: how late in words, the task, the number of the leak, and the weight of the rule at its edge."""
    rows = re.findall(
        r'<tr(?: class="(?:l(\d))?(?: ?late)?")?>\s*<td class="by">([^<]*)<.*?<b>([^<]*)</b>'
        r".*?<small>(ES-[^<]*)</small>",
        answer.text,
        re.DOTALL,
    )
    return [(number[-1], task, late, weight) for weight, late, task, number in rows]


@pytest.mark.parametrize(
    ("at", "late", "weight"),
    [
        ("2026-09-01T16:00:00Z", "in 2 days", ""),
        ("2026-09-02T16:00:00Z", "in 1 day", ""),
        ("2026-09-03T16:00:00Z", "due today", "1"),
        ("2026-09-04T03:59:00Z", "due today", "1"),  # 23:59 of the third in New York
        ("2026-09-04T04:00:00Z", "1 day late", "2"),
        ("2026-09-10T16:00:00Z", "7 days late", "2"),
        ("2026-09-11T16:00:00Z", "8 days late", "3"),
    ],
)
def test_lateness_is_told_in_words_by_the_area_s_day_and_by_a_rule_that_grows_thicker(book, at, late, weight):
    assert {line[1:] for line in lines(seen(book, at=at)) if line[1] == "Re-evaluate"} == {
        ("Re-evaluate", late, weight)
    }


def test_what_is_late_comes_first_and_what_is_proposed_is_never_late(book):
    shown = lines(seen(book, at="2028-01-01T16:00:00Z"))
    assert [line[1] for line in shown] == ["Re-evaluate"] * 3 + ["Repair"] * 3
    assert {line[2:] for line in shown[3:]} == {("proposed", "")}
    assert "3 Jun 2027, not confirmed" in seen(book).text
    book.say(m.confirmed(book.area))
    assert ("Repair", "212 days late", "3") in {line[1:] for line in lines(seen(book, at="2028-01-01T16:00:00Z"))}


def test_a_row_says_limit_target_clause_and_who_has_it(book):
    text = " ".join(seen(book, "/due?text=ES-26-0001").text.split())
    for said in (
        "limit 3 Sep 2026",
        "target 3 Sep 2026",
        "6 months from the last look, 3 Mar 2026",
        "2.3",
        "M. Aldous",
    ):
        assert said in text
    assert "no one" in seen(book, "/due?text=ES-26-0002").text


@pytest.mark.parametrize(
    ("filters", "numbers"),
    [
        ("when=late", "123"),
        ("when=week", "123"),
        ("task=repair", "123"),
        ("grade=3", ""),
        ("text=es-26-0003&when=late", "3"),
        ("text=WO-7781&when=late", "2"),
        ("text=mill&when=late", "23"),
        ("text=16+mill+lane&when=late", "3"),
        ("text=14+mill&when=late", ""),
        ("who=me&when=late", "1"),
        ("who=none&when=late", "23"),
        ("area=es&when=late", "123"),
    ],
)
def test_the_address_holds_the_filter_and_a_file_has_the_same_rows(book, filters, numbers):
    at = f"/due?{filters}"
    assert "".join(line[0] for line in lines(seen(book, at, who=book.crew))) == numbers
    taken = seen(book, f"{at}&as=csv", who=book.crew).get_data().decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(taken)))
    assert "".join(row["Number"][-1] for row in rows) == numbers


def test_a_file_says_days_as_they_are_written_down_and_keeps_proposed_ones_apart(book):
    taken = seen(book, "/due?text=ES-26-0001&as=csv").get_data().decode("utf-8-sig")
    first, second = csv.DictReader(io.StringIO(taken))
    told = ("Limit", "Proposed, not confirmed", "Target", "Late", "Task", "Clause", "Who has it")
    assert [first[each] for each in told] == ["2026-09-03", "", "", "yes", "re-evaluate", "2.3", "M. Aldous"]
    assert [second[each] for each in told] == ["", "2027-06-03", "2026-09-03", "no", "repair", "2.2", "M. Aldous"]


def test_a_filter_that_cannot_be_read_is_told_and_spoils_no_other(book):
    answer = seen(book, "/due?when=soon&who=them&text=mill")
    assert "“soon” is none of the choices" in answer.text
    assert "There is no such crew here" in answer.text
    assert {line[0] for line in lines(answer)} == {"2", "3"}


def test_pages_follow_one_another_without_loss(book, monkeypatch):
    monkeypatch.setattr("repairlog.web.frame.listing.A_PAGE", 2)
    every, at = [], "/due"
    while at:
        answer = seen(book, at)
        every += lines(answer)
        later = re.search(r'href="([^"]*older=[^"]*)"', answer.text)
        at = later[1].replace("&amp;", "&") if later else ""
    assert [line[:2] for line in every] == [(n, t) for t in ("Re-evaluate", "Repair") for n in "123"]


def test_the_list_asks_the_same_number_of_questions_for_one_row_and_for_many(book):
    counted = []
    event.listen(book.store.engine, "before_cursor_execute", lambda *_: counted.append(1))
    asked = []
    for more in (1, 20):
        book.say(*[each for _ in range(more) for leak in [m.leak(book)] for each in (leak, m.grade(leak["id"]))])
        client = site(book).client(book.officer)
        for address in ("/due", "/today"):
            client.get(address)
            counted.clear()
            client.get(address)
            asked.append(len(counted))
    assert asked[:2] == asked[2:]


def test_today_shows_a_crew_its_own_and_whoever_looks_after_an_area_all_of_it(book):
    crew, supervisor = (seen(book, "/today", who=who).text for who in (book.crew, book.supervisor))
    assert ("Due this week of yours" in crew, crew.count("Re-evaluate: ")) == (True, 1)
    assert ("Due this week<" in supervisor, supervisor.count("Re-evaluate: ")) == (True, 3)
    assert "no one has it" in supervisor
    assert "give it to somebody" not in crew


def test_what_no_one_has_is_given_from_the_list_and_from_today_with_its_work_chosen(book):
    give = re.compile(r'href="(/leaks/[0-9a-f-]{36}/give[^"]*)"')
    supervisor, crew = book.supervisor, book.crew
    found = {where: give.findall(seen(book, where, who=supervisor).text) for where in ("/due", "/today")}
    assert found["/due"]
    assert set(found["/today"]) <= set(found["/due"])
    assert {each.partition("?")[2] for each in found["/due"]} <= {"work=re_evaluation", "work=repair"}
    assert give.findall(seen(book, "/due", who=crew).text) == []
    form = seen(book, found["/today"][0], who=supervisor).text
    assert re.search(r'<option selected value="re_evaluation"|value="re_evaluation"[^>]*(checked|selected)', form)


@pytest.mark.parametrize(
    ("on", "week", "month"),
    [
        (date(2026, 9, 6), date(2026, 9, 6), date(2026, 9, 30)),  # a Sunday ends its week (ISO 8601)
        (date(2026, 9, 7), date(2026, 9, 13), date(2026, 9, 30)),
        (date(2028, 2, 29), date(2028, 3, 5), date(2028, 2, 29)),
        (date(2026, 12, 31), date(2027, 1, 3), date(2026, 12, 31)),
    ],
)
def test_a_week_ends_on_sunday_and_a_month_on_its_last_day(on, week, month):
    assert (end_of_week(on), end_of_month(on)) == (week, month)


@pytest.mark.parametrize(
    ("text", "parts"),
    [("14 Mill Lane", ("14", "Mill Lane")), ("Mill", ("", "Mill")), ("14b", ("", "14b")), ("", ("", ""))],
)
def test_an_address_begins_with_its_house_number_where_it_has_one(text, parts):
    assert house_and_street(text) == parts


def test_where_a_page_ends_comes_back_from_its_address_and_nothing_else_does():
    ids = [m.read_id(m.new_id()) for _ in range(4)]
    edge = DueEdge(late=True, on=date(2026, 9, 3), key=(ids[0], ids[1], "re-evaluate-2", ids[2], ids[3]))
    assert edge_of(edge_text(edge)) == edge
    assert [edge_of(each) for each in ("", "late~soon~a~b~c~d~e", edge_text(edge)[:-1])] == [None] * 3


def test_the_chart_counts_what_is_late_first_then_week_by_week_and_a_proposed_day_that_is_over_in_this_one():
    on = date(2026, 9, 4)
    counts = [
        DayCount(on=date(2026, 8, 1), late=True, items=3),
        DayCount(on=date(2026, 8, 1), late=False, items=1),
        DayCount(on=date(2026, 9, 6), late=False, items=2),
        DayCount(on=date(2026, 9, 7), late=False, items=4),
        DayCount(on=date(2026, 10, 5), late=False, items=5),
        DayCount(on=date(2030, 1, 1), late=False, items=9),
    ]
    found = weeks_of(counts, on=on)
    told = [(each.monday, each.items, each.high) for each in found.bars if each.items]
    assert told == [
        (None, 3, 55),
        (date(2026, 8, 31), 3, 55),
        (date(2026, 9, 7), 4, 73),
        (date(2026, 10, 5), 5, 92),
    ]
    assert (found.late, found.soon, found.after) == (3, 7, 14)
