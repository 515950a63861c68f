"""What is told where something went wrong: what, and what to do; the way on; what was typed; never a trace."""

from __future__ import annotations

import json
import re

import pytest
from sqlalchemy.exc import OperationalError

from repairlog.access import Refused
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.intake import Complaint, NotUnderstood, WaitsFor
from repairlog.records.post import Conflict
from repairlog.records.store import Away, Busy, NotReady
from repairlog.records.tables.journal import JOURNAL
from repairlog.web.frame.compared import compared
from tests.makers import book as m
from tests.makers.cells import do
from tests.makers.copies import rows
from tests.makers.full_book import filled
from tests.makers.trial import forms_of, token_of

HEADING = re.compile(r"<h1>(.*?)</h1>")
ROW = re.compile(r'<tr><th scope="row">(.*?)</th>(.*?)</tr>', re.S)
CELL = re.compile(r"<td[^>]*>(.*?)</td>", re.S)
SAME = re.compile(r"<dt>(.*?)</dt><dd[^>]*>(.*?)</dd>")

RAISED = {
    "refused": (Refused("repair_reviewed", position=0), 403, "a repair is accepted or returned"),
    "not understood": (
        NotUnderstood([Complaint(entry=0, field="street", code="too_long", facts={"got": "300", "longest": "200"})]),
        422,
        "The text has 300 characters; 200 is the most.",
    ),
    "waits": (WaitsFor(frozenset()), 202, "It names something that is not in the book yet."),
    "busy": (Busy(), 503, "The book is being written by others."),
    "away": (Away(OperationalError("", {}, Exception())), 503, "The database cannot be reached just now."),
    "not ready": (NotReady("no_book"), 503, "The database holds no book yet."),
    "fault": (ZeroDivisionError("the gauge of Quarry Lane"), 500, "Something went wrong on our side."),
}


def post(trial, client, **fields):
    return client.post("/trial", data={"csrf_token": token_of(client), **fields})


@pytest.mark.parametrize("raised", RAISED)
def test_what_leaves_a_page_is_told_on_a_page_with_the_way_to_the_others(trial, book, raised):
    error, status, told = RAISED[raised]
    trial.raises.append(error)
    answer = trial.site.client(book.crew).get("/trial")
    assert (answer.status_code, told in answer.text) == (status, True)
    assert (">Leaks</a>" in answer.text, "Traceback" in answer.text) == (True, False)


def test_who_is_not_signed_in_is_told_without_the_way_to_the_other_pages(trial):
    answer = trial.site.app.test_client().get("/no/such/page")
    assert (answer.status_code, ">Leaks</a>" in answer.text) == (404, False)
    assert HEADING.search(answer.text)[1] == "There is no such page."


def test_a_method_that_a_page_does_not_take_is_told_with_those_it_does(trial, book):
    answer = trial.site.client(book.crew).delete("/leaks")
    assert (answer.status_code, set(answer.headers["Allow"].split(", "))) == (405, {"GET", "HEAD", "OPTIONS"})
    assert HEADING.search(answer.text)[1] == "This page does not take that."


@pytest.mark.parametrize("size", [4 * 1024 * 1024 + 1])
def test_more_than_one_request_may_bring_is_told(trial, book, size):
    answer = post(trial, trial.site.client(book.crew), remarks="x" * size)
    assert (answer.status_code, trial.took) == (413, [])
    assert "most browsers still hold what was typed there" in answer.text


@pytest.mark.parametrize(("raised", "status"), [("busy", 503), ("away", 503), ("fault", 500)])
def test_where_nothing_was_saved_what_was_typed_is_on_the_page_and_can_be_sent_again(trial, book, raised, status):
    client = trial.site.client(book.crew)
    trial.raises.append(RAISED[raised][0])
    answer = post(trial, client, street="Quarry Lane")
    again = dict(forms_of(answer.text)["/trial"])
    assert (answer.status_code, again["street"], trial.took) == (status, "Quarry Lane", [])
    trial.raises.clear()
    assert client.post("/trial", data=again).text == "taken"
    assert trial.took == [[("street", "Quarry Lane")]]


