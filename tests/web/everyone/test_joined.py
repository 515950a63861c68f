"""A joined number shows the other's sheet after its own, and says which is which; rings and chains of joins end."""

from __future__ import annotations

import itertools
import re

from repairlog.access import EVERYTHING
from repairlog.entries.ids import read_id
from repairlog.records.queries.joined import MOST, goes_on_as
from tests.makers import book as m
from tests.makers.site import Site
from tests.web.everyone.read import entries_of, text_of


def joined(book: m.Book, *numbers: str) -> list[str]:
    """Leaks in streets of these names, each joined to the next."""
    leaks = [m.leak(book, street=name) for name in numbers]
    ids = [str(leak["id"]) for leak in leaks]
    ends = [m.ending(one, how="joined", joined_to=other) for one, other in itertools.pairwise(ids)]
    book.say(*leaks, *ends)
    return ids


def test_a_joined_number_shows_its_own_entries_and_then_the_sheet_of_the_other(site: Site) -> None:
    this, other = joined(site.book, "Mill Lane", "Quarry Lane")
    site.book.say(m.note(this, text="smell in the yard"), m.note(other, text="valve is stiff"))
    page = site.client(site.book.officer).get(f"/leaks/{this}").text
    assert "ES-26-0001 is joined to ES-26-0002 and goes on there." in text_of(page)
    own, line, others = page.partition("From here on: the sheet of ES-26-0002, to which ES-26-0001 was joined.")
    assert (len(entries_of(own)), bool(line), len(entries_of(others))) == (3, True, 2)
    assert ("smell in the yard" in own, "valve is stiff" in own, "valve is stiff" in others) == (True, False, True)
    assert "/right" not in others.partition("</section>")[0], "the other is put right on its own page"
    back = site.client(site.book.officer).get(f"/leaks/{other}").text
    assert "Joined to this number: ES-26-0001" in text_of(back)
    assert 'id="goes-on"' not in back


def test_a_joined_number_offers_the_other_first_and_what_is_entered_on_itself_behind_a_fold(site: Site) -> None:
    this, _other = joined(site.book, "Mill Lane", "Quarry Lane")
    page = site.client(site.book.officer).get(f"/leaks/{this}").text
    doing = page[page.index('<nav class="doing"') :].partition("</nav>")[0]
    at_once, fold, folded = doing.partition("<details")
    assert (text_of(at_once).endswith("Open ES-26-0002"), bool(fold)) == (True, True)
    assert (at_once.count("<a "), "Add a note" in at_once, "Add a note" in folded) == (1, False, True)
    assert "Enter on ES-26-0001 all the same" in text_of(folded)


def test_a_chain_of_joins_leads_to_its_end(site: Site) -> None:
    first, *_others = joined(site.book, "A Street", "B Street", "C Street")
    page = site.client(site.book.officer).get(f"/leaks/{first}").text
    assert "ES-26-0001 \u2192 ES-26-0002 \u2192 ES-26-0003" in text_of(page)
    assert "From here on: the sheet of ES-26-0003" in page


def test_a_ring_of_joins_says_so_and_shows_no_other_sheet(site: Site) -> None:
    ids = joined(site.book, "A Street", "B Street", "C Street")
    site.book.say(m.ending(ids[2], how="joined", joined_to=ids[0]))
    for leak in ids:
        page = site.client(site.book.officer).get(f"/leaks/{leak}").text
        assert ("joined to each other in a ring" in page, 'id="goes-on"' in page) == (True, False)


def test_what_leads_into_a_ring_goes_on_as_the_number_that_stays_open(site: Site) -> None:
    ids = joined(site.book, "A Street", "B Street", "C Street")
    site.book.say(m.ending(ids[2], how="joined", joined_to=ids[1]))
    with site.book.store.reading() as tx:
        found = [goes_on_as(EVERYTHING, tx, leak=read_id(id)) for id in ids]
    assert [each and ([number for _id, number in each.under], each.ring, each.open) for each in found] == [
        (["ES-26-0002"], False, False),
        (["ES-26-0003"], True, True),
        (["ES-26-0002"], True, True),
    ]
    page = site.client(site.book.officer).get(f"/leaks/{ids[0]}").text
    assert "From here on: the sheet of ES-26-0002" in text_of(page)


def test_a_number_joined_to_one_opened_in_error_says_that_it_stays_open(site: Site) -> None:
    this, other = joined(site.book, "Mill Lane", "Quarry Lane")
    site.book.say(m.void(other))
    page = site.client(site.book.officer).get(f"/leaks/{this}").text
    assert "ES-26-0002 was opened in error, so ES-26-0001 does not go on there: it stays open." in text_of(page)
    assert 'id="goes-on"' not in page


def test_a_number_of_another_area_is_not_shown_to_who_may_not_see_it(site: Site) -> None:
    this, other = m.leak(site.book), m.leak(site.book, area=site.book.other_area)
    site.book.say(this, other, m.ending(this["id"], how="joined", joined_to=other["id"]))
    for who, shown in ((site.book.supervisor, False), (site.book.officer, True)):
        page = site.client(who).get(f"/leaks/{this['id']}").text
        assert bool(re.search("the sheet of HF-26-0001", page)) is shown


def test_a_chain_that_nobody_joins_by_hand_is_followed_so_far_and_no_further(site: Site) -> None:
    first, *_others = joined(site.book, *(f"{number} Street" for number in range(MOST + 3)))
    with site.book.store.reading() as tx:
        found = goes_on_as(EVERYTHING, tx, leak=read_id(first))
    assert found is not None
    assert (len(found.under), found.ends_at, found.ring) == (MOST, None, False)
