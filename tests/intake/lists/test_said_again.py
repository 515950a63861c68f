"""A list that speaks about leaks in the book: what it says again, what it says otherwise, what it adds."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from repairlog.intake.lists import Tally
from repairlog.records.tables import worked
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS
from tests.makers import book as m
from tests.makers.book import Book
from tests.makers.old_lists import COLUMNS, put, taken

FINE = "700001,14 QUARRY LN,,HARROWSEDGE,4/10/16,3,2,4/11/16,"
MEANT = COLUMNS + '[repair]\nlasting = "permanent"\noutcome = "tight"\nmethod = "clamp"\n'


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "list.csv"


def counts(of: Tally) -> tuple[int, int, int]:
    return of.taken, of.already_here, of.refused


def otherwise(of: Tally) -> tuple[str, str, str, str]:
    """Column and kind of the one thing that is said otherwise, what stands and what came."""
    (refusal,) = of.complaints
    assert (refusal.code, refusal.line, of.refused) == ("says_otherwise", 2, 1)
    facts = refusal.facts
    return refusal.column, str(facts["kind"]), str(facts["stands"]), str(facts["came"])


def entries(book: Book, kind: str) -> list[str]:
    """Ids of the entries of that kind, in the order of the journal."""
    found = select(ENTRY.c.id).where(ENTRY.c.kind == kind).order_by(ENTRY.c.journal_index)
    with book.store.reading() as tx:
        return [str(id) for id in tx.connection.execute(found).scalars()]


def notes(book: Book) -> list[str]:
    with book.store.reading() as tx:
        return list(tx.connection.execute(select(OF_KIND["note"].c.text)).scalars())


def leak(book: Book) -> tuple[str, str, int]:
    """Status, number and attempts of the one leak."""
    columns = (worked.LEAK.c.status, worked.LEAK.c.number, worked.LEAK.c.attempts)
    with book.store.reading() as tx:
        status, number, attempts = tx.connection.execute(select(*columns)).one()
        return status, number, attempts


def by_crew(book: Book, *said: Any, **fields: Any) -> str:
    """A leak that the crew opened on the day of the list, with the list's number; more entries by the supervisor."""
    opened = m.leak(book, happened="2016-04-10 07:30", number="700001", detected_by="odor_call", **fields)
    book.say(opened)
    for each in said:
        book.say(each(opened["id"]))
    return str(opened["id"])


@pytest.mark.parametrize(
    ("came", "expected"),
    [
        (FINE.replace(",3,2,", ",2,2,"), ("Class in May", "grade_set", "2016-05-15, 3", "2016-05-15, 2")),
        (
            FINE.replace("4/11/16", "4/12/16"),
            ("Repaired", "leak_ended", "2016-04-11, repaired", "2016-04-12, repaired"),
        ),
        (FINE.replace("4/10/16", "4/9/16"), ("Reported", "leak_opened", "2016-04-10", "2016-04-09")),
    ],
)
def test_another_grade_end_or_report_of_the_same_leak_sends_the_row_back_and_says_both(
    book: Book, file: Path, came: str, expected: tuple[str, str, str, str]
) -> None:
    taken(book, put(file, [FINE]))
    before = entries(book, "grade_set"), entries(book, "leak_ended"), entries(book, "note")
    tally = taken(book, put(file, [came]))
    assert otherwise(tally) == expected
    assert (entries(book, "grade_set"), entries(book, "leak_ended"), entries(book, "note")) == before


def test_another_address_is_kept_as_a_note_once(book: Book, file: Path) -> None:
    taken(book, put(file, [FINE]))
    other = put(file, [FINE.replace("14 QUARRY LN", "16 Quarry Ln").replace("HARROWSEDGE", "NETHERWICK")])
    assert counts(taken(book, other)) == (1, 0, 0)
    assert notes(book) == ["An old list of 2016-12-31 says: Where: 16 Quarry Ln; Town: NETHERWICK"]
    assert counts(taken(book, other)) == (0, 1, 0)


def test_a_cell_that_is_left_blank_says_nothing_else(book: Book, file: Path) -> None:
    taken(book, put(file, [FINE]))
    assert counts(taken(book, put(file, ["700001,,,,,,,4/11/16,"]))) == (0, 1, 0)


def test_what_was_corrected_since_is_not_said_again(book: Book, file: Path) -> None:
    put(file, [FINE])
    taken(book, file)
    first = entries(book, "grade_set")[0]
    book.say(m.corrected(first, ("grade", "1")))
    book.say(m.corrected(entries(book, "leak_opened")[0], ("street", "Tanners Row")))
    assert counts(taken(book, file)) == (0, 1, 0)
    assert counts(taken(book, put(file, [FINE.replace(",3,2,", ",1,2,")]))) == (0, 1, 0)


