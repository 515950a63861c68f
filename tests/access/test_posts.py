"""Who may post what: the whole table, and the edges of a membership."""

from dataclasses import replace
from typing import Any
from uuid import UUID

import pytest

from repairlog.access import Actor, Ask, Membership, Refused, left_on, may_post, require
from repairlog.access.posts import POSTS, Predicate
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.moved import MOVABLE
from repairlog.entries.operator import ROLES
from tests.makers import book as m

ES, HF, PERSON, OTHER = (UUID(m.new_id()) for _ in range(4))

# yes: in the role's areas and days. import: only while an old list is taken in. opens: of subjects that the role may
# open. own: what the person typed, until the day after it came in. its: of what the role itself posts. until: the same,
# until it is accepted.
TABLE = """
kind              crew  supervisor  officer  administrator
operator_opened   -     -           -        yes
area_opened       -     -           -        yes
person_added      spot  spot        -        yes
company_added     -     -           -        yes
company_back      -     -           -        yes
company_left      -     -           -        yes
crew_made         -     yes         yes      yes
crew_changed      -     yes         yes      yes
cut_over_set      -     -           -        yes
rulebook_adopted  -     -           yes      yes
rule_confirmed    -     -           yes      yes
working_days_set  -     -           yes      yes
typing_time_set   -     -           yes      yes
own_acceptance_said  -  -           yes      yes
role_given        -     -           -        yes
role_ended        -     -           -        yes
person_left       -     -           -        yes
qualified         spot  spot        yes      yes
qualification_ended  -  -           yes      yes
instrument_added  yes   yes         yes      yes
instrument_calibrated  spot  yes    yes      yes
instrument_checked  yes  yes        yes      yes
instrument_retired  -   yes         yes      yes
lot_received      -     yes         yes      yes
shelf_made        -     yes         yes      yes
lot_moved         yes   yes         yes      yes
temperature_logged  yes  yes        yes      yes
lot_counted       -     yes         yes      yes
lot_used          yes   yes         yes      yes
lot_quarantined   yes   yes         yes      yes
lot_released      -     yes         yes      yes
lot_scrapped      -     yes         yes      yes
leak_opened       yes   yes         yes      import
source_added      yes   yes         yes      import
grade_set         yes   yes         yes      import
leak_ended        -     yes         yes      import
source_changed    yes   yes         yes      import
visit             yes   yes         yes      import
repair_attempted  yes   yes         yes      import
tested            yes   yes         yes      import
repair_reviewed   -     yes         yes      import
leak_reopened         -     yes         yes      import
downgrade_reviewed    -     yes         yes      import
scheduled_for_repair  -     yes         yes      import
work_given            -     yes         yes      import
work_settled          yes   yes         yes      import
work_waiting          yes   yes         yes      import
work_goes_on          yes   yes         yes      import
briefing_given        yes   yes         yes      import
gap_set_aside         -     -           yes      import
dig_opened            yes         yes         yes         import
dig_found             yes         yes         yes         import
pipe_exposed          yes         yes         yes         import
dig_backfilled        yes         yes         yes         import
restoration_owed      yes         yes         yes         import
restored              yes         yes         yes         import
place_added           yes         yes         yes         yes
place_retired         -           yes         yes         yes
outside_number_added  yes         yes         yes         yes
linked                yes         yes         yes         import
made_one              -           yes         yes         yes
streets_made_one      -           yes         yes         yes
attached              yes         yes         yes         yes
figure_kept           yes         yes         yes         yes
subject_moved     -     opens       opens    opens
call_received     yes   yes         yes      import
call_sent         yes   yes         yes      import
call_on_way       yes   yes         yes      import
call_on_site      yes   yes         yes      import
call_outcome      yes   yes         yes      import
call_reviewed     -     yes         yes      import
moment_noted      yes   yes         yes      import
watch_handed      yes   yes         yes      import
emergency_reviewed -    yes         yes      import
told              yes   yes         yes      import
decided           -     yes         yes      import
note              yes   yes         yes      yes
corrected         own   until       its      its
void              own   until       its      its
"""
# What further roles post; all of them, but for the inspector, put right what they typed themselves.
BOOKS = {"instrument_added", "instrument_calibrated", "instrument_checked", "instrument_retired"}
STORES = {"lot_received", "shelf_made", "lot_moved", "lot_counted", "lot_used"}
STORES |= {"temperature_logged", "lot_quarantined", "lot_released", "lot_scrapped"}
ANYTHING = {"note", "outside_number_added", "attached", "figure_kept"}
CALLS = {"call_received", "call_sent", "call_on_way", "call_on_site", "call_outcome", "told"}
FURTHER = {
    "dispatcher": {*CALLS, "moment_noted", "watch_handed", "leak_opened", *ANYTHING},
    "manager": ANYTHING,
    "storekeeper": {*STORES, *ANYTHING, *BOOKS},
    "inspector": set(),
}
HEAD, *ROWS = (line.split() for line in TABLE.strip().splitlines())
CELLS = [(row[0], role, word) for row in ROWS for role, word in zip(HEAD[1:], row[1:], strict=True)]
NAMES = {
    "in_area": "yes",
    "by_import": "import",
    "own_for_a_day": "own",
    "predicate": "its",
    "unaccepted": "until",
    "on_the_spot": "spot",
    "opens": "opens",
}


