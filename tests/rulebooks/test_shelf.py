"""The rulebooks that come with a release, and how one extends another."""

from __future__ import annotations

from datetime import date

import pytest

from repairlog.rulebooks import RulebookWrong, Shelf, read_shelf, shelf_of, shipped_shelf
from repairlog.rulebooks.forms import FORMS
from repairlog.rulebooks.shelf import looked_at
from repairlog.shipped import config
from repairlog.trade.rulebook import KINDS, Due, in_force, rule_named, rules

HEAD = 'id = "{id}"\ntitle = "T"\nauthority = "invented"\nstatus = "in_force"\nextends = {extends}\n'
CITED = 'clause = "1"\nsource = "invented"\nmark = "text_checked"\nchecked = 2026-11-25\n'
GRADE = '[[grade]]\ncode = "1"\nrank = 1\nmeaning = "a hazard"\n' + CITED
DUE = '[[due]]\nid = "repair"\ntask = "repair"\ncounted_from = "found"\nowed_until = "repaired"\nwithin = "{within}"\n'


def book(id: str, *rules: str, extends: str = "[]") -> tuple[str, bytes]:
    extends_line = HEAD.format(id=id, extends=extends).replace("extends = []\n", "")
    return f"{id}.toml", (extends_line + "".join(rules)).encode()


def due(within: str) -> str:
    return DUE.format(within=within) + CITED


@pytest.fixture(scope="module")
def shipped() -> Shelf:
    return shipped_shelf()


def test_eleven_rulebooks_are_shipped_and_every_one_can_be_read(shipped):
    assert sorted(shipped.by_id) == [
        *("gb", "us-ca", "us-federal", "us-federal-2023", "us-fl", "us-guide"),
        *("us-ma", "us-nj", "us-ny", "us-tx", "us-wa"),
    ]


def test_only_the_proposal_is_proposed_and_only_the_guide_is_guidance(shipped):
    other = {id: each.rulebook.status for id, each in shipped.by_id.items() if each.rulebook.status != "in_force"}
    assert other == {"us-federal-2023": "proposed", "us-guide": "guidance"}


def test_no_rule_that_is_shipped_stands_without_clause_source_and_mark(shipped):
    every = [rule.cited for each in shipped.by_id.values() for _, rule in rules(each.rulebook)]
    assert len(every) > 300
    assert [cited for cited in every if not (cited.clause and cited.source and cited.mark and cited.rulebook)] == []


@pytest.mark.parametrize(  # source of each: its own clause, as the rulebook cites it
    ("book", "rule", "within", "mark"),
    [
        ("us-guide", "repair-2", "1 calendar year, not exceeding 15 months", "memory"),
        ("us-federal", "survey-elsewhere", "5 calendar years, not exceeding 63 months", "text_checked"),
        ("us-federal", "unprotected-line-checked", "39 months", "text_checked"),
        ("us-tx", "repair-3", "36 months", "restated"),
        ("us-ny", "follow-up", "not before 14 days, not after 30 days", "memory"),
        ("us-ma", "repair-3e-replacement", "3 years", "text_checked"),
        ("gb", "act", "12 hours", "text_checked"),
        ("us-nj", "repair-1", "7 days", "text_checked"),
        ("us-fl", "repair-2", "90 days", "text_checked"),
        ("us-wa", "letter-to-owner", "24 hours", "text_checked"),
        ("us-ca", "repair-2", "15 months", "memory"),
        ("us-federal-2023", "repair-2", "6 months", "memory"),
    ],
)
def test_a_figure_of_the_law_stands_with_how_far_it_is_known(shipped, book, rule, within, mark):
    found = rule_named(shipped.by_id[book].rulebook, rule)
    assert (found.within, found.cited.mark) == (within, mark)


def test_what_is_extended_is_taken_in_with_the_id_of_whoever_says_it(shipped):
    texas = shipped.by_id["us-tx"].rulebook
    assert rule_named(texas, "survey-business-district").cited.rulebook == "us-federal"
    assert rule_named(texas, "repair-2").cited.rulebook == "us-tx"


