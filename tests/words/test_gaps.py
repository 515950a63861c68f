"""Every gap is said with its facts and with what would settle it."""

import pytest

from repairlog.words.gaps import sentence
from tests.words.spoken import ending_reasons, gap_codes

FACTS = {
    name: f"<{name}>"
    for name in (
        *(
            "reported_on",
            "done_on",
            "lot_number",
            "used_on",
            "expires_on",
            "left_on",
            "scrapped_on",
            "retired_on",
            "reviewed_on",
            "received_on",
        ),
        *("first_on", "last_on", "again_on", "named", "grade", "field", "kind", "person", "task", "mark"),
        *("tested_on", "repaired_on", "ended_on", "this", "other", "before"),
        *("called", "says", "clause", "rulebook"),
        *("dug_on", "from_on", "until_on", "backfilled_on"),
        *("step", "typed", "other_step", "other_typed", "days", "first"),
        *("handed_on", "hours"),
    )
}


@pytest.mark.parametrize("code", sorted(gap_codes()))
def test_a_gap_says_what_does_not_hold_up_and_what_would_settle_it(code: str) -> None:
    said = sentence(code, FACTS | {"why": "no_attempt_named", "review": "waiting"})
    assert (said[-1], said.count(". ") >= 1, "{" in said) == (".", True, False)


def test_every_gap_of_the_trade_is_found() -> None:
    assert len(gap_codes()) > 13
    assert {"repaired_before_reported", "ended_before_reported", "expired_lot_used"} <= gap_codes()


@pytest.mark.parametrize("why", sorted(ending_reasons()))
def test_what_an_ending_lacks_is_said_in_words(why: str) -> None:
    said = sentence("ending_does_not_hold", {"why": why})
    assert (why in said, "stays open: " in said, "stays open: ." in said) == (False, True, False)


def test_several_reasons_are_said_one_after_the_other() -> None:
    assert sentence("ending_does_not_hold", {"why": "attempt_not_tight, attempt_temporary"}) == (
        "The leak was said to be ended, and stays open: a repair that is named is not tight,"
        " a repair that is named is temporary."
        " End it again with a tight, permanent attempt on each source."
    )


@pytest.mark.parametrize(
    ("review", "said"),
    [
        ("waiting", "The leak is ended by a repair that no supervisor has accepted."),
        ("returned", "The leak is ended by a repair that a supervisor returned."),
    ],
)
def test_a_repair_that_nobody_accepted_is_told_from_one_that_was_returned(review: str, said: str) -> None:
    assert sentence("repair_not_accepted", {"review": review}).startswith(said)


def test_an_expired_lot_is_said_with_its_days() -> None:
    facts = {"lot_number": "W-0118", "expires_on": "2026-09-30", "used_on": "2026-10-01"}
    assert sentence("expired_lot_used", facts) == (
        "Lot W-0118 was used on 2026-10-01 and was to be used until 2026-09-30."
        " Correct the lot or its day, or write down why it was good, or repair again."
    )


def test_a_row_that_names_nothing_says_so() -> None:
    assert sentence("lot_not_on_the_books", {"named": ""}).startswith("The lot “nothing” is not on the books.")


def test_braces_in_what_a_person_named_are_said_as_they_are() -> None:
    assert "“{why}”" in sentence("lot_not_on_the_books", {"named": "{why}"})


def test_times_of_a_call_out_of_order_are_said_as_typed_with_their_steps() -> None:
    times = {"typed": "2026-03-03 07:40", "other_typed": "2026-03-03 07:44"}
    assert sentence("call_times_out_of_order", {"step": "call_on_site", "other_step": "call_received"} | times) == (
        "“Someone is on site at the call” stands at 2026-03-03 07:40, before “A call is received” at 2026-03-03 07:44."
        " Correct whichever time is wrong."
    )


@pytest.mark.parametrize(("days", "said"), [("1", "1 day after"), ("2", "2 days after")])
def test_how_long_after_is_said_in_days(days: str, said: str) -> None:
    assert said in sentence("typed_long_after", {"days": days, "hours": "168"})


def test_a_second_outcome_is_said_beside_the_first() -> None:
    assert "(“Nothing found”)" in sentence("call_ended_twice", {"first": "nothing_found"})