def word_for(predicate: Predicate | None) -> str:
    return NAMES[predicate.__name__] if predicate else "-"


def held(role: str, *, area: UUID | None = ES, from_on: str = "2026-01-01", until_on: str = "") -> Membership:
    return Membership(role=role, area=area, from_on=from_on, until_on=until_on)


def actor(*memberships: Membership, sure: str = "password", signed_in_on: str = "2026-01-01") -> Actor:
    return Actor(person=PERSON, sure=sure, memberships=memberships, signed_in_on=signed_in_on)


def ask(kind: str = "visit", **fields: Any) -> Ask:
    """A visit in Eastmarsh, written and received on 5 March 2026."""
    given: dict[str, Any] = {
        "position": 0,
        "kind": kind,
        "area": ES,
        "on": "2026-03-05",
        "received_on": "2026-03-05",
    } | fields
    return Ask(**given)


def may(who: Actor, *asks: Ask) -> bool:
    try:
        require(who, asks)
    except Refused:
        return False
    return True


def test_the_table_is_the_one_that_was_agreed() -> None:
    assert {(kind, role): word_for(POSTS[kind].get(role)) for kind in KINDS for role in HEAD[1:]} == {
        (kind, role): word for kind, role, word in CELLS
    }


def test_the_table_names_no_role_that_nobody_can_hold() -> None:
    assert {role for row in POSTS.values() for role in row} == set(ROLES) - {"inspector"}
    assert {*HEAD[1:], *FURTHER} == set(ROLES)


@pytest.mark.parametrize("role", FURTHER)
def test_further_roles_post_what_was_agreed(role: str) -> None:
    own = {} if role == "inspector" else dict.fromkeys(RIGHTING, "own")
    found = {kind: word_for(row[role]) for kind, row in POSTS.items() if role in row}
    moves = {"subject_moved": "opens"} if role == "storekeeper" else {}
    assert found == dict.fromkeys(FURTHER[role], "yes") | own | moves


@pytest.mark.parametrize(("kind", "role", "word"), [cell for cell in CELLS if cell[2] in ("yes", "import", "-")])
def test_a_role_posts_what_the_table_says(kind: str, role: str, word: str) -> None:
    who = held(role)
    by_hand, by_list = may(actor(who), ask(kind)), may(actor(who, sure="import", signed_in_on=""), ask(kind))
    assert (by_hand, by_list) == (word == "yes", word in ("yes", "import"))


