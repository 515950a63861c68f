"""The whole trip on pages alone: a leak is opened, looked at, graded, repaired twice, accepted and ended."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select
from werkzeug.test import TestResponse

from repairlog.access import EVERYTHING
from repairlog.records import rebuild
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.queries.sources import attempts_of
from repairlog.records.store import Store
from repairlog.records.tables.metadata import METADATA
from repairlog.records.verify import verify
from tests.makers import book as m
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.site import site

EARLIER = "2026-03-05"


def leak_in(saved: TestResponse) -> str:
    assert saved.status_code == 303, saved.text
    return saved.location.partition("/leaks/")[2].partition("?")[0]


def entry_in(saved: TestResponse) -> str:
    assert saved.status_code == 303, saved.text
    return saved.location.partition("saved=")[2]


def test_a_leak_is_opened_looked_at_graded_repaired_accepted_and_ended_on_pages(store: Store) -> None:
    book = m.opened(store)
    pages = site(book)
    crew, supervisor = pages.client(book.crew), pages.client(book.supervisor)
    where = {"leak__house_number": "14", "leak__street": "Quarry Lane", "leak__town": "Harrowsedge"}
    opened = fill_in(crew, "/leaks/new", **where, leak__happened=[EARLIER, "07:52"], leak__detected_by="odor_call")
    at = f"/leaks/{leak_in(opened)}"
    visit = form_page(crew.get(f"{at}/visit?purpose=first_investigation"))
    looked = {"visit__places__0__kind": "bar_hole", "visit__places__0__label": "over the service"}
    read = {"visit__readings__0__value": "60 %LEL", "visit__readings__0__kind": "sustained"}
    entry_in(press_on(crew, f"{at}/visit", visit, visit__happened=[EARLIER, "08:26"], **looked, **read))
    entry_in(fill_in(crew, f"{at}/grade", grade__happened=[EARLIER, "08:40"], grade__grade="2"))
    source = {"source__part": "service", "source__component": "threaded tee", "source__size": "3/4 in"}
    entry_in(fill_in(crew, f"{at}/source", source__happened=[EARLIER, "09:05"], **source))
    first = {"repair__method": "filler", "repair__lasting": "permanent", "repair__outcome": "not_tight"}
    failed = entry_in(fill_in(crew, f"{at}/repair", repair__happened=[EARLIER, "09:15"], **first))
    again = form_page(crew.get(f"{at}/repair"))
    second = {
        "repair__method": "wrap",
        "repair__lasting": "permanent",
        "repair__outcome": "not_tested",
        "repair__pressure_found": "45 psi",
        "repair__materials__0__named": "W-0118",
        "repair__materials__0__used": "2 rolls",
        "test__kind_of_test": "soap",
        "test__result": "tight",
        "test__pressure": "45 psi",
    }
    wrong = press_on(
        crew, f"{at}/repair", again, repair__happened=[EARLIER, "10:02"], **second | {"repair__hole_size": "1/16 inn"}
    )
    assert wrong.status_code == 422
    tight = entry_in(press_on(crew, f"{at}/repair", form_page(wrong), repair__hole_size="1/16 in"))
    saved = crew.get(f"{at}?saved={tight}").text
    assert "Saved:" in saved
    review = f"{at}/attempts/{tight}/review"
    entry_in(fill_in(supervisor, review, review__outcome="accepted", review__happened=[EARLIER, "10:22"]))
    entry_in(fill_in(supervisor, f"{at}/end", ending__how="repaired", ending__happened=[EARLIER, "10:23"]))
    _says_so(store, leak=UUID(leak_in(opened)), attempts=[failed, tight])


def _says_so(store: Store, *, leak: UUID, attempts: list[str]) -> None:
    with store.reading() as tx:
        row = leak_with_id(EVERYTHING, tx, leak=leak)
        done = [each.attempt for each in attempts_of(EVERYTHING, tx, leak=leak)]
        gaps = {each.code for each in tx.connection.execute(select(METADATA.tables["gap"]))}
        left = list(tx.connection.execute(select(METADATA.tables["unfinished"])))
    assert row is not None
    assert (row.number, row.status, row.ended_how, row.ended_on, row.grade) == (
        "ES-26-0001",
        "ended",
        "repaired",
        EARLIER,
        "2",
    )
    assert [(str(each.id), each.number, each.outcome, each.review) for each in done] == [
        (attempts[0], 1, "not_tight", "waiting"),
        (attempts[1], 2, "tight", "accepted"),
    ]
    assert (gaps, left) == ({"typed_long_after"}, [])  # it is long since by the clock of the machine
    assert (list(verify(store).problems), list(rebuild.check(store).differences)) == ([], [])
