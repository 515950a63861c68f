"""What is owed of a leak by a rulebook: when each item begins, is due, and is settled.

The rulebook is invented, so its figures have no source; how each rule is counted is decided by us.
"""

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from repairlog.trade.due import Graded, Item, Life, Look, Missing, When, owed
from repairlog.trade.rulebook import Due, RegradeLimit, Rulebook, RuleGap, Target
from tests.makers.rulebooks import FIRM, PROPOSED, RULEBOOK, due

NEW_YORK = ZoneInfo("America/New_York")
ACT = due("act-1", "act", grades=("1",), counted_from="found", within="at once", until="made_safe")
REPAIR = due(
    "repair-2",
    "repair",
    grades=("2",),
    counted_from="reported",
    within="1 calendar year, not exceeding 15 months",
    until="repaired",
)
LOOK = due(
    "look-2", "re_evaluate", grades=("2",), counted_from="looked_at", within="6 months", until="repaired", repeats=True
)
LOOK_3 = due(
    "look-3",
    "re_evaluate",
    grades=("3",),
    counted_from="reported",
    within="15 months",
    until="no_reading",
    repeats=True,
)
FOLLOW = due(
    "follow",
    "follow_up",
    grades=("1", "2"),
    when=("residual_gas",),
    counted_from="repaired",
    within="not before 14 days, not after 30 days",
    until="done_once",
)
PERMANENT = due(
    "permanent", "permanent_repair", counted_from="temporarily_repaired", within="90 days", until="permanently_repaired"
)


def book(*dues: Due, **more: object) -> Rulebook:
    """The invented rulebook with these rules."""
    return replace(RULEBOOK, dues=dues, **more)


def on(day: str) -> When:
    """A day without an hour."""
    return When(on=date.fromisoformat(day))


def life(*grades: tuple[str, str], **more: object) -> Life:
    """A leak reported on 10 January 2023, with these grades from these days."""
    ranks = {each.code: each.rank for each in RULEBOOK.grades}
    set_grades = tuple(Graded(code=code, since=on(day), rank=ranks.get(code)) for code, day in grades)
    return Life(
        **{"zone": NEW_YORK, "reported": on("2023-01-10"), "found": on("2023-01-10"), "grades": set_grades, **more}
    )


def told(it: Life, rulebook: Rulebook, **more: object) -> list[tuple[str, str, str]]:
    """Task, due day, and by what it was settled."""
    return [(each.task, each.due_on.isoformat(), each.settled_by) for each in owed(it, rulebook, **more).items]


def test_an_item_says_what_asks_for_it_and_from_what_it_is_counted() -> None:
    (item,) = owed(life(("2", "2023-01-12")), book(REPAIR)).items
    assert item == Item(
        task="repair",
        rule="repair-2",
        clause="1.1",
        mark="text_checked",
        firm=True,
        grade="2",
        counted_from="reported",
        counted_on=date(2023, 1, 10),
        due_on=date(2024, 4, 10),
        governed_by="15 months",
        rank=2,
        until="repaired",
    )


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({}, ("repair", "2024-04-10", "")),
        ({"repaired": on("2023-05-01")}, ("repair", "2024-04-10", "repaired")),
        ({"temporary": (on("2023-05-01"),)}, ("repair", "2024-04-10", "")),
        ({"ended": on("2023-05-01")}, ("repair", "2024-04-10", "ended")),
        ({"ended": on("2023-05-01"), "joined": True}, ("repair", "2024-04-10", "joined")),
        ({"joined": True}, ("repair", "2024-04-10", "")),  # joined in a ring, so that nothing goes on under another
    ],
)
def test_a_repair_is_owed_until_it_is_done_for_good_or_the_leak_ends(
    more: dict[str, object], expected: tuple[str, str, str]
) -> None:
    assert told(life(("2", "2023-01-10"), **more), book(REPAIR)) == [expected]


def test_looks_settle_one_re_evaluation_after_the_other_each_counted_from_the_last() -> None:
    looked = life(
        ("2", "2023-01-10"),
        looks=(Look(when=on("2023-01-10")), Look(when=on("2023-06-30")), Look(when=on("2023-12-31"))),
    )
    assert told(looked, book(LOOK)) == [
        ("re_evaluate", "2023-07-10", "looked_at"),
        ("re_evaluate", "2023-12-30", "looked_at"),
        ("re_evaluate", "2024-06-30", ""),
    ]


