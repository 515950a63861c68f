"""Every rulebook and every code of a rule can be told in words."""

from __future__ import annotations

import pytest

from repairlog.rulebooks import shipped_shelf
from repairlog.trade.rulebook import COUNTED_FROM, KINDS, MARKS, STATUSES, TASKS, rules
from repairlog.words.rulebooks import mark_word, printed, status_word
from repairlog.words.rulebooks.coded import counted_word, task_word


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
    said = {rule.id: rule.says for part in printed(guide) for rule in part.rules}
    assert said["repair-2"] == (
        "Repair: 1 calendar year, not exceeding 15 months, counted from the report,"
        " owed until it is repaired, for grade 2."
    )
    assert said["confined-space-20"] == (
        "A reading of 20 %LEL or more and below 80 %LEL in a confined space: calls for grade 2."
        " (confined space, methane at least 20 %LEL and below 80 %LEL)"
    )