def test_a_busy_book_says_when_to_come_again(trial, book):
    trial.raises.append(Busy())
    assert trial.site.client(book.crew).get("/trial").headers["Retry-After"] == "5"


def test_a_fault_is_written_down_here_and_told_to_nobody(trial, book, caplog):
    trial.raises.append(RAISED["fault"][0])
    answer = trial.site.client(book.crew).get("/trial")
    assert ("Quarry Lane" in answer.text, "Quarry Lane" in caplog.text) == (False, True)


@pytest.mark.parametrize("address", ["/leaks", "/trial", "/no/such/page"])
def test_a_fault_is_told_where_the_book_itself_cannot_be_asked(trial, book, address):
    client = trial.site.client(book.crew)
    do(book.store, "DROP TABLE session")
    answer = client.get(address)
    assert (answer.status_code, HEADING.search(answer.text)[1]) == (500, "Something went wrong on our side.")


def conflict_of(book, entry, *, by, **other) -> Conflict:
    """What the door says to the same id with other content."""
    book.say(entry, by=by)
    with pytest.raises(Conflict) as raised:
        book.say({**entry, **other}, by=by)
    return raised.value


def test_a_conflict_shows_both_texts_side_by_side_field_by_field_in_plain_words(trial, book):
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], people=[{"key": "p1", "named": "J. Moss", "task": "install clamp"}])
    book.say(leak)
    other = {"outcome": "not_tight", "hole_size": "1/8 in", "remarks": "<i>wet</i>"}
    trial.raises.append(conflict_of(book, attempt, by=book.crew, **other))
    answer = trial.site.client(book.crew).get("/trial")
    assert answer.status_code == 409
    assert "An entry of this id stands already and says something else." in answer.text
    assert "<h2>A repair is attempted</h2>" in answer.text
    assert {label: CELL.findall(cells) for label, cells in ROW.findall(answer.text)} == {
        "Tight or not, in the crew&#39;s word": ["Tight", "Not tight"],
        "Size of the hole": ["1/16 in", "1/8 in"],
        "What else is to be known": ["nothing", "&lt;i&gt;wet&lt;/i&gt;"],
    }
    same = dict(SAME.findall(answer.text))
    assert same["Who did which covered task, p1: Covered task"] == "install clamp"
    assert same["Who typed it"] == "M. Aldous"
    assert not {"kind", "version", "id", "Leak", "Size of the hole"} & set(same)


def test_of_a_conflict_in_an_area_that_the_asker_does_not_see_what_came_is_shown_alone(trial, book):
    leak = m.leak(book, area=book.other_area)
    conflict = conflict_of(book, leak, by=book.officer, street="Weir Street")
    trial.raises.append(Conflict(conflict.id, stands={}, came=conflict.came))
    answer = trial.site.client(book.crew).get("/trial")
    assert (answer.status_code, "Quarry Lane" in answer.text, "Weir Street" in answer.text) == (409, False, True)
    assert "it is of an area that you do not see" in answer.text


def test_a_conflict_of_private_values_alone_says_so_and_shows_none(trial, book):
    leak = m.leak(book, reporter_name="A. Caller")
    trial.raises.append(conflict_of(book, leak, by=book.crew, reporter_name="B. Caller"))
    page = trial.site.client(book.crew).get("/trial").text
    assert "They differ only in what is kept apart from the record" in page
    assert "Caller" not in page


def test_an_entry_of_every_kind_with_every_list_is_compared_in_words(sqlite_store):
    filled(sqlite_store)
    kinds = set()
    for row in rows(sqlite_store, JOURNAL):
        line = json.loads(row["line"])
        by, said = line["by"], line["said"]
        content = {"said": said, "did": by["did"], "typed": by["typed"], "written": line["moments"].get("written")}
        fields = compared(Conflict(read_id(said["id"]), stands=content, came=content), names={})
        assert all(field.label and field.came and not field.differs for field in fields)
        assert fields
        kinds.add(said["kind"])
    assert kinds == set(KINDS)
