"""What `figure pipe` takes for the least test pressure of a clause and what the federal rulebook says are one thing."""

from __future__ import annotations

from decimal import Decimal

from repairlog.figures.pipe_tables import clauses
from repairlog.rulebooks import shipped_shelf
from repairlog.trade.rulebook import Bound, TestPressure

RULES = shipped_shelf().by_id["us-federal"].rulebook.test_pressures


def test_every_band_of_a_clause_stands_in_the_rulebook_and_the_other_way_round() -> None:
    of_figure = {
        (
            each.id,
            *map(_number, (band.from_psig, band.above_psig, band.below_psig or each.below_psig, band.to_psig)),
            *map(_number, (band.psig, band.times or None)),
        )
        for each in clauses()
        for band in each.bands
    }
    of_rulebook = {_band(rule) for rule in RULES if rule.least and rule.least.pressure}
    assert of_figure == of_rulebook


def test_how_long_it_is_held_and_how_far_that_is_known_agree() -> None:
    of_figure = {(each.id, each.duration, each.mark) for each in clauses() if each.duration}
    assert of_figure == {(_clause(rule), rule.hold.typed, rule.cited.mark) for rule in RULES if rule.hold}


def _band(rule: TestPressure) -> tuple[str | Decimal | None, ...]:
    assert rule.least
    assert rule.least.pressure
    of = rule.operating or Bound()
    sides = [each.value if each else None for each in (of.at_least, of.above, of.below, of.at_most)]
    return (_clause(rule), *sides, rule.least.pressure.value, rule.least.times)


def _clause(rule: TestPressure) -> str:
    return rule.cited.clause.partition("(")[0]


def _number(value: float | None) -> Decimal | None:
    return None if value is None else Decimal(str(value))
