"""What is said of a gap: what in the record does not hold up, and what would settle it."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.entries.call import OUTCOMES
from repairlog.entries.kinds import KINDS, field_at
from repairlog.trade.typed_after import USUAL_HOURS
from repairlog.words import _, of_number
from repairlog.words.boxes import label
from repairlog.words.codes import word
from repairlog.words.days import day


def sentence(code: str, facts: Mapping[str, str]) -> str:
    """What does not hold up and what would settle it, in two sentences; KeyError for an unknown code."""
    told = {"named": "", "why": "", **facts}
    told["why"] = _reasons(told["why"])
    told["review"] = _reviews().get(told.get("review", ""), "")
    told["named"] = told["named"] or _("nothing")
    told |= {name: label(KINDS[told[name]].says) for name in ("step", "other_step") if told.get(name) in KINDS}
    told["first"] = word(told["first"]) if told.get("first") in OUTCOMES else ""
    days = int(told["days"]) if told.get("days", "").isdigit() else 0
    told["days"] = of_number("{number} day", "{number} days", number=days).format(number=days)
    every = {
        **_of_rules(),
        **_of_days(),
        **_of_moves(),
        **_of_endings(),
        **_of_books(),
        **_of_stores(),
        **_of_order(),
        **_of_times(),
        **_of_entries(),
        **_of_digs(),
        **_of_calls(),
    }
    return every[code].format_map(told)


def told(code: str, facts: Mapping[str, str], *, kind: str) -> str:
    """The same with its facts as people read them: days with their month in words, a field by what it says. `kind`: of
    the entry that the gap is about."""
    worded = {name: day(fact) if name.endswith("_on") and fact else fact for name, fact in facts.items()}
    field = field_at(KINDS[kind], facts.get("field", ""))
    return sentence(code, worded | ({"field": label(field.says)} if field else {}))


def name(code: str) -> str:
    """What a gap of that code is called, where it stands among others."""
    return label(code.replace("_", " "))


def how_soon(hours: int | None) -> str:
    """How soon an entry is to be typed after the work, as an area says; None: nobody said."""
    if hours is None:
        usual = _(
            "Nobody said: from {hours} h after the work on, a week, it is raised. That week is ours and no rule's."
        )
        return usual.format(hours=USUAL_HOURS)
    return of_number(
        "{hours} h after the work at the latest, {number} day",
        "{hours} h after the work at the latest, {number} days",
        number=-(-hours // 24),
    ).format(hours=hours, number=-(-hours // 24))


def own_work(*, accepts: bool | None) -> str:
    """Whether somebody accepts their own work, as an area says; None: nobody said."""
    if accepts is None:
        return _("Nobody said whether somebody accepts their own work: nothing is raised.")
    if accepts:
        return _("Whoever did the work may accept it, too: that is said once, and nothing is raised.")
    return _("Nobody accepts their own work: where somebody does, it is raised.")


def own_work_here(*, accepts: bool | None) -> str:
    """What is told to whoever looks a repair over that they worked on, by what the area says of it; empty where it
    says that they may accept it."""
    if accepts is None:
        return _(
            "You worked on this repair yourself. Whether somebody may accept their own work is said once for the area, "
            "not on every leak; here nobody has said it yet."
        )
    if accepts:
        return ""
    return _("You worked on this repair yourself, and here nobody accepts their own work: it is saved, and raised.")


def _of_moves() -> dict[str, str]:
    return {
        "moved_to_where_it_was": _(
            "It is moved to the area where it was already. Correct the area to which it went, or make the move void."
        ),
    }


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
        "lot_used_between_its_last_days": _(
            "Lot {lot_number} was used on {used_on}. It stands under several records that were made one, with last days"
            " from {first_on} to {last_on}. Read its label, and correct the record that is wrong."
        ),
        "done_after_leaving": _(
            "{person} stands as having done it on {done_on}, and left on {left_on}. Correct who did it, or whichever"
            " day is wrong."
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
        "joined_without_number": _(
            "It was joined to another number, and does not say to which. Correct it to name the other leak, or make it"
            " void."
        ),
        "joined_to_itself": _("It was joined to its own number. Correct it to name the other leak, or make it void."),
        "joined_in_a_ring": _(
            "The number to which it was joined leads back to this one, so that it would be open under none: it stays"
            " open. Make the ending void that joins the wrong one."
        ),
        "joined_to_one_opened_in_error": _(
            "The number to which it was joined was opened in error, so that it would be open under none: it stays"
            " open. Correct it to name another, or make it void."
        ),
        "repair_not_accepted": _(
            "The leak is ended by a repair that {review}. Have a supervisor accept it, or return it and repair again."
        ),
    }


def _of_stores() -> dict[str, str]:
    return {
        "quarantined_lot_used": _(
            "Lot {lot_number} was used on {used_on}, while it was quarantined."
            " Correct the lot or its day, or write down why it was good, or repair again."
        ),
        "lot_used_before_it_came": _(
            "Lot {lot_number} was used on {used_on}, and stands as received on {received_on}. Correct the lot that is"
            " named, or whichever day is wrong."
        ),
        "scrapped_lot_used": _(
            "Lot {lot_number} was used on {used_on} and stands as scrapped on {scrapped_on}. Correct whichever is"
            " wrong."
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
        "void_lot_used": _(
            "The receipt of lot {lot_number}, which was used, was made void. Correct the entry to name the right lot."
        ),
        "instrument_not_on_the_books": _(
            "The instrument “{named}” is not on the books. Add the instrument, and correct the entry to name it."
        ),
        "qualification_not_on_the_books": _(
            "No qualification of {person} for “{task}” that holds on {done_on} is on the books."
            " Enter it where there is one, or write down who watched over the work."
        ),
        "calibration_not_on_the_books": _(
            "No calibration of {mark} that holds on {done_on} is on the books."
            " Enter it where there is one, or read again with another instrument."
        ),
        "retired_instrument_used": _(
            "{mark} was used on {done_on} and stands as retired on {retired_on}. Correct whichever is wrong."
        ),
        "grade_not_known": _("No rank of the grade “{grade}” is known. Correct the entry to say its rank."),
    }


def _of_order() -> dict[str, str]:
    return {
        "tested_before_repair": _(
            "The test stands on {tested_on}, before the repair of {repaired_on} that it is said to be of."
            " Correct whichever is wrong."
        ),
        "no_test_after_pressure_change": _(
            "The line pressure was changed for this repair, and no test after it is entered. Enter the test."
        ),
        "repair_after_the_end": _(
            "A repair was attempted on {done_on}, after the leak ended on {ended_on}."
            " Open the leak again, or correct the day or the leak of the repair."
        ),
        "reopened_while_open": _("The leak was not ended when it was opened again. Make this entry void, or end it."),
        "two_stories_differ": _(
            "Another person entered {other} of the same at the same moment; here it is {this}."
            " Ask both, and correct whichever is wrong or make it void."
        ),
        "graded_lower_than_called_for": _(
            "It was graded {grade}, and the readings before it call for grade {called} at least: {says} ({clause})."
            " Set that grade, or have a supervisor look it over."
        ),
        "lowered_while_venting": _(
            "The grade was lowered from {before} to {grade} after venting, and no visit says that venting stopped:"
            " the rulebook asks for {wait} without it, and then another reading ({clause})."
            " Enter when it stopped, or read again and have a supervisor look it over."
        ),
        "lowered_without_second_reading": _(
            "The grade was lowered from {before} to {grade}, and nobody read again since venting stopped on"
            " {stopped_on}: the rulebook asks for {wait}, and then another reading ({clause})."
            " Enter that reading, or read again and have a supervisor look it over."
        ),
        "lowered_before_wait_was_over": _(
            "The grade was lowered from {before} to {grade}, and the last reading before it, on {read_on}, came too"
            " soon: venting stopped on {stopped_on}, and the rulebook asks for {wait} until then ({clause})."
            " Read again and have a supervisor look it over."
        ),
        "typed_long_after": _(
            "It was written {days} after what it tells, and {hours} h is how soon it is to be here. Say in a note what"
            " it was taken from, or correct it to say that it was keyed from paper."
        ),
        "keyed_from_paper_long_after": _(
            "It was keyed from paper {days} after what it tells, and {hours} h is how soon it is to be here."
            " Attach a picture of the page."
        ),
        "accepted_by_who_did_it": _(
            "Whoever accepted this repair did some of the work, and in this area nobody accepts their own."
            " Have another supervisor accept it."
        ),
        "downgrade_not_reviewed": _(
            "The grade was lowered from {before} to {grade}, and no supervisor has looked it over."
            " Have one approve it or not."
        ),
    }


def _of_times() -> dict[str, str]:
    return {
        "reviewed_before_repair": _(
            "The repair was looked over on {reviewed_on}, before it was made on {repaired_on}."
            " Correct whichever is wrong."
        ),
        "repair_steps_out_of_order": _(
            "The steps of this repair stand in an order in which they cannot have come: the fitting before the pipe was"
            " bare, or gas restored before it was stopped. Correct whichever time is wrong."
        ),
        "venting_stopped_before_it_started": _("Venting stopped before it started. Correct whichever time is wrong."),
        "left_before_on_site": _("The site was left before anybody was on it. Correct whichever time is wrong."),
        "people_back_before_out": _("People were back before they were out. Correct whichever time is wrong."),
    }


def _of_entries() -> dict[str, str]:
    return {
        "source_not_of_this_leak": _(
            "It names a source that is void or another leak's. Correct it to name one of this leak's."
        ),
        "reading_at_no_place": _(
            "A reading names a place that is not in this visit. Correct the reading to name one of its places."
        ),
        "entry_not_of_this_leak": _(
            "It names an entry that is void or not of the right kind in this leak. Correct it, or make it void."
        ),
        "watch_handed_to_nobody": _(
            "It does not say who took the watch over. Correct it to name them: somebody on the books, or by name."
        ),
        "watch_handed_by_another": _(
            "Another person had the watch since {handed_on} than the one who hands it on here. Correct whichever is"
            " wrong, or enter the hand-over between the two."
        ),
        "figure_from_no_entry": _(
            "The entry whose values went into this figure is void or not this leak's."
            " Work it out again, and make this one void."
        ),
        "work_given_to_nobody": _("It does not say to whom the work was given. Correct it to name a crew or a person."),
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


def _of_digs() -> dict[str, str]:
    return {
        "no_locate_ticket": _(
            "No locate ticket is named for this dig. Correct it to name the ticket, or write down why none was needed."
        ),
        "dug_before_the_ticket": _(
            "It was dug on {dug_on}, before the locate ticket began to hold on {from_on}."
            " Correct whichever is wrong, or write down why."
        ),
        "dug_after_the_ticket": _(
            "It was dug on {dug_on}, after the locate ticket had run out on {until_on}."
            " Correct whichever is wrong, or write down why."
        ),
        "before_it_was_dug": _(
            "“{step}” stands on {done_on}, before the dig was opened on {dug_on}. Correct whichever is wrong."
        ),
        "restored_before_it_was_backfilled": _(
            "The surface was restored on {done_on}, before the dig was backfilled on {backfilled_on}."
            " Correct whichever is wrong."
        ),
        "pipe_looked_at_after_it_was_backfilled": _(
            "The pipe was looked at on {done_on}, after the dig was backfilled on {backfilled_on}. Correct whichever"
            " is wrong, or open another dig."
        ),
        "backfilled_before_it_was_dug": _(
            "It was backfilled on {backfilled_on}, before it was dug on {dug_on}. Correct whichever is wrong."
        ),
        "dry_and_yet_a_source": _(
            "It found nothing, and yet it names the source that it found. Correct whichever is wrong."
        ),
        "restoration_not_of_this_dig": _(
            "It names a restoration that is not owed for this dig. Correct it to name the right one, or none."
        ),
        "stands_on_a_dig_opened_in_error": _(
            "It stands on a dig that was opened in error. Correct it to name the right dig, or make it void too."
        ),
    }


def _of_calls() -> dict[str, str]:
    return {
        "call_times_out_of_order": _(
            "“{step}” stands at {typed}, before “{other_step}” at {other_typed}. Correct whichever time is wrong."
        ),
        "outcome_names_no_leak": _(
            "The call is said to be a leak of ours, and no leak is named. Open the leak from the call, or correct the"
            " outcome to name it."
        ),
        "outcome_names_no_call": _(
            "The call is said to be the same as an earlier one, and none is named. Correct the outcome to name it."
        ),
        "customers_piping_not_made_safe": _(
            "It is the customer's piping, and nothing says that it was made safe. Correct the outcome to say how, or"
            " send somebody again."
        ),
        "call_ended_twice": _(
            "The call has another outcome before this one (“{first}”), and nobody was sent in between."
            " Make the one that is wrong void."
        ),
        "stands_on_a_call_received_in_error": _(
            "It stands on a call that was received in error. Correct it to name the right call, or make it void too."
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


def _of_rules() -> dict[str, str]:
    return {
        "proposed_rulebook_adopted": _(
            "The area adopted the rulebook {named}, which is a proposal and binds nobody."
            " Adopt one that is in force, or keep this one for practice."
        ),
    }
