"""A form names those who ask for a field where their rules hold, and shows what they ask for before its fold.

Who asks for which field: `repairlog/entries/` says it of each (the tables of trade/rules.md section 4)."""

import re
from dataclasses import replace

from repairlog.entries.fields import AUTHORITIES
from repairlog.trade.rulebook.kept import Rulebooks
from tests.makers import book as m
from tests.makers.site import site


def adopt(book: m.Book, *, rulebook: str, from_on: str = "2026-01-01") -> None:
    digest = book.store.rulebooks.offered()[rulebook].digest
    book.say(m.adopted(book.area, rulebook=rulebook, digest=digest, from_on=from_on))


def before_the_fold(text: str) -> dict[str, str]:
    """Who asks for what, by label, of the boxes above the first fold of a page."""
    shown = text[text.index('id="entering"') : text.index('<details class="fold')]
    return dict(
        re.findall(r"(?:<label[^>]*>|<legend>)([^<]+?) <small class=\"asked\">asked for: ([^<]*)</small>", shown)
    )


def test_where_nothing_is_adopted_all_who_may_ask_are_named_and_rare_boxes_lie_behind_the_fold(book: m.Book) -> None:
    shown = before_the_fold(site(book).client(book.crew).get("/leaks/new").text)
    assert shown["Street"] == "guide, MA, NH, NJ, NY, TN, TX, WA"
    assert not {"On federal land", "Sheet or square of the map"} & shown.keys()


def test_what_the_adopted_rules_ask_for_stands_before_the_fold_and_names_them_alone(book: m.Book) -> None:
    adopt(book, rulebook="us-guide")
    shown = before_the_fold(site(book).client(book.crew).get("/leaks/new").text)
    assert shown["Street"] == "guide"
    assert shown["On federal land"] == "federal"  # the guide stands upon the federal code
    assert shown["Sheet or square of the map"] == "guide"
    assert not {"County", "Postal code"} & shown.keys()  # New Jersey's alone


def test_another_authority_asks_for_other_fields(book: m.Book, leak: str) -> None:
    adopt(book, rulebook="us-ma")
    client = site(book).client(book.crew)
    assert before_the_fold(client.get("/leaks/new").text)["Street"] == "MA"
    visit = client.get(f"/leaks/{leak}/visit").text
    assert before_the_fold(visit) == {}  # what is asked of a visit there stands after a fold of its own
    assert "Area over which gas was read" in re.sub(r'<details class="fold.*?</details>', "", visit, flags=re.S)
    assert set(re.findall(r"asked for: ([^<]*)<", visit)) == {"MA"}


def test_rules_that_hold_from_tomorrow_ask_for_nothing_yet(book: m.Book) -> None:
    adopt(book, rulebook="us-guide", from_on="2999-01-01")
    shown = before_the_fold(site(book).client(book.crew).get("/leaks/new").text)
    assert shown["Street"].count(",") == len(AUTHORITIES) - 2  # all but the federal code


def test_a_rulebook_that_nobody_can_open_takes_no_form_away(book: m.Book) -> None:
    adopt(book, rulebook="us-guide")
    pages = site(book)
    client = pages.client(book.crew)
    pages.app.extensions["repairlog.store"] = replace(book.store, rulebooks=Rulebooks())
    assert before_the_fold(client.get("/leaks/new").text)["Street"] == "guide, MA, NH, NJ, NY, TN, TX, WA"
