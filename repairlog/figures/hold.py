"""A pressure test by holding, worked out: what was lost, and whether the test can say so."""

from __future__ import annotations

from decimal import Decimal

from repairlog.figures import inputs
from repairlog.figures.asked import amount_in, difference_k, in_unit, measure, needed, number, positive, read_as
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.trade import gas, hold_test
from repairlog.trade.hold_test import Hold, Reading
from repairlog.trade.unworkable import Unworkable, above_zero
from repairlog.units import convert
from repairlog.units.conversion import on_basis
from repairlog.units.measure import amount
from repairlog.words import _

SHOWN = _("What the instruments can show")
INPUTS = (
    Input(name="volume", kind="volume", label=_("Volume under test"), help=_('Such as "23.3 ft3".')),
    Input(
        name="start",
        kind="text",
        label=_("At the start"),
        metavar="PRESSURE @ TEMPERATURE",
        help=_('The first reading, such as "100 psi @ 60 F".'),
    ),
    Input(
        name="end",
        kind="text",
        label=_("At the end"),
        metavar="PRESSURE @ TEMPERATURE",
        help=_("The last reading, in the same way."),
    ),
    Input(name="hours", kind="hours", label=_("Hours held"), help=_("Elapsed between the two readings.")),
    Input(
        name="gauge_resolution",
        kind="pressure",
        label=_("Smallest step of the gauge"),
        help=_('What can just be read on it, such as "0.1 psi".'),
        group=SHOWN,
    ),
    Input(
        name="temperature_uncertainty",
        kind="difference",
        label=_("Doubt in the temperature"),
        help=_('How far the change of the gas\'s temperature may be off, such as "1 F".'),
        group=SHOWN,
    ),
    Input(
        name="limit",
        kind="volume rate",
        label=_("Largest leak allowed"),
        help=_('By the operator\'s procedure, such as "0.5 scfh".'),
        group=SHOWN,
    ),
    inputs.ATMOSPHERE,
    inputs.ELEVATION,
    Input(
        name="atmosphere_start",
        kind="atmosphere",
        label=_("Atmosphere at the start"),
        help=_("By a barometer, where it changed."),
    ),
    Input(name="atmosphere_end", kind="atmosphere", label=_("Atmosphere at the end"), help=_("The same at the end.")),
)


def work(asked: Asked) -> Answer:
    """The test worked out, with its verdict."""
    found = hold_test.hold(
        volume_ft3=positive(asked, "volume", unit="ft3"),
        start=_reading(asked, "start"),
        end=_reading(asked, "end"),
        hours=above_zero(number(asked, "hours"), field="hours"),
        resolution_psi=_resolution(asked),
        uncertainty_r=difference_k(asked, "temperature_uncertainty") * 1.8
        if "temperature_uncertainty" in asked.values
        else None,
        limit_scfh=positive(asked, "limit", unit="scf/h") if "limit" in asked.values else None,
    )
    return Answer(
        values=_values(found),
        formula="P2 = P1 T2/T1; lost = V (Tb/Pb) (P1/T1 - P2/T2)",
        source=_("the gas law at constant volume, absolute pressures and temperatures; base {base}").format(
            base=gas.BASE
        ),
        steps=_steps(found),
        bounds=(_("full vacuum to 1,000 psig, -40 to 140 °F; the gas's own temperature, not the air's"),),
        cautions=(
            _reasons()[found.reason],
            _("Pressure, length and medium of the test are the code's and the procedure's to say."),
        ),
        understood={
            **{name: text for name, text in asked.shown.items() if not name.startswith("atmosphere")},
            "atmosphere_start": f"{_atmosphere_psi(asked, 'start'):.6g} psi absolute",
            "atmosphere_end": f"{_atmosphere_psi(asked, 'end'):.6g} psi absolute",
        },
        wrong=found.verdict == hold_test.FAIL,
    )