@pytest.mark.parametrize("righting", ["corrected", "void"])
@pytest.mark.parametrize(("kind", "role", "word"), [cell for cell in CELLS if cell[0] not in ("corrected", "void")])
def test_a_role_puts_right_what_it_posts_itself(righting: str, kind: str, role: str, word: str) -> None:
    days = {"target_kind": kind, "target_typed_by": OTHER, "target_received_on": "2026-03-05"}
    assert may(actor(held(role)), ask(righting, **days)) == (word == "yes" and role != "crew")


@pytest.mark.parametrize(("role", "accepted", "granted"), [("supervisor", False, True), ("supervisor", True, False)])
@pytest.mark.parametrize("righting", ["corrected", "void"])
def test_a_supervisor_puts_right_until_it_is_accepted(righting: str, role: str, accepted: bool, granted: bool) -> None:
    of = {"target_kind": "repair_attempted", "target_typed_by": OTHER, "target_received_on": "2026-03-05"}
    assert may(actor(held(role)), ask(righting, **of, target_accepted=accepted)) == granted
    assert may(actor(held("officer")), ask(righting, **of, target_accepted=accepted))


@pytest.mark.parametrize(
    ("typed_by", "came_in", "granted"),
    [
        (PERSON, "2026-03-05", True),
        (PERSON, "2026-03-04", True),
        (PERSON, "2026-03-03", False),
        (OTHER, "2026-03-05", False),
        (None, "2026-03-05", False),
    ],
    ids=["the same day", "the day before", "two days before", "another's", "nobody's"],
)
def test_a_crew_puts_its_own_right_until_the_day_after(typed_by: UUID | None, came_in: str, granted: bool) -> None:
    spoken_of = {"target_kind": "visit", "target_typed_by": typed_by, "target_received_on": came_in}
    assert may(actor(held("crew")), ask("corrected", **spoken_of)) is granted


def test_a_device_that_says_yesterday_gains_no_day() -> None:
    spoken_of = {"target_kind": "visit", "target_typed_by": PERSON, "target_received_on": "2026-03-03"}
    assert not may(actor(held("crew")), ask("void", on="2026-03-04", received_on="2026-03-05", **spoken_of))


@pytest.mark.parametrize(
    ("on", "granted"),
    [
        ("2026-02-28", False),
        ("2026-03-01", True),
        ("2026-03-02", True),
        ("2026-03-30", True),
        ("2026-03-31", True),
        ("2026-04-01", False),
    ],
)
def test_a_membership_holds_from_its_first_day_to_its_last(on: str, granted: bool) -> None:
    who = actor(held("crew", from_on="2026-03-01", until_on="2026-03-31"), signed_in_on="2026-03-01")
    assert may(who, ask(on=on, received_on=on)) is granted


@pytest.mark.parametrize(("signed_in_on", "granted"), [("2026-02-28", False), ("2026-03-01", True), ("", True)])
def test_a_sign_in_from_before_a_membership_does_not_use_it(signed_in_on: str, granted: bool) -> None:
    who = actor(held("crew", from_on="2026-03-01"), signed_in_on=signed_in_on)
    assert may(who, ask()) is granted


@pytest.mark.parametrize(
    ("signed_in_on", "granted"), [("2026-03-30", True), ("2026-03-31", True), ("2026-04-01", False)]
)
def test_a_sign_in_from_after_a_membership_does_not_use_it(signed_in_on: str, granted: bool) -> None:
    who = actor(held("crew", from_on="2026-03-01", until_on="2026-03-31"), signed_in_on=signed_in_on)
    assert may(who, ask(on="2026-03-20", received_on="2026-04-02")) is granted


@pytest.mark.parametrize(
    ("area", "asked", "granted"), [(ES, ES, True), (ES, HF, False), (None, HF, True), (None, None, True)]
)
def test_a_role_counts_in_its_own_area_or_in_every_one(area: UUID | None, asked: UUID | None, granted: bool) -> None:
    assert may(actor(held("supervisor", area=area)), ask("lot_received", area=asked)) is granted


