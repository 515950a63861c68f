"""Blank forms as pages: the way to them from a crew page, and what stands on one."""

from __future__ import annotations

from repairlog.web.crew.paper import FORMS
from tests.makers.site import site
from tests.web.everyone.read import link, text_of


def test_a_crew_page_leads_to_the_blank_forms_and_those_to_each_of_them(book, leak):
    crew = site(book).client(book.crew)
    assert link(crew.get(f"/leaks/{leak}/visit").text, "blank forms to print") == "/paper"
    page = crew.get("/paper").text
    assert [kind for kind in FORMS if f'href="/paper/{kind}"' not in page] == []


def test_every_form_begins_with_the_caution_and_ends_with_who_did_it_and_who_typed_it(book):
    crew = site(book).client(book.crew)
    for kind in FORMS:
        page = text_of(crew.get(f"/paper/{kind}").text.partition("<main")[2])
        assert 0 < page.index("Not in a gas atmosphere") < 40
        assert page.index("Operating area") < page.index("Who did it") < page.index("Typed into the book by")
        assert "blank form, version 1" in page


def test_there_is_no_blank_form_of_what_a_crew_does_not_enter(book):
    crew = site(book).client(book.crew)
    statuses = {crew.get(f"/paper/{kind}").status_code for kind in ("corrected", "lot_received", "attached", "nothing")}
    assert statuses == {404}
