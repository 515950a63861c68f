"""Limits put in the unit of a reading, against the same comparison in exact fractions.

Source: exact arithmetic of fractions.
"""

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from repairlog.trade.grading import Found, Reading, called_for, grader
from repairlog.trade.rulebook import Rulebook
from tests.makers.rulebooks import GRADES, bound, criterion

LIMITS = {
    "lel-80": (("at_least", "80 %LEL"), ("below", "200 %LEL")),
    "lel-20": (("above", "20 %LEL"), ("at_most", "80 %LEL")),
    "gas-4": (("at_least", "4 %gas"),),
    "gas-50": (("above", "50 %gas"),),
    "ppm-500": (("at_least", "500 ppm"), ("at_most", "40000 ppm")),
    "any": (),
}
HOLDS = {
    "at_least": lambda value, limit: value >= limit,
    "above": lambda value, limit: value > limit,
    "below": lambda value, limit: value < limit,
    "at_most": lambda value, limit: value <= limit,
}
BY = grader(
    Rulebook(
        id="limits",
        title="Limits",
        authority="nobody",
        status="guidance",
        digest="1" * 64,
        grades=GRADES,
        criteria=tuple(criterion(id, "1", reading=bound(**dict(sides))) for id, sides in LIMITS.items()),
    )
)


def gas(value: str, unit: str, basis: Decimal) -> Fraction:
    """Per cent by volume: 100 %LEL is the basis, 1 % is 10,000 ppm."""
    return Fraction(value) * {"%gas": Fraction(1), "ppm": Fraction(1, 10_000), "%LEL": Fraction(basis) / 100}[unit]


@given(
    value=st.sampled_from(["0", "0.05", "4", "3.52", "20", "50", "80", "88", "200", "500", "40000", "35200", "1000"])
    | st.decimals(min_value=0, max_value=50_000, places=4).map(str),
    unit=st.sampled_from(["%LEL", "%gas", "ppm"]),
    basis=st.sampled_from([Decimal("5.0"), Decimal("4.4"), Decimal("2.1")]),
)
def test_a_reading_keeps_to_just_those_limits_to_which_its_fraction_keeps(
    value: str, unit: str, basis: Decimal
) -> None:
    found = Found(readings=(Reading(key="r1", value=Decimal(value), unit=unit, lel_basis=basis),))
    mine = gas(value, unit, basis)
    expected = {
        id
        for id, sides in LIMITS.items()
        if all(HOLDS[side](mine, gas(*limit.split(), basis)) for side, limit in sides or (("above", "0 %gas"),))
    }
    assert {each.criterion.id for each in called_for(BY, found).met} == expected