def _values(found: Hold) -> tuple[Value, ...]:
    rate = "scf/h"
    return (
        Value(key="verdict", label=_("Verdict"), worth=found.verdict),
        Value(key="leak_scfh", label=_("Leak"), worth=found.leak_scfh, unit=rate),
        Value(key="smallest_leak_scfh", label=_("Smallest leak to be seen"), worth=found.smallest_leak_scfh, unit=rate),
        Value(key="lost_scf", label=_("Gas lost"), worth=found.lost_scf, unit="scf"),
        Value(
            key="expected_end_psig",
            label=_("Gauge without a leak"),
            worth=found.expected_end_psig,
            unit="psig",
            digits=4,
        ),
        Value(key="drop_corrected_psi", label=_("Drop, corrected"), worth=found.drop_corrected_psi, unit="psi"),
        Value(key="gauge_only_scf", label=_("By the gauge alone"), worth=found.gauge_only_scf, unit="scf"),
        Value(key="gauge_share_scfh", label=_("What the gauge may hide"), worth=found.gauge_share_scfh, unit=rate),
        Value(
            key="temperature_share_scfh",
            label=_("What the temperature may hide"),
            worth=found.temperature_share_scfh,
            unit=rate,
        ),
    )


def _steps(found: Hold) -> tuple[str, ...]:
    if found.expected_end_psig is None:
        return (_("without both temperatures the gauge alone cannot tell a leak from a change of temperature"),)
    return (
        _("without a leak the gauge would read {expected:.6g} psi").format(expected=found.expected_end_psig),
        _("drop beyond that {drop:.6g} psi, {lost:.6g} scf").format(
            drop=found.drop_corrected_psi or 0.0, lost=found.lost_scf or 0.0
        ),
    )


def _reasons() -> dict[str, str]:
    return {
        "no_limit": _("No largest leak was given, so nothing can be said of passing."),
        "no_temperatures": _("Without the gas's temperature at start and end nothing can be said of passing."),
        "leak_above_limit": _("The leak is above the limit."),
        "instruments_unknown": _(
            "Without the gauge's step and the doubt in the temperature, both above zero, no test is passed."
        ),
        "instruments_too_coarse": _(
            "Gauge and thermometer could hide a leak as large as the limit: hold longer, or read finer."
        ),
        "pressure_rose": _("The pressure rose more than gauge and thermometer explain: look at the readings."),
        "too_near_the_limit": _("Leak and doubt together reach above the limit: hold longer, or read finer."),
        "leak_within_limit": _("The leak, and what the instruments may hide beside it, stay within the limit."),
    }


def _reading(asked: Asked, name: str) -> Reading:
    pressure, at, temperature = (part.strip() for part in str(needed(asked, name)).partition("@"))
    if at and not temperature:
        raise Unworkable("not_written_so", field=name, got=f"{pressure} @"[:80], would_have="100 psi @ 60 F")
    kpa, atmosphere = _atmosphere_kpa(asked, name), _atmosphere_psi(asked, name)
    it = read_as(pressure, "pressure", field=name, atmosphere=kpa)
    absolute = on_basis(amount(it), it, basis="absolute", atmosphere=kpa)
    degrees = in_unit(read_as(temperature, "temperature", field=name), unit="degR") if at else None
    return Reading(
        gauge=float(absolute.exact * 1000) / gas.PASCALS_IN_PSI - atmosphere,
        atmosphere=atmosphere,
        temperature=degrees,
    )


def _atmosphere_kpa(asked: Asked, name: str) -> Decimal:
    given = f"atmosphere_{name}"
    return convert(measure(asked, given), "kPa").value if given in asked.values else asked.atmosphere_kpa


def _atmosphere_psi(asked: Asked, name: str) -> float:
    return float(_atmosphere_kpa(asked, name)) * 1000 / gas.PASCALS_IN_PSI


def _resolution(asked: Asked) -> float | None:
    if "gauge_resolution" not in asked.values:
        return None
    step = amount_in(asked, "gauge_resolution", unit="psi")
    if step < 0 or measure(asked, "gauge_resolution").basis == "absolute":
        raise Unworkable("not_a_step", field="gauge_resolution", got=measure(asked, "gauge_resolution").typed)
    return step


HOLD = Figure(
    name="hold",
    version="1",
    title=_("Pressure held"),
    help=_("Work out a pressure test by holding, and whether it can show a leak at all."),
    inputs=INPUTS,
    work=work,
)