def test_what_belongs_to_every_area_asks_for_a_role_in_every_area() -> None:
    asked = ask("person_added", area=None)
    assert (may(actor(held("administrator")), asked), may(actor(held("administrator", area=None)), asked)) == (
        *(False, True),
    )


@pytest.mark.parametrize(
    ("companies", "granted"),
    [(frozenset(), False), ({"Weir Works"}, False), ({"Dale Pipe Co"}, True), ({"Dale Pipe Co", "Weir Works"}, True)],
)
def test_a_role_for_one_companys_work_posts_into_that_work_alone(companies: frozenset[str], granted: bool) -> None:
    who = actor(replace(held("crew"), company="Dale Pipe Co"))
    assert may(who, ask(companies=companies)) is granted
    assert may(actor(held("crew")), ask(companies=companies))


@pytest.mark.parametrize(("here", "granted"), [(True, True), (False, False)])
def test_a_companys_crew_adds_who_comes_to_help_on_the_spot_who_is_nobodys_work(here: bool, granted: bool) -> None:
    who = actor(replace(held("crew"), company="Dale Pipe Co"))
    assert may(who, ask("person_added", area=None, companies=frozenset(), on_the_spot=here)) is granted


def test_a_page_offers_to_a_role_for_one_companys_work_what_it_posts_whosever_that_turns_out_to_be() -> None:
    bounded = actor(replace(held("crew"), company="Dale Pipe Co"))
    offered = [may_post(bounded, kind, area=ES, on="2026-03-05") for kind in ("visit", "leak_ended")]
    assert offered == [True, False]


def test_a_role_for_one_companys_work_does_nothing_beside_the_journal() -> None:
    bounded = actor(replace(held("administrator", area=None), company="Dale Pipe Co"))
    whole = actor(held("administrator", area=None))
    day = {"area": None, "on": "2026-03-05"}
    assert [may_post(who, "lets_in", **day) for who in (bounded, whole)] == [False, True]


@pytest.mark.parametrize(
    ("act", "roles"), [("looks_read", {"officer", "administrator"}), ("lets_in", {"administrator"})]
)
def test_what_is_done_beside_the_journal_is_done_by_whom_the_table_names(act: str, roles: set[str]) -> None:
    assert {role for role in ROLES if may_post(actor(held(role)), act, area=ES, on="2026-03-05")} == roles


@pytest.mark.parametrize(("areas", "granted"), [((ES,), False), ((ES, HF), False), ((None,), True)])
def test_moving_an_entry_asks_for_one_role_in_both_areas(areas: tuple[UUID | None, ...], granted: bool) -> None:
    spoken_of = {"target_kind": "visit", "target_typed_by": OTHER, "target_received_on": "2026-03-05", "to_area": HF}
    who = actor(*(held("supervisor", area=area) for area in areas))
    assert may(who, ask("corrected", **spoken_of)) is granted


MOVED = {
    "supervisor": {"leak", "call", "dig", "place", "shelf", "lot", "crew", "instrument"},
    "officer": {"leak", "call", "dig", "place", "shelf", "lot", "crew", "instrument"},
    "storekeeper": {"shelf", "lot", "instrument"},
    "administrator": {"place", "shelf", "lot", "crew", "instrument"},
}


@pytest.mark.parametrize("role", ROLES)
def test_a_role_moves_the_subjects_that_it_may_open_and_puts_such_moves_right(role: str) -> None:
    who = actor(held(role))
    move = {"target_kind": "subject_moved", "target_typed_by": OTHER, "target_received_on": "2026-03-05"}
    of = {subject: (ask("subject_moved", subject=subject), ask("void", subject=subject, **move)) for subject in MOVABLE}
    assert {subject for subject, (moves, _void) in of.items() if may(who, moves)} == MOVED.get(role, set())
    assert {subject for subject, (_move, voids) in of.items() if may(who, voids)} == (
        set() if role == "storekeeper" else MOVED.get(role, set())  # who puts right only what they typed themselves
    )