def test_what_was_made_void_stays_so_and_is_not_taken_in_again(book: Book, file: Path) -> None:
    taken(book, put(file, [FINE]))
    book.say(m.void(entries(book, "leak_ended")[0]))
    assert counts(taken(book, file)) == (0, 1, 0)
    assert leak(book)[0] == "open"


def test_a_leak_whose_opening_was_made_void_is_opened_anew(book: Book, file: Path) -> None:
    taken(book, put(file, [FINE]))
    for again in (1, 2):
        book.say(m.void(entries(book, "leak_opened")[-1]))
        assert counts(taken(book, file)) == (1, 0, 0)
        assert counts(taken(book, file)) == (0, 1, 0)
        assert len(entries(book, "leak_opened")) == again + 1


def test_a_leak_that_a_crew_opened_with_that_number_is_found_and_added_to(book: Book, file: Path) -> None:
    id = by_crew(book, house_number="14", street="Quarry Ln")
    assert counts(taken(book, put(file, [FINE]))) == (1, 0, 0)
    assert entries(book, "leak_opened") == [id]
    assert leak(book) == ("ended", "700001", 0)
    assert counts(taken(book, file)) == (0, 1, 0)


def test_a_leak_is_found_by_a_number_that_it_was_given_otherwise(book: Book, file: Path) -> None:
    outside = {"outside_numbers": [{"key": "o1", "what": "list", "number": "700001"}]}
    opened = m.leak(book, happened="2016-04-10", house_number="14", street="Quarry Ln") | outside
    book.say(opened)
    assert counts(taken(book, put(file, [FINE]))) == (1, 0, 0)
    assert entries(book, "leak_opened") == [opened["id"]]
    assert counts(taken(book, file)) == (0, 1, 0)


def test_a_number_of_another_sort_is_not_the_list_s(book: Book, file: Path) -> None:
    outside = {"outside_numbers": [{"key": "o1", "what": "premise", "number": "700001"}]}
    book.say(m.leak(book, happened="2016-04-10") | outside)
    taken(book, put(file, [FINE]))
    assert len(entries(book, "leak_opened")) == 2


def test_a_crew_s_own_repair_and_end_of_that_day_are_here_already(book: Book, file: Path) -> None:
    attempt = m.attempt("", happened="2016-04-11 10:02", method="Clamp")
    id = by_crew(
        book,
        lambda leak: attempt | {"leak": leak},
        lambda leak: m.ending(leak, [attempt["id"]], happened="2016-04-11 10:30"),
        lambda leak: m.grade(leak, happened="2016-05-15", grade="3"),
        lambda leak: m.grade(leak, happened="2016-04-11 11:00", grade="2"),
        house_number="14",
        street="Quarry Ln",
    )
    assert counts(taken(book, put(file, [FINE]), columns=MEANT)) == (0, 1, 0)
    assert (entries(book, "leak_opened"), leak(book)[2]) == ([id], 1)


def test_the_list_s_ending_names_the_crew_s_own_attempt(book: Book, file: Path) -> None:
    attempt = m.attempt("", happened="2016-04-11 10:02", method="clamp")
    by_crew(book, lambda leak: attempt | {"leak": leak}, house_number="14", street="Quarry Ln")
    assert counts(taken(book, put(file, [FINE]), columns=MEANT)) == (1, 0, 0)
    assert leak(book) == ("ended", "700001", 1)
    with book.store.reading() as tx:
        named = tx.connection.execute(select(OF_ROWS["leak_ended", "attempts"].c.attempt_id)).scalars().all()
    assert list(map(str, named)) == [attempt["id"]]


def test_an_ending_by_the_crew_on_another_day_sends_the_row_back(book: Book, file: Path) -> None:
    by_crew(
        book,
        lambda leak: m.ending(leak, [], how="no_reading", happened="2016-04-12"),
        house_number="14",
        street="Quarry Ln",
    )
    assert otherwise(taken(book, put(file, [FINE]))) == (
        "Repaired",
        "leak_ended",
        "2016-04-12, no_reading",
        "2016-04-11, repaired",
    )


def test_a_source_that_the_crew_described_otherwise_sends_the_row_back(book: Book, file: Path) -> None:
    by_crew(book, lambda leak: m.source(leak, happened="2016-04-10"), house_number="14", street="Quarry Ln")
    same = f'{COLUMNS}[constants]\nmaterial = "steel"\npart = "service"\n'
    assert counts(taken(book, put(file, [FINE]), columns=same)) == (1, 0, 0)
    other = f'{COLUMNS}[constants]\nmaterial = "copper"\n'
    kind, stands = otherwise(taken(book, file, columns=other))[1:3]
    assert (kind, stands) == ("source_added", "2016-04-10, service, threaded tee, steel, 3/4 in, 45 psi")