def test_re_evaluations_end_with_the_repair() -> None:
    done = life(("2", "2023-01-10"), looks=(Look(when=on("2023-06-30")),), repaired=on("2023-08-01"))
    assert told(done, book(LOOK)) == [
        ("re_evaluate", "2023-07-10", "looked_at"),
        ("re_evaluate", "2023-12-30", "repaired"),
    ]


@pytest.mark.parametrize(
    ("gas", "expected"),
    [
        (True, [("re_evaluate", "2024-04-10", "looked_at"), ("re_evaluate", "2025-05-01", "")]),
        (None, [("re_evaluate", "2024-04-10", "looked_at"), ("re_evaluate", "2025-05-01", "")]),
        (False, [("re_evaluate", "2024-04-10", "looked_at")]),
    ],
)
def test_a_look_that_finds_none_ends_what_is_owed_until_no_reading(
    gas: bool | None, expected: list[tuple[str, str, str]]
) -> None:
    assert told(life(("3", "2023-01-10"), looks=(Look(when=on("2024-02-01"), gas=gas),)), book(LOOK_3)) == expected


@pytest.mark.parametrize(
    ("looks", "settled"),
    [
        ((("2023-02-24", False, True),), ""),  # day 13 is too early
        ((("2023-02-25", False, True),), "looked_at"),
        ((("2023-02-25", True, False),), ""),  # gas is still there, and nobody says that this was the follow-up
        ((("2023-02-25", True, True),), "looked_at"),
        ((("2023-03-20", False, False),), "looked_at"),  # late, and done
    ],
)
def test_a_follow_up_is_done_within_its_window_or_late_and_never_before(
    looks: tuple[tuple[str, bool, bool], ...], settled: str
) -> None:
    after = tuple(Look(when=on(day), gas=gas, follows=follows) for day, gas, follows in looks)
    repaired = on("2023-02-11")
    done = life(("1", "2023-02-10"), repaired=repaired, ended=repaired, looks=after, holds=frozenset({"residual_gas"}))
    (item,) = owed(done, book(FOLLOW)).items
    assert (item.not_before, item.due_on, item.settled_by) == (date(2023, 2, 25), date(2023, 3, 13), settled)


def test_without_residual_gas_no_follow_up_is_owed_where_the_rule_hangs_on_it() -> None:
    assert told(life(("1", "2023-02-10"), repaired=on("2023-02-11")), book(FOLLOW)) == []


def test_a_temporary_repair_owes_a_permanent_one_and_makes_safe() -> None:
    clamped = life(("1", "2023-01-10"), temporary=(on("2023-01-11"),), made_safe=(on("2023-01-11"),))
    assert told(clamped, book(ACT, PERMANENT)) == [
        ("act", "2023-01-10", "made_safe"),
        ("permanent_repair", "2023-04-11", ""),
    ]


def test_another_grade_settles_what_was_owed_for_the_one_before() -> None:
    changed = life(("1", "2023-01-10"), ("2", "2023-01-12"))
    assert told(changed, book(ACT, REPAIR)) == [("act", "2023-01-10", "graded_anew"), ("repair", "2024-04-10", "")]


@pytest.mark.parametrize(
    ("clock", "expected"),
    [
        ("", "2023-12-01"),
        ("starts_anew", "2023-12-01"),
        ("shorter_of_both", "2023-07-10"),
        ("runs_on", "2023-07-10"),
    ],
)
def test_the_rulebook_says_whether_a_new_grade_starts_the_clock_anew(clock: str, expected: str) -> None:
    slow = due("slow", "repair", grades=("3",), counted_from="graded", within="6 months", until="repaired")
    fast = due("fast", "repair", grades=("2",), counted_from="graded", within="6 months", until="repaired")
    limit = RegradeLimit(id="up", direction="up", clock=clock, cited=FIRM)
    raised = life(("3", "2023-01-10"), ("2", "2023-06-01"))
    items = owed(raised, book(slow, fast, regrades=(limit,))).items
    assert {each.rule: (each.due_on.isoformat(), each.settled_by) for each in items} == {
        "slow": ("2023-07-10", "graded_anew"),
        "fast": (expected, ""),
    }


