"""Every printed mistake of `published_traps.csv`: which test holds that it does not come out here.

The source of each stands in its row. A row of the table that no test answers for fails here; so does a test that is
named and not there. What no figure works out yet is said to be so, with the reason.
"""

import math
from decimal import Decimal

from repairlog.units import atmosphere_at
from tests.makers.published import table
from tests.published import test_convert, test_cure, test_emissions, test_flow, test_hold, test_linepack, test_pipe
from tests.published import test_wrap as wraps

ORIFICES = test_flow.test_a_coarse_print_of_an_orifice_table_is_not_reproduced
HANDBOOK_PACK = test_linepack.test_a_handbook_rule_gives_what_is_vented_and_not_what_is_held
ATMOSPHERES = test_convert.test_a_misprinted_atmosphere_is_not_reproduced
MERCURY = test_convert.test_a_rounded_inch_of_mercury_of_a_regulation_is_not_used


def test_a_misprinted_temperature_of_the_standard_atmosphere_is_not_behind_its_pressure() -> None:
    # At 4,572 m a table prints -25.96 degC for -14.72 degC; the pressure goes with the temperature by the hydrostatic
    # law, P = P0 (T/T0)^5.25588. Source: U.S. Standard Atmosphere 1976.
    kpa = float(atmosphere_at(Decimal(4572)))
    right, printed = (101.325 * ((273.15 + celsius) / 288.15) ** 5.25588 for celsius in (-14.70, -25.96))
    assert (math.isclose(kpa, right, rel_tol=1e-3), math.isclose(kpa, printed, rel_tol=1e-3)) == (True, False)


ANSWERED = {
    ("NFPA 54 Table E.1.1(a) drill 78", "0.70"): ORIFICES,
    ("NFPA 54 Table E.1.1(a) drill 77", "0.88"): ORIFICES,
    ("NFPA 54 table columns 5 and 6 in w.c.", "e.g."): ORIFICES,
    ("1658.5 in Q=", "1658.5"): test_flow.test_the_orifice_constant_reads_a_little_high_and_the_figure_says_so,
    ("a vendor knowledge-base page on methane Cd", "Cd A"): (
        test_flow.test_a_choked_formula_printed_with_k_in_the_wrong_place_is_not_used
    ),
    ("a vendor knowledge-base page on API 520", "A = "): test_flow.test_flow_goes_with_pressure_and_not_with_its_root,
    ("an online gas-loss calculator page", "about 0.53"): (
        test_flow.test_natural_gas_is_not_taken_to_choke_at_the_ratio_of_air
    ),
    ("Pipeline rule of thumb 0.372", "P printed"): HANDBOOK_PACK,
    ("same, 350 psig example", "30,280"): HANDBOOK_PACK,
    ("same, second printed example", "(8 miles"): (
        test_linepack.test_a_printed_expression_that_is_a_thousand_times_too_large_is_not_followed
    ),
    ("Ly = 9 D^2", "0.903"): test_hold.test_a_rounded_constant_of_a_handbook_is_not_used,
    ("knowt.com HVAC note", "164.7"): test_hold.test_a_printed_compensation_for_temperature_is_not_reproduced,
    ("sciencing.com", "41.4"): test_flow.test_a_handbook_rule_holds_with_a_coefficient_below_one,
    ("ASHRAE/engineersedge table 4,000 ft", "12.682"): ATMOSPHERES,
    ("engineersedge SI table 4572 m", "-25.96"): (
        test_a_misprinted_temperature_of_the_standard_atmosphere_is_not_behind_its_pressure
    ),
    ("engineeringtoolbox table headed geopotential", "5000 ft"): ATMOSPHERES,
    ("engineeringtoolbox air-altitude page", "1 in Hg"): MERCURY,
    ("40 CFR 98 Table A-2", "Pa -> in Hg"): MERCURY,
    ("a coating-tape vendor page", "coefficient 1.55"): (
        wraps.test_a_printed_coefficient_for_fifty_five_per_cent_is_a_third_short
    ),
    ("Pipeline Rules of Thumb p. 192", "15 squares"): (
        wraps.test_felt_for_a_mile_has_an_allowance_that_bare_area_has_not
    ),
    ("widely printed 28 d at 18 C", "19,800"): test_cure.test_a_widely_printed_maturity_is_not_reproduced,
    ("gas detector span gas", "2.5 %"): test_convert.test_span_gas_reads_by_the_limit_that_is_named,
    ("P from printed wall 0.216", "80.04"): (
        test_pipe.test_the_rounded_wall_of_a_table_does_not_raise_a_design_pressure
    ),
    ("40 CFR 98 Table A-1 copies", "CH4 25"): test_emissions.test_potentials_are_the_published_ones_and_dated,
}
"""By what its source and its printed value begin with, the test that answers for a row."""

NO_FIGURE_YET = {
    ("Pipeline Rules of Thumb p. 227", "rule 0.001047"): "no figure works out how much primer a pipe takes",
    ("graphpad FAQ before 22 Dec 2013", "Excel tail"): "no figure gives an interval of a count",
    ("R epitools pois.daly", "upper 2.996"): "no figure gives an interval of a count",
    ("pooled sum (O-E)^2/E", "15.23"): "no figure compares how long repairs last",
}


def test_every_printed_mistake_is_answered_for() -> None:
    rows = [(row["source"], row["printed"]) for row in table("published_traps.csv")]
    open_rows = [row for row in rows if not _names(row, ANSWERED) and not _names(row, NO_FIGURE_YET)]
    assert (open_rows, len(rows)) == ([], len(ANSWERED) + len(NO_FIGURE_YET))
    assert [key for key in (*ANSWERED, *NO_FIGURE_YET) if sum(_begins(row, key) for row in rows) != 1] == []


def _names(row: tuple[str, str], keys: dict[tuple[str, str], object]) -> bool:
    return any(_begins(row, key) for key in keys)


def _begins(row: tuple[str, str], key: tuple[str, str]) -> bool:
    return row[0].startswith(key[0]) and row[1].startswith(key[1])
