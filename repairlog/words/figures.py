"""Why a figure is refused: a sentence for each code, and what to do."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.words import _, measures


def sentence(code: str, facts: Mapping[str, str]) -> tuple[str, str]:
    """Message and hint for a code of `repairlog.trade.unworkable` or `repairlog.units`; KeyError for another code."""
    told = {"got": "", "least": "", "most": "", "would_have": "", "other": "", "message": "", "hint": ""} | dict(facts)
    own = {
        **_of_what_was_typed(),
        **_of_bounds(),
        **_of_gas(),
        **_of_pipe(),
        **_of_wraps(),
        **_of_cure(),
        **_of_rules(),
        **_of_a_leak(),
    }
    if code not in own:
        return measures.sentence(code, facts)
    message, hint = own[code]
    return message.format_map(told), hint.format_map(told)


def _of_what_was_typed() -> dict[str, tuple[str, str]]:
    return {
        "missing": (_("This is needed, and was not given."), _("Give it, with its unit.")),
        "given_both": (_("This and {other} say the same in two ways."), _("Give one of the two.")),
        "not_together": (_("This does not go together with {other}."), _("Give one of the two.")),
        "number_alone": (
            _("“{got}” has something after its number."),
            _("Write the number alone, such as 1.3 or 2/3."),
        ),
        "not_a_choice": (_("“{got}” is not known here."), _("Choose one of: {would_have}.")),
        "not_a_share": (_("“{got}” is no share of a whole."), _("Write a share from 0 to 1, or per cent up to 100 %.")),
        "not_a_year": (_("“{got}” is no year."), _("Write a year in four digits, such as 2025.")),
        "too_many": (_("This was given more than {most} times."), _("Work it out in several goes.")),
        "too_long_for_address": (
            _("More was typed than an address can hold, {most} characters, so nothing of it was read."),
            _("Shorten it; a log of temperatures may come as a file."),
        ),
        "no_file": (_("No file came with this, or an empty one."), _("Choose the file again, and send it.")),
        "not_written_so": (_("“{got}” cannot be read here."), _("Write it like {would_have}.")),
    }


def _of_bounds() -> dict[str, tuple[str, str]]:
    return {
        "outside": (
            _("{got} is outside what this figure holds for, {least} to {most}."),
            _("Look at the number and its unit; beyond these bounds no figure is given."),
        ),
        "not_whole": (_("“{got}” is not a whole number."), _("Write how many, such as 2.")),
        "file_unreadable": (_("{got} cannot be read: {other}"), _("Put that file right, or take the shipped one.")),
        "no_such_factor": (_("The factor table has nothing for “{got}”."), _("Choose one of: {would_have}.")),
        "not_above_zero": (_("“{got}” is not above zero."), _("Look at the number and its sign.")),
    }


def _of_gas() -> dict[str, tuple[str, str]]:
    return {
        "no_escape": (
            _("The pressure inside is not above the atmosphere around, so no gas is driven out."),
            _("Look at the sign, the unit, and whether it is gauge or absolute."),
        ),
        "hole_wider_than_pipe": (
            _("A hole {got} wide does not fit in a pipe {most} wide inside."),
            _("Look at the two units; for a line cut through, ask for a severed line."),
        ),
        "severed_too_short": (
            _("This line is so short that its entrance, not its length, holds the gas back."),
            _("Take the bore as a hole instead, and see the answer as an upper bound."),
        ),
        "below_atmosphere": (
            _("The pressure is below the atmosphere around, for which no compressibility is on file."),
            _("Look at the sign, the unit, and whether it is gauge or absolute."),
        ),
        "rises": (
            _("The pressure after is above the one before, so nothing is let out."),
            _("Look at which is which."),
        ),
        "not_a_step": (
            _("“{got}” is no step of a gauge."),
            _("Write the smallest difference that can be read on it, such as 0.1 psi."),
        ),
        "base_of_gas_alone": (
            _("“{got}” is no volume or rate of gas, so it has no base."),
            _("Leave --from-base and --to-base out."),
        ),
        "gwp_unknown": (
            _("No global warming potential is on file for {got}."),
            _("Years from {least} on are; add yours to config/emissions."),
        ),
        "local_time_twice": (
            _("“{got}” came twice in that zone, when clocks went back."),
            _("Write its offset behind it, such as 2025-11-02T01:30-04:00."),
        ),
        "local_time_never": (
            _("“{got}” never was in that zone: clocks went forward over it."),
            _("Look at the time, or write its offset behind it."),
        ),
        "zone_unknown": (_("“{got}” is no zone known here."), _("Write one such as America/New_York.")),
        "ends_before": (_("It ends before it begins: “{got}”."), _("Look at the two moments.")),
        "no_rate_before": (
            _("“{got}” gives a new pressure, but no rate and pressure stand before it."),
            _("Write the first segment with both, such as: 120 scfh @ 60 psi, 6 h."),
        ),
    }


def _of_a_leak() -> dict[str, tuple[str, str]]:
    return {
        "hole_not_free": (
            _("“{got}”: a hole's flow holds only for gas that blows free, and nobody said that this does."),
            _("Say that it blows free; else give a measured rate or a factor. A buried leak's hole tells no rate."),
        ),
        "hole_without_pressure": (
            _("“{got}” names a hole without the pressure in the line."),
            _("Write both, such as: hole 1/16 in @ 60 psi, 6 h."),
        ),
        "source_without_rate": (
            _("Source {got} has neither a rate nor a hole."),
            _("Give each source its own, or one rate for all of them together."),
        ),
        "no_such_source": (_("This leak has no source {got}."), _("Look at the numbers of its sources on its sheet.")),
        "not_our_gas": (
            _("By its ending no gas is counted for this leak."),
            _("Look under the number that it goes on as, where it was joined to one."),
        ),
        "found_not_known": (
            _("The day on which this leak was found is not known: an old list says “on or before” it."),
            _("Put the day right on its sheet, or give rates and hours by themselves."),
        ),
        "cannot_be_estimated": (
            _("What this leak lost cannot be estimated from what is on the books."),
            _("Give a measured rate or a factor; the hole only where the gas blows free."),
        ),
        "no_stretch": (
            _("By its entries no gas came out of this leak."),
            _("Look at the moments of its entries."),
        ),
        "no_such_leak": (_("No leak bears the number “{got}”."), _("Write it as it stands on its sheet.")),
    }


def _of_pipe() -> dict[str, tuple[str, str]]:
    return {
        "not_of_material": (
            _("This belongs to {other} pipe; {got} is asked about."),
            _("Leave it out, or look at the material."),
        ),
        "wall_too_thick": (
            _("A wall of {got} leaves nothing open in a pipe {most} across."),
            _("Look at the two units."),
        ),
        "gauge_asked": (_("“{got}” is absolute; pipe is reckoned with gauge pressure."), _("Write it as gauge.")),
        "too_wide_for_factor": (
            _("A design factor of {got} is for nominal sizes to {most} alone."),
            _("Take the usual design factor."),
        ),
        "no_clause": (
            _("No test clause on file speaks of a {got} line at {most}."),
            _("Look at the clause itself, or add yours to config/pipe/tests.toml."),
        ),
        "clause_not_for": (
            _("Clause {got} does not speak of such a line ({other})."),
            _("Look at material, pressure, and share of the yield strength; or name the kind of line instead."),
        ),
        "no_test_pressure": (
            _("Clause {got} gives no pressure for a line at {most}."),
            _("Look at the clause itself, and at what limits the operating pressure."),
        ),
    }


def _of_wraps() -> dict[str, tuple[str, str]]:
    return {
        "tape_too_wide": (
            _("Tape {got} wide at this overlap cannot be wound around a pipe {most} across."),
            _("Take narrower tape or more overlap."),
        ),
        "too_short_to_cover": (
            _("A length of {got} is shorter than the tape is wide ({least})."),
            _("Count plain turns there instead."),
        ),
        "lap_too_wide": (
            _("A lap of {got} is as wide as the sheet ({most})."),
            _("Look at the two units."),
        ),
        "core_too_wide": (
            _("A core of {got} leaves no tape on a roll of {most}."),
            _("Look at the two units."),
        ),
        "splice_too_long": (
            _("A splice of {got} takes up the whole roll ({most})."),
            _("Look at the two units."),
        ),
    }


def _of_cure() -> dict[str, tuple[str, str]]:
    return {
        "table_too_short": (_("A table has two rows at least."), _("Write the maker's rows, the coldest first.")),
        "table_not_in_order": (
            _("The table's temperatures do not rise from row to row."),
            _("Write its rows with the coldest first, each temperature once."),
        ),
        "table_rises": (
            _("In the table a warmer row takes longer than a colder one."),
            _("Look at the times and their units."),
        ),
        "outside_table": (
            _("{got} is outside the table, which goes from {least} to {most}."),
            _("No time is given beyond a table's ends: warm or shelter the material, or ask its maker."),
        ),
        "log_too_short": (
            _("The log has fewer than two readings."),
            _("Give a CSV file with a time and a temperature in each line."),
        ),
        "log_not_in_order": (
            _("The log goes back: {got} comes after {other}."),
            _("Put its lines in the order of time, each time once."),
        ),
        "log_line": (
            _("Line {got} of the log cannot be read: {other}"),
            _("Each line says a time and a temperature; leave a reading out that was not taken."),
        ),
        "log_of_other_unit": (
            _("The log's head says “{got}”, and its bare numbers would be taken as hours and °C."),
            _("Write the unit in each cell, such as 68 F or 30 min."),
        ),
        "log_with_gap": (
            _("After {got} the log has a gap of more than {most}, three times its usual spacing."),
            _("What the material had in between is not known: no figure is given over a gap."),
        ),
    }


def _of_rules() -> dict[str, tuple[str, str]]:
    return {
        "said": ("{message}", "{hint}"),
        "hour_needed": (
            _("The interval is counted in hours, and {got} is a whole day."),
            _("Give the moment, such as {got}T10:02."),
        ),
        "zone_needed": (
            _("“{got}” is a moment, and nobody says in which zone its day is counted."),
            _("Name the zone, such as America/New_York, or give the day alone."),
        ),
        "past_the_calendar": (_("“{got}” lies past the year 9999 from there."), _("Look at the year.")),
        "round_needed": (
            _("“{got}” says no length of time: it is due at the next round."),
            _("Say when the next round is."),
        ),
        "calendar_unknown": (
            _("No calendar of holidays “{got}” is known."),
            _("Write a country or a part of one: US, US-NY, GB-SCT."),
        ),
    }