@pytest.mark.parametrize(
    ("limits", "expected"),
    [
        ({"from_grades": ("3",), "to_grades": ("2",)}, "2023-07-10"),
        ({"from_grades": ("1",)}, "2023-12-01"),
        ({"to_grades": ("1",)}, "2023-12-01"),
        ({"direction": "either"}, "2023-07-10"),
        ({"direction": "down"}, "2023-12-01"),
    ],
)
def test_a_clock_runs_on_only_for_the_change_of_grade_of_which_the_rulebook_says_so(
    limits: dict[str, Any], expected: str
) -> None:
    fast = due("fast", "repair", grades=("2",), counted_from="graded", within="6 months", until="repaired")
    limit = RegradeLimit(**{"id": "up", "direction": "up", "clock": "runs_on", "cited": FIRM, **limits})
    silent = RegradeLimit(id="asks-alone", direction="up", clock="", cited=FIRM)
    raised = life(("3", "2023-01-10"), ("2", "2023-06-01"))
    assert told(raised, book(fast, regrades=(silent, limit))) == [("repair", expected, "")]


def test_the_grade_from_which_it_changed_is_the_last_one_before() -> None:
    fast = due("fast", "repair", grades=("2",), counted_from="graded", within="6 months", until="repaired")
    limit = RegradeLimit(id="any", direction="either", clock="runs_on", from_grades=("3",), cited=FIRM)
    changes = [life((first, "2023-01-01"), (then, "2023-01-10"), ("2", "2023-06-01")) for first, then in ("13", "31")]
    assert [told(each, book(fast, regrades=(limit,)))[-1][1] for each in changes] == ["2023-07-01", "2023-12-01"]


@pytest.mark.parametrize(
    ("way", "first", "then", "asks"),
    [
        ("upgraded", "3", "2", True),
        ("upgraded", "1", "2", False),
        ("downgraded", "1", "2", True),
        ("downgraded", "3", "2", False),
        ("upgraded", "7", "2", False),
    ],
)
def test_what_is_counted_from_a_change_of_grade_is_asked_after_a_change_that_way(
    way: str, first: str, then: str, asks: bool
) -> None:
    look = due("again", "re_evaluate", grades=("2",), counted_from=way, within="30 days", until="done_once")
    changed = life((first, "2023-01-10"), (then, "2023-06-01"))
    assert told(changed, book(look)) == ([("re_evaluate", "2023-07-01", "")] if asks else [])


def test_a_rule_asks_nothing_while_what_it_leaves_out_holds() -> None:
    rule = replace(REPAIR, when=("plastic_pipe",), unless=("frost",))
    held = [frozenset(), frozenset({"plastic_pipe"}), frozenset({"plastic_pipe", "frost"})]
    assert [len(told(life(("2", "2023-01-10"), holds=each), book(rule))) for each in held] == [0, 1, 0]


@pytest.mark.parametrize(
    ("reported", "due_on", "due_at"),
    [
        (
            When(on=date(2025, 11, 1), at=datetime(2025, 11, 2, 1, 30, tzinfo=UTC)),
            date(2025, 11, 2),
            datetime(2025, 11, 2, 13, 30, tzinfo=UTC),
        ),
        # Without the hour nothing is late before the day on which it certainly is.
        (on("2025-11-01"), date(2025, 11, 2), None),
    ],
)
def test_hours_have_a_moment_only_where_the_hour_is_known(
    reported: When, due_on: date, due_at: datetime | None
) -> None:
    rule = due("twelve", "act", grades=("1",), counted_from="reported", within="12 hours", until="made_safe")
    (item,) = owed(life(("1", "2025-11-01"), reported=reported), book(rule)).items
    assert (item.due_on, item.due_at) == (due_on, due_at)


def test_dates_of_a_rule_that_was_not_read_are_proposed_until_an_officer_confirms_it() -> None:
    rule = replace(REPAIR, cited=PROPOSED)
    graded = life(("2", "2023-01-10"))
    before, after = (owed(graded, book(rule), confirmed=ids).items[0].firm for ids in ((), ("repair-2",)))
    assert (before, after) == (False, True)


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        ((FIRM, "5 months"), (FIRM, "4 months"), [("2023-05-10", True)]),
        ((FIRM, "4 months"), (PROPOSED, "5 months"), [("2023-05-10", True)]),
        ((FIRM, "5 months"), (PROPOSED, "4 months"), [("2023-05-10", False), ("2023-06-10", True)]),
    ],
)
def test_the_earliest_limit_counts_and_a_proposed_one_hides_no_firm_one(
    first: tuple[object, str], second: tuple[object, str], expected: list[tuple[str, bool]]
) -> None:
    rules = [
        replace(REPAIR, id=f"r{n}", cited=cited, within=within) for n, (cited, within) in enumerate((first, second))
    ]
    items = owed(life(("2", "2023-01-10")), book(*rules)).items
    assert [(each.due_on.isoformat(), each.firm) for each in items] == expected


