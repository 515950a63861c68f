"""A source as it is known: first told, then found to be otherwise, and what of that was known when work was done.
Common practice, no source: what is dug up may be another pipe than the map said."""

from __future__ import annotations

from typing import Any

import pytest

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.standing import standing
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests
from repairlog.trade.sources import Known, before, known_by, seen_otherwise, sources
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.told import story

LEAK = m.new_id()
TEE = m.source(LEAK, coating="coal tar", installed_decade="1960s")
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}


def live(*said: dict[str, Any]) -> list[Standing]:
    stand = (each for each in standing(story(OPENED, TEE, *said)) if each.void is None)
    return sorted(stand, key=order_of_happening)


def tee(*said: dict[str, Any]) -> Known:
    (known,) = sources(live(*said))
    return known


def told(known: Known) -> tuple[str, str, str, str]:
    return known.text("part"), known.text("material"), known.text("defect"), known.text("coating")


def test_a_source_is_what_was_told_of_it_first_until_somebody_says_otherwise() -> None:
    assert (told(tee()), tee().otherwise) == (("service", "steel", "", "coal tar"), ())


def test_what_it_turns_out_to_be_takes_the_place_of_what_was_told_and_leaves_the_rest() -> None:
    known = tee(m.otherwise(LEAK, TEE["id"]))
    assert told(known) == ("main", "plastic_pe", "crack", "coal tar")
    assert (known.otherwise, known.added.text("material")) == (("part", "material", "defect"), "steel")


def test_of_two_words_the_later_by_when_it_happened_stands_in_whatever_order_they_came() -> None:
    first = m.otherwise(LEAK, TEE["id"], happened="2026-03-05", material="copper")
    later = m.otherwise(LEAK, TEE["id"], happened="2026-03-06", material="cast_iron")
    assert [tee(*each).text("material") for each in ((first, later), (later, first))] == ["cast_iron"] * 2


def test_a_correction_corrects_the_change_that_it_names_and_a_void_takes_it_back() -> None:
    change = m.otherwise(LEAK, TEE["id"])
    assert tee(change, m.corrected(change["id"], ("material", "copper"))).text("material") == "copper"
    assert told(tee(change, m.void(change["id"]))) == told(tee())


def test_of_year_and_decade_whichever_was_told_later_stands_alone() -> None:
    known = tee(m.otherwise(LEAK, TEE["id"], installed_year=1931))
    assert (known.text("installed_year"), known.text("installed_decade")) == ("1931", "")
    both = tee(m.otherwise(LEAK, TEE["id"], installed_year=1931, installed_decade="before_1940"))
    assert (both.text("installed_year"), both.text("installed_decade")) == ("1931", "before_1940")


def test_a_change_without_an_hour_on_the_day_the_source_was_found_speaks_about_what_was_told() -> None:
    early = m.otherwise(LEAK, TEE["id"], happened="2026-03-03 09:00")  # the clock of another phone
    assert tee(early).text("material") == "plastic_pe"


@pytest.mark.parametrize(("at", "material"), [("09:49", "steel"), ("09:50", "plastic_pe"), ("09:51", "plastic_pe")])
def test_a_repair_goes_by_what_was_known_when_it_was_made(at: str, material: str) -> None:
    repair = m.attempt(LEAK, source=TEE["id"], happened=f"2026-03-05 {at}")
    every = live(repair, m.otherwise(LEAK, TEE["id"]))
    (known,), made = sources(every), next(each for each in every if each.kind == "repair_attempted")
    assert (known_by(known, made).text("material"), known.text("material")) == (material, "plastic_pe")


def test_before_a_change_it_stood_as_the_ones_before_it_left_it() -> None:
    changes = [m.otherwise(LEAK, TEE["id"], happened=f"2026-03-0{day}", size=f"{day} in") for day in (5, 6, 7)]
    known = tee(*changes)
    assert [before(known, each).text("size") for each in known.changes] == ["3/4 in", "5 in", "6 in"]


def test_a_change_of_a_source_of_another_leak_is_kept_and_raised() -> None:
    stray = m.otherwise(LEAK, m.new_id())
    as_is = leak(standing(story(OPENED, TEE, stray)), rests=Rests())
    assert as_is is not None
    assert [(gap.code, str(gap.entry), gap.row) for gap in as_is.gaps] == [
        ("source_not_of_this_leak", stray["id"], "source")
    ]
    assert told(as_is.sources[0].known) == told(tee())


@pytest.mark.parametrize(
    ("on_record", "seen", "otherwise"),
    [
        ("coal tar", {"outside": "coated", "coating": "Coal  Tar"}, None),
        ("coal tar", {"outside": "coated", "coating": "wax"}, ("coating",)),
        ("coal tar", {"outside": "coated", "coating": ""}, None),
        ("coal tar", {"outside": "bare", "coating": ""}, ("outside",)),
        ("Bare", {"outside": "bare", "coating": ""}, None),
        ("bare", {"outside": "coated", "coating": ""}, ("outside",)),
        ("none", {"outside": "coated", "coating": "wax"}, ("outside", "coating")),
        ("", {"outside": "bare", "coating": ""}, None),
        ("coal tar", {"outside": "", "coating": ""}, None),
    ],
)
def test_a_pipe_seen_otherwise_than_told_is_noticed_and_silence_is_not(
    on_record: str, seen: dict[str, str], otherwise: tuple[str, ...] | None
) -> None:
    known = tee(m.otherwise(LEAK, TEE["id"], coating=on_record)) if on_record else _untold()
    (exposed,) = story(d.exposed(m.new_id(), source=TEE["id"], **seen))
    assert seen_otherwise(known, exposed) == otherwise


def _untold() -> Known:
    (known,) = sources(story(m.source(LEAK)))
    return known