def test_a_report_that_was_on_or_before_a_day_takes_a_day_before_it_as_a_note(book: Book, file: Path) -> None:
    taken(book, put(file, [FINE.replace("4/10/16", "")]))
    assert counts(taken(book, put(file, [FINE]))) == (1, 0, 0)
    assert notes(book) == ["An old list of 2016-12-31 says: Reported: 2016-04-10"]
    assert otherwise(taken(book, put(file, [FINE.replace("4/10/16", "1/1/17")])))[2:] == ("2016-12-31", "2017-01-01")


def test_the_leak_that_the_list_opened_comes_before_one_that_others_give_its_number(book: Book, file: Path) -> None:
    put(file, [FINE])
    for area in (book.area, book.other_area):  # the second leak cannot bear the number any more
        taken(book, file, area=area)
    outside = {"outside_numbers": [{"key": "o1", "what": "list", "number": "700001"}]}
    book.say(m.leak(book, happened="2016-04-10", area=book.other_area) | outside)
    assert counts(taken(book, file, area=book.other_area)) == (0, 1, 0)


def test_the_same_grade_on_a_day_that_is_not_known_is_another_fact(book: Book, file: Path) -> None:
    by_crew(book, lambda leak: m.grade(leak, happened="2016-12-31", grade="2"), house_number="14", street="Quarry Ln")
    columns = COLUMNS.replace('on_column = "Repaired"', 'on_column = "Remark"')
    columns = columns.replace('note = "Remark"\n', "")
    put(file, [FINE.replace(",3,2,", ",,2,")])
    taken(book, file, columns=columns)
    assert len(entries(book, "grade_set")) == 2


def test_another_method_on_that_day_is_another_attempt(book: Book, file: Path) -> None:
    attempt = m.attempt("", happened="2016-04-11 10:02", method="wrap")
    by_crew(book, lambda leak: attempt | {"leak": leak}, house_number="14", street="Quarry Ln")
    assert counts(taken(book, put(file, [FINE]), columns=MEANT)) == (1, 0, 0)
    assert leak(book) == ("ended", "700001", 2)


def test_an_ending_that_the_crew_made_void_does_not_stand_in_the_way(book: Book, file: Path) -> None:
    end = m.ending("", [], how="no_reading", happened="2016-04-12")
    by_crew(book, lambda leak: end | {"leak": leak}, house_number="14", street="Quarry Ln")
    book.say(m.void(end["id"]))
    assert counts(taken(book, put(file, [FINE]))) == (1, 0, 0)


def test_another_end_in_place_of_one_that_was_made_void_sends_the_row_back(book: Book, file: Path) -> None:
    taken(book, put(file, [FINE]))
    book.say(m.void(entries(book, "leak_ended")[0]))
    told = otherwise(taken(book, put(file, [FINE.replace("4/11/16", "4/12/16")])))
    assert told == ("Repaired", "leak_ended", "2016-04-11, repaired", "2016-04-12, repaired")


@pytest.mark.parametrize(("cells", "grades"), [("3,3", 1), ("3,2", 2)])
def test_the_same_grade_of_one_day_in_two_columns_is_one(book: Book, file: Path, cells: str, grades: int) -> None:
    columns = COLUMNS.replace('on_column = "Repaired"', "on = 2016-05-15")
    put(file, [FINE.replace("3,2", cells)])
    assert counts(taken(book, file, columns=columns)) == (1, 0, 0)
    assert len(entries(book, "grade_set")) == grades
    assert counts(taken(book, file, columns=columns)) == (0, 1, 0)


def test_a_listed_attempt_is_on_the_listed_source(book: Book, file: Path) -> None:
    columns = f'{MEANT}[constants]\nmaterial = "steel"\n'
    tally = taken(book, put(file, [FINE]), columns=columns)
    assert (counts(tally), dict(tally.raised), leak(book)) == ((1, 0, 0), {}, ("ended", "700001", 1))


def test_what_another_took_in_meanwhile_is_here_already(book: Book, file: Path) -> None:
    put(file, [FINE.replace("4/11/16", "4/9/16")])
    tally = taken(book, file, meanwhile=lambda: taken(book, file))
    assert (counts(tally), dict(tally.raised)) == ((0, 1, 0), {})


def test_what_another_said_otherwise_meanwhile_sends_that_row_back_alone(book: Book, tmp_path: Path) -> None:
    theirs = put(tmp_path / "theirs.csv", [FINE.replace(",3,2,", ",2,2,")])
    ours = put(tmp_path / "ours.csv", [FINE, FINE.replace("700001", "700002")])
    tally = taken(book, ours, meanwhile=lambda: taken(book, theirs))
    assert counts(tally) == (1, 0, 1)
    assert [(each.line, each.code) for each in tally.complaints] == [(2, "changed_meanwhile")]