def test_a_rule_that_hangs_on_the_criterion_asks_only_where_that_set_the_grade() -> None:
    rule = replace(REPAIR, id="soon", within="6 months", criteria=("walk-40",))
    plain = life(("2", "2023-01-10"))
    cited = replace(plain, grades=(replace(plain.grades[0], criterion="walk-40"),))
    assert [[item.rule for item in owed(each, book(rule)).items] for each in (plain, cited)] == [[], ["soon"]]


def test_a_target_stands_beside_its_limit() -> None:
    target = Target(id="t", beside="repair-2", within="6 months", cited=FIRM)
    (item,) = owed(life(("2", "2023-01-10")), book(REPAIR, targets=(target,))).items
    assert (item.target_on, item.due_on) == (date(2023, 7, 10), date(2024, 4, 10))


def test_a_figure_that_nobody_gives_is_missing_and_no_date() -> None:
    gap = RuleGap(id="g", fill_in="by when grade 2 is repaired", task="repair", grades=("2",), cited=FIRM)
    found = owed(life(("2", "2023-01-10")), book(gaps=(gap,)))
    assert (found.items, found.missing) == (
        (),
        (Missing(why="rule_gap", grade="2", task="repair", rule="g", fill_in="by when grade 2 is repaired"),),
    )


def test_a_figure_that_hangs_on_a_criterion_is_missing_only_where_that_set_the_grade() -> None:
    gap = RuleGap(id="g", fill_in="how soon", task="repair", criteria=("walk-40",), cited=FIRM)
    plain = life(("2", "2023-01-10"))
    cited = replace(plain, grades=(replace(plain.grades[0], criterion="walk-40"),))
    assert [len(owed(each, book(gaps=(gap,))).missing) for each in (plain, cited)] == [0, 1]


def test_a_grade_that_the_rulebook_does_not_know_has_no_dates_and_says_so() -> None:
    found = owed(life(("7", "2023-01-10")), book(REPAIR))
    assert (found.items, found.missing) == ((), (Missing(why="grade_not_in_rulebook", grade="7"),))


def test_a_day_that_is_only_the_latest_it_can_have_been_starts_no_clock() -> None:
    listed = life(("2", "2023-01-10"), reported=replace(on("2023-01-10"), known=False))
    found = owed(listed, book(REPAIR))
    assert (found.items, found.missing) == (
        (),
        (Missing(why="day_not_known", grade="2", task="repair", rule="repair-2"),),
    )


@pytest.mark.parametrize(("graded", "asks"), [("2017-12-31", False), ("2018-01-01", True), ("2018-01-02", True)])
def test_a_rule_asks_from_its_first_day_in_force(graded: str, asks: bool) -> None:
    cited = replace(FIRM, first=date(2018, 1, 1))
    rule = due("r", "repair", grades=("2",), counted_from="graded", within="2 years", until="repaired")
    assert bool(owed(life(("2", graded)), book(replace(rule, cited=cited))).items) is asks


def test_telling_somebody_settles_what_asked_to_tell_them() -> None:
    rule = due("fire", "tell_fire_department", grades=("1",), counted_from="found", within="at once", until="done_once")
    said = life(("1", "2023-01-10"), done={"tell_fire_department": on("2023-01-10")})
    assert told(said, book(rule)) == [("tell_fire_department", "2023-01-10", "done")]


@pytest.mark.parametrize(("hour", "due_on"), [(8, "2023-08-01"), (9, "2023-08-01"), (10, "2023-07-10")])
def test_a_look_up_to_the_moment_of_the_grade_starts_its_clock(hour: int, due_on: str) -> None:
    """A grade that is set on the page of a visit has the visit's own moment."""
    at = datetime(2023, 2, 1, 9, tzinfo=UTC)
    graded = Graded(code="2", since=When(on=at.date(), at=at), rank=2)
    look = Look(when=When(on=at.date(), at=at.replace(hour=hour)), gas=True)
    first = told(replace(life(looks=(look,)), grades=(graded,)), book(LOOK))[0]
    assert first[1] == due_on
