"""What is said of a gap: what in the record does not hold up, and what would settle it."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.words import _


def sentence(code: str, facts: Mapping[str, str]) -> str:
    """What does not hold up and what would settle it, in two sentences; KeyError for an unknown code."""
    told = {"named": "", "why": "", **facts}
    told["why"] = _reasons(told["why"])
    told["review"] = _reviews().get(told.get("review", ""), "")
    told["named"] = told["named"] or _("nothing")
    return {**_of_days(), **_of_endings(), **_of_books(), **_of_entries()}[code].format_map(told)


def _of_days() -> dict[str, str]:
    return {
        "repaired_before_reported": _(
            "The repair stands on {done_on}, before the leak was reported on {reported_on}."
            " Correct whichever day is wrong."
        ),
        "ended_before_reported": _(
            "The leak ended on {done_on}, before it was reported on {reported_on}. Correct whichever day is wrong."
        ),
        "expired_lot_used": _(
            "Lot {lot_number} was used on {used_on} and was to be used until {expires_on}."
            " Correct the lot or its day, or write down why it was good, or repair again."
        ),
        "sent_after_leaving": _(
            "It came in after the sender's last day here, {left_on}. Have someone who was there look it over."
        ),
    }


def _of_endings() -> dict[str, str]:
    return {
        "ending_does_not_hold": _(
            "The leak was said to be ended, and stays open: {why}."
            " End it again with a tight, permanent attempt on each source."
        ),
        "ended_twice": _(
            "The leak was ended on {first_on} and again on {again_on}; the earlier counts."
            " Make the one that is wrong void."
        ),
        "repair_not_accepted": _(
            "The leak is ended by a repair that {review}. Have a supervisor accept it, or return it and repair again."
        ),
    }


def _of_books() -> dict[str, str]:
    return {
        "lot_not_on_the_books": _(
            "The lot “{named}” is not on the books. Receive it in stores, and correct the entry to name it."
        ),
        "person_not_on_the_books": _(
            "The person “{named}” is not on the books. Add the person, and correct the entry to name them."
        ),
        "grade_not_known": _("No rank of the grade “{grade}” is known. Correct the entry to say its rank."),
    }


def _of_entries() -> dict[str, str]:
    return {
        "measure_kept_as_text": _(
            "A measure was kept as it was written, since it could not be read ({field})."
            " Correct it to a number and its unit."
        ),
        "attempt_not_of_this_leak": _(
            "It names a repair that is not among this leak's. Correct it to name the right one, or make it void."
        ),
        "stands_on_a_leak_opened_in_error": _(
            "It stands on a leak that was opened in error. Correct it to name the right leak, or make it void too."
        ),
    }


def _reviews() -> dict[str, str]:
    return {"waiting": _("no supervisor has accepted"), "returned": _("a supervisor returned")}


def _reasons(codes: str) -> str:
    words = {
        "no_attempt_named": _("no repair is named"),
        "attempt_not_there": _("a repair that is named is void or not of this leak"),
        "attempt_not_tight": _("a repair that is named is not tight"),
        "attempt_temporary": _("a repair that is named is temporary"),
        "source_without_attempt": _("a source has no repair"),
    }
    return ", ".join(words[code] for code in codes.split(", ") if code)
