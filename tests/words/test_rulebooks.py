"""Every rulebook and every code of a rule can be told in words."""

from __future__ import annotations

from decimal import Decimal

import pytest

from repairlog.rulebooks import shipped_shelf
from repairlog.trade.rulebook import (
    COUNTED_FROM,
    KINDS,
    MARKS,
    STATUSES,
    TASKS,
    Report,
    ResponseTime,
    rule_named,
    rules,
)
from repairlog.units import read
from repairlog.words.rulebooks import mark_word, printed, status_word
from repairlog.words.rulebooks.coded import counted_word, task_word
from repairlog.words.rulebooks.said import said
from tests.makers.rulebooks import FIRM


def test_every_code_has_its_word():
    words = [*map(task_word, TASKS), *map(counted_word, COUNTED_FROM), *map(mark_word, MARKS)]
    words += map(status_word, STATUSES)
    assert all(words)
    assert len(set(words)) == len(words)


@pytest.mark.parametrize("id", sorted(shipped_shelf().by_id))
def test_a_rulebook_is_printed_whole_and_every_rule_with_its_clause(id):
    rulebook = shipped_shelf().by_id[id].rulebook
    parts = printed(rulebook)
    assert [(part.kind, rule.id) for part in parts for rule in part.rules] == [(k, r.id) for k, r in rules(rulebook)]
    assert {part.kind for part in parts} <= set(KINDS)
    told = [(rule.says, rule.cited) for part in parts for rule in part.rules]
    assert [pair for pair in told if not all(pair) or "{" in "".join(pair) or "  " in "".join(pair)] == []


def test_what_is_confirmed_asks_for_it_no_more():
    guide = shipped_shelf().by_id["us-guide"].rulebook
    asking = [rule.id for part in printed(guide) for rule in part.rules if rule.asks_confirmation]
    after = [r.id for part in printed(guide, confirmed=asking[:1]) for r in part.rules if r.asks_confirmation]
    assert "repair-2" in asking
    assert after == asking[1:]


def test_a_due_rule_reads_like_a_sentence():
    guide = shipped_shelf().by_id["us-guide"].rulebook
    by_id = {rule.id: rule.says for part in printed(guide) for rule in part.rules}
    assert by_id["repair-2"] == (
        "Repair: 1 calendar year, not exceeding 15 months, counted from the report,"
        " owed until it is repaired, for grade 2."
    )
    assert by_id["confined-space-20"] == (
        "A reading of 20 %LEL or more and below 80 %LEL in a confined space: calls for grade 2."
        " (confined space, methane at least 20 %LEL and below 80 %LEL)"
    )


@pytest.mark.parametrize(
    ("rulebook", "rule", "says"),
    [
        (
            "us-federal",
            "annual-report-before-october-2025",
            (
                "Annual report to PHMSA, form F 7100.1-1: each year on 15 Mar, a weekend does not move the day."
                " For the calendar year before."
            ),
        ),
        (
            "us-ma",
            "quarterly-report",
            "Quarterly report to the department: each year on 15 Jan, 15 Apr, 15 Jul, 15 Oct.",
        ),
        (
            "us-federal",
            "test-main-below-1-psi",
            "Main, where the highest operating pressure is below 1 psi, at least 10 psi gauge. Mains of metal.",
        ),
        (
            "us-ny",
            "response-30-minutes",
            (
                "leak and odor calls: at least 75 % within 30 min, from receipt of the report to arrival,"
                " counted by the month."
            ),
        ),
        ("us-federal", "test-steel-30-percent", "Steel at 30 % of SMYS or more, held for 8 h."),
    ],
)
def test_reports_test_pressures_and_response_times_read_like_sentences(rulebook, rule, says):
    assert said(rule_named(shipped_shelf().by_id[rulebook].rulebook, rule)) == says


@pytest.mark.parametrize(
    ("form", "more", "told"),
    [
        ("mean", {}, "on the mean within 30 min"),
        ("share", {"percent": Decimal(97)}, "at least 97 % within 30 min"),
        ("most", {}, "none of them over 30 min"),
    ],
)
def test_a_mean_a_share_and_a_most_are_three_rules_that_read_apart(form, more, told):
    time = read("30 min", "duration")
    rule = ResponseTime(
        id="r", form=form, calls="calls", time=time, counted_from="dispatch", until="arrival", cited=FIRM, **more
    )
    assert said(rule) == f"calls: {told}, from dispatch to arrival."


@pytest.mark.parametrize(
    ("days", "told"),
    [
        (tuple(f"{month:02}-15" for month in range(1, 13)), "on day 15 of each month"),
        (
            ("01-15", *(f"{month:02}-14" for month in range(2, 13))),
            "each year on 15 Jan, 14 Feb, 14 Mar,",
        ),
        (("03-15",), "each year on 15 Mar"),
    ],
)
def test_the_same_day_of_each_month_is_told_as_such(days, told):
    rule = Report(id="r", report="annual_report", to="them", days=days, weekend="next_working_day", cited=FIRM)
    assert told in said(rule)
    assert said(rule).endswith("on a weekend or holiday it moves to the next working day.")