@pytest.mark.parametrize(
    ("areas", "granted"), [((ES,), False), ((HF,), False), ((ES, HF), True), ((None,), True), ((), False)]
)
def test_a_move_asks_for_a_role_in_each_area_that_it_touches(areas: tuple[UUID | None, ...], granted: bool) -> None:
    who = actor(*(held("supervisor", area=area) for area in areas))
    assert may(who, ask("subject_moved", subject="leak", also_in=frozenset({HF}))) is granted


def test_the_roles_in_the_two_areas_of_a_move_need_not_be_one() -> None:
    who, other = actor(held("supervisor"), held("officer", area=HF)), actor(held("supervisor"), held("crew", area=HF))
    move = ask("subject_moved", subject="lot", also_in=frozenset({HF}))
    assert (may(who, move), may(other, move)) == (True, False)


def test_what_was_written_before_its_subject_moved_away_is_still_taken_from_who_was_there() -> None:
    before, after = ask("visit", area=HF, areas_since=frozenset({ES, HF})), ask("visit", area=HF)
    assert (may(actor(held("crew")), before), may(actor(held("crew")), after)) == (True, False)


def test_one_role_of_several_is_enough() -> None:
    who = actor(held("administrator"), held("crew"))
    assert (may(who, ask("visit")), may(who, ask("crew_made")), may(who, ask("leak_ended"))) == (True, True, False)


def test_a_person_without_roles_posts_nothing() -> None:
    assert [kind for kind in KINDS if may(actor(), ask(kind))] == []


def test_the_machine_that_holds_the_book_posts_everything() -> None:
    who = actor(sure="system", signed_in_on="")
    assert all(may(who, ask(kind, area=None)) for kind in KINDS)
    day = {"area": None, "on": "2026-03-05"}
    assert (may_post(who, "area_opened", **day), may_post(actor(), "area_opened", **day)) == (True, False)


def test_a_list_that_nobody_with_a_role_takes_in_posts_nothing() -> None:
    assert not may(actor(sure="import", signed_in_on=""), ask("leak_opened"))


def test_a_call_is_refused_for_its_first_entry_that_may_not_stand() -> None:
    asks = [ask("visit", position=0), ask("leak_ended", position=1), ask("crew_made", position=2)]
    with pytest.raises(Refused) as refused:
        require(actor(held("crew")), asks)
    assert (refused.value.kind, refused.value.position, refused.value.code) == ("leak_ended", 1, "refused")


@pytest.mark.parametrize(
    ("received_on", "left"),
    [("2026-03-30", ""), ("2026-03-31", ""), ("2026-04-01", "2026-03-31"), ("2026-09-01", "2026-03-31")],
)
def test_what_was_written_in_time_and_sent_after_leaving_says_the_last_day(received_on: str, left: str) -> None:
    who = actor(held("crew", until_on="2026-03-31"))
    late = ask(on="2026-03-30", received_on=received_on)
    assert (may(who, late), left_on(who, late)) == (True, left)


def test_who_left_one_crew_and_still_has_a_role_here_has_not_left() -> None:
    who = actor(held("crew", until_on="2026-03-31"), held("supervisor"))
    assert left_on(who, ask(on="2026-03-30", received_on="2026-04-02")) == ""


def test_of_several_roles_that_ended_the_last_day_is_said() -> None:
    who = actor(held("crew", until_on="2026-03-31"), held("supervisor", until_on="2026-04-15"))
    assert left_on(who, ask(on="2026-03-30", received_on="2026-04-16")) == "2026-04-15"


def test_who_may_not_post_has_not_left() -> None:
    assert left_on(actor(), ask()) == ""