def test_on_a_day_the_annual_report_has_the_rule_of_that_day(shipped):
    federal = shipped.by_id["us-federal"].rulebook
    before, after = (in_force(federal, on=date(2025, 10, day)).reports for day in (8, 9))
    annual = [[(r.id, r.weekend) for r in reports if r.report == "annual_report"] for reports in (before, after)]
    assert annual == [
        [("annual-report-before-october-2025", "stays")],
        [("annual-report", "shifts_direction_not_read")],
    ]


def test_every_kind_of_rule_can_be_read():
    assert set(FORMS) == set(KINDS)


def test_a_rule_of_the_same_id_replaces_the_one_that_is_extended():
    shelf = shelf_of([book("base", GRADE, due("30 days")), book("own", due("20 days"), extends='["base"]')])
    assert [(rule.within, rule.cited.rulebook) for rule in shelf.by_id["own"].rulebook.dues] == [("20 days", "own")]
    assert [rule.within for rule in shelf.by_id["base"].rulebook.dues] == ["30 days"]


def test_a_rule_that_is_dropped_is_gone_and_the_reason_stays():
    drop = '[[drop]]\nid = "repair"\nreason = "not ours"\n'
    own = shelf_of([book("base", due("30 days")), book("own", drop, extends='["base"]')]).by_id["own"].rulebook
    assert own.dues == ()
    assert [(each.id, each.reason, each.rulebook) for each in own.dropped] == [("repair", "not ours", "own")]


def test_a_target_stands_beside_the_limit_and_takes_nothing_of_it():
    target = '[[target]]\nid = "sooner"\nbeside = "repair"\nwithin = "10 days"\n' + CITED
    own = shelf_of([book("base", due("30 days")), book("own", target, extends='["base"]')]).by_id["own"].rulebook
    assert [each.within for each in own.dues] == ["30 days"]
    assert [(each.beside, each.within) for each in own.targets] == [("repair", "10 days")]


def test_the_digest_covers_the_text_and_what_it_extends():
    first = shelf_of([book("base", due("30 days")), book("own", extends='["base"]')])
    other = shelf_of([book("base", due("31 days")), book("own", extends='["base"]')])
    again = shelf_of([book("own", extends='["base"]'), book("base", due("30 days"))])
    digests = [shelf.by_id["own"].rulebook.digest for shelf in (first, other, again)]
    assert digests[0] != digests[1]
    assert digests[0] == digests[2]


def test_the_ends_of_lines_change_no_digest():
    name, raw = book("base", due("30 days"))
    same = shelf_of([(name, raw.replace(b"\n", b"\r\n"))])
    assert same.by_id["base"].rulebook.digest == shelf_of([(name, raw)]).by_id["base"].rulebook.digest


def test_the_whole_of_a_rulebook_is_itself_after_all_that_it_rests_on():
    shelf = shelf_of([book("own", extends='["middle"]'), book("middle", extends='["base"]'), book("base", GRADE)])
    whole = shelf.whole(shelf.by_id["own"].rulebook.digest)
    assert [each.rulebook.id for each in whole] == ["base", "middle", "own"]
    assert shelf.whole("0" * 64) == []


def test_a_rulebook_beside_a_shelf_replaces_the_one_of_its_id_and_extends_the_others(shipped):
    shelf = shelf_of([book("own", extends='["us-guide"]')], beside=shipped)
    own = shelf.by_id["own"].rulebook
    assert isinstance(rule_named(own, "repair-2"), Due)
    assert len(shelf.by_id) == 12


def test_everything_that_is_wrong_in_all_files_is_raised_at_once(tmp_path):
    for name in ("one", "two"):
        (tmp_path / f"{name}.toml").write_text("id = 1\n")
    with pytest.raises(RulebookWrong) as raised:
        read_shelf(sorted(tmp_path.iterdir()))
    assert {wrong.file[-8:] for wrong in raised.value.wrongs} == {"one.toml", "two.toml"}
    assert len(raised.value.wrongs) == 8


def test_the_example_of_a_rulebook_of_ones_own_holds_and_fills_in_what_the_guide_leaves_open():
    example = looked_at([config() / "rulebook.example.toml"], beside=shipped_shelf())
    assert example.wrongs == ()
    own = example.by_id["own-practice"].rulebook
    assert [rule.wait for rule in own.venting_waits] == ["24 hours"]
    assert [gap.id for gap in own.gaps if gap.instead_of == "venting_wait"] == []
    assert [(each.beside, each.within) for each in own.targets] == [("repair-2", "3 months")]
