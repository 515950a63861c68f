"""How much gas escapes through a hole, an orifice at low pressure, or a line cut through."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from repairlog.figures import dated, inputs
from repairlog.figures.asked import absolute_pa, amount_in, measure, number, positive
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.trade import flow, gas
from repairlog.trade.unworkable import Unworkable, above_zero
from repairlog.units import convert
from repairlog.words import _

VISCOSITY = 1.09e-5
"""Pa s, of methane near 15 degC and the atmosphere. Source: CoolProp 8.0.0."""

CUT = _("A line cut through")
INPUTS = (
    Input(name="hole", kind="hole", label=_("Hole across"), help=_('The round hole, such as "3/16 in".')),
    Input(
        name="pressure",
        kind="pressure",
        label=_("Pressure in the line"),
        help=_('Gauge unless it says absolute, such as "60 psi".'),
    ),
    Input(
        name="temperature",
        kind="temperature",
        label=_("Temperature of the gas"),
        help=_("In the line."),
        default="59 F",
    ),
    inputs.GRAVITY,
    Input(name="methane", kind="yes", label=_("Pure methane"), help=_("The gas is pure methane.")),
    inputs.METHANE_SHARE,
    inputs.K_RATIO,
    Input(
        name="cd",
        kind="number",
        label=_("Discharge coefficient"),
        help=_("Share of the ideal flow that gets through, 1 unless given; at low pressure the tables' K, 0.90."),
    ),
    Input(
        name="z",
        kind="number",
        label=_("Compressibility"),
        help=_("Of the gas in the line; 1 leaves it out."),
        default="1",
    ),
    inputs.ATMOSPHERE,
    inputs.ELEVATION,
    Input(name="duration", kind="duration", label=_("For how long"), help=_('Such as "6 h"; gives volume and mass.')),
    inputs.YEAR,
    Input(
        name="low_pressure",
        kind="yes",
        label=_("Low-pressure form"),
        help=_("The orifice form of the printed tables, up to 28 inches of water."),
    ),
    Input(
        name="severed",
        kind="yes",
        label=_("Line cut through"),
        help=_("Give the pipe inside and its length in place of a hole."),
        group=CUT,
    ),
    Input(name="id", kind="hole", label=_("Pipe inside"), help=_("The pipe's inside diameter."), group=CUT),
    Input(
        name="length",
        kind="distance",
        label=_("Length"),
        help=_("From where the pressure is held to the cut."),
        group=CUT,
    ),
    Input(
        name="roughness",
        kind="hole",
        label=_("Roughness"),
        help=_("Of the pipe's wall inside."),
        default="0.0015 mm",
        group=CUT,
    ),
)

_MEASURED_AGAINST = _(
    "taken with Z = 1, measured against real methane: 0.3 % low to 2 psig, 1.5 % to 60, 2.2 % to 125, 14 % to 1,000"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worked:
    regime: str
    mass_flow: float
    scfh: float
    formula: str
    source: str
    steps: tuple[str, ...]
    bounds: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def work(asked: Asked) -> Answer:
    """The flow, and what came out over a duration where one is given."""
    it = _gas(asked)
    worked = _through(asked, it)
    values = [
        Value(key="standard_flow_scfh", label=_("Flow"), worth=worked.scfh, unit=f"scf/h ({gas.BASE})"),
        Value(key="mass_flow_kg_s", label=_("By mass"), worth=worked.mass_flow, unit="kg/s"),
        Value(key="regime", label=_("Regime"), worth=worked.regime),
        Value(key="standard_conditions", worth=gas.BASE),
        *_over_time(asked, worked, it),
    ]
    return Answer(
        values=tuple(values),
        formula=worked.formula,
        source=worked.source,
        steps=worked.steps,
        bounds=worked.bounds,
        cautions=(
            *worked.cautions,
            _("The shape of the opening alone moves this by a quarter either way; two digits are worth having."),
            _("For gas that blows free. Soil holds a buried leak back: take a measured rate there."),
        ),
        understood=_understood(asked),
    )


def _understood(asked: Asked) -> dict[str, str]:
    skip = {"severed": {"z"}, "hole": {"roughness"}, "low": {"roughness", "k", "z", "temperature"}}
    form = "severed" if "severed" in asked.values else "low" if "low_pressure" in asked.values else "hole"
    left_out = skip[form] | ({"gravity", "methane_share"} if "methane" in asked.values else set())
    return {
        **{name: text for name, text in asked.shown.items() if name not in left_out or name in asked.typed},
        "atmosphere": f"{asked.atmosphere_kpa} kPa absolute",
    }


def _gas(asked: Asked) -> gas.Gas:
    if "methane" not in asked.values:
        above_zero(number(asked, "gravity"), field="gravity")
        return gas.of_gravity(number(asked, "gravity"))
    for name in ("gravity", "methane_share"):
        if name in asked.typed:
            raise Unworkable("not_together", field=name, other="methane")
    return gas.METHANE


def _through(asked: Asked, it: gas.Gas) -> _Worked:
    if "severed" in asked.values and "low_pressure" in asked.values:
        raise Unworkable("not_together", field="low_pressure", other="severed")
    if "severed" in asked.values:
        return _severed(asked, it)
    for name in ("length", "roughness"):
        if name in asked.typed:
            raise Unworkable("not_together", field=name, other="hole")
    across = positive(asked, "hole", unit="m")
    if "id" in asked.values and across > positive(asked, "id", unit="m"):
        raise Unworkable(
            "hole_wider_than_pipe", field="hole", got=measure(asked, "hole").typed, most=measure(asked, "id").typed
        )
    area = pi / 4 * across**2
    return _low_pressure(asked, it, area=area) if "low_pressure" in asked.values else _hole(asked, it, area=area)


def _discharge(asked: Asked, *, usual: float) -> float:
    return above_zero(number(asked, "cd"), field="cd") if "cd" in asked.values else usual


def _hole(asked: Asked, it: gas.Gas, *, area: float) -> _Worked:
    inside, outside = absolute_pa(asked, "pressure"), float(asked.atmosphere_kpa * 1000)
    temperature, discharge = amount_in(asked, "temperature", unit="K"), _discharge(asked, usual=1.0)
    found = flow.through_hole(
        area=area,
        inside=inside,
        outside=outside,
        temperature=temperature,
        molar_mass=it.molar_mass,
        k=number(asked, "k"),
        discharge=discharge,
        z=above_zero(number(asked, "z"), field="z"),
    )
    critical, ratio = found.critical_ratio or 0.0, found.pressure_ratio or 0.0
    return _Worked(
        regime=found.regime,
        mass_flow=found.mass_flow_kg_s,
        scfh=gas.scfh(found.mass_flow_kg_s, gas=it),
        formula=_("Isentropic flow of an ideal gas through a hole, {regime}").format(regime=found.regime),
        source=_("one-dimensional isentropic flow; API Standard 520 Part I has the same two forms"),
        steps=(
            _("area {area:.6g} m2; inside {inside:.6g} Pa, outside {outside:.6g} Pa, absolute").format(
                area=area, inside=inside, outside=outside
            ),
            _("outside over inside {ratio:.5f}; choked at and under {critical:.5f}").format(
                ratio=ratio, critical=critical
            ),
            _("mass flow {flow:.6g} kg/s at {temperature:.2f} K, coefficient {discharge:g}").format(
                flow=found.mass_flow_kg_s, temperature=temperature, discharge=discharge
            ),
            _("density at base {density:.5f} kg/m3").format(density=it.base_density),
        ),
        bounds=(_("0 to 1,000 psig, -40 to 60 °C; {measured}").format(measured=_MEASURED_AGAINST),),
    )


def _low_pressure(asked: Asked, it: gas.Gas, *, area: float) -> _Worked:
    head = float(convert(measure(asked, "pressure"), "in wc gauge", atmosphere=asked.atmosphere_kpa).value)
    square_inches, factor = area / 0.0254**2, _discharge(asked, usual=0.90)
    scfh = flow.low_pressure_scfh(area_in2=square_inches, head_in_wc=head, gravity=it.gravity, factor=factor)
    return _Worked(
        regime=flow.SUBSONIC,
        mass_flow=gas.kg_per_s(scfh, gas=it),
        scfh=scfh,
        formula="1658.5 K A sqrt(H / gravity)",
        source=_("NFPA 54, Annex E, orifice capacities at sea level"),
        steps=(
            _("area {area:.6g} in2; head {head:.6g} in wc (conventional inch); K {factor:g}").format(
                area=square_inches, head=head, factor=factor
            ),
        ),
        bounds=(_("up to 28 in wc; 0.2 to 0.3 % above the exact form; some printed cells differ by 5 %"),),
        cautions=(_("Temperature, k, Z and atmosphere have no part in this form."),),
    )


def _severed(asked: Asked, it: gas.Gas) -> _Worked:
    if "hole" in asked.values:
        raise Unworkable("not_together", field="hole", other="severed")
    for name in ("cd", "z"):
        if name in asked.typed:
            raise Unworkable("not_together", field=name, other="severed")
    bore, length = positive(asked, "id", unit="m"), positive(asked, "length", unit="m")
    found = flow.from_severed_line(
        bore=bore,
        length=length,
        inside=absolute_pa(asked, "pressure"),
        outside=float(asked.atmosphere_kpa * 1000),
        temperature=amount_in(asked, "temperature", unit="K"),
        molar_mass=it.molar_mass,
        roughness=amount_in(asked, "roughness", unit="m"),
        viscosity=VISCOSITY,
        k=number(asked, "k"),
    )
    return _Worked(
        regime=found.regime,
        mass_flow=found.mass_flow_kg_s,
        scfh=gas.scfh(found.mass_flow_kg_s, gas=it),
        formula="A sqrt((rho1/P1)(P1^2 - P2^2)/(f L/D + 2 ln(P1/P2)))",
        source=_("isothermal flow in a pipe, friction by Colebrook"),
        steps=(
            _("friction factor {friction:.6f} at Reynolds number {reynolds:.4g}").format(
                friction=found.friction_factor, reynolds=found.reynolds
            ),
            _("pressure in the cut {end:.6g} Pa absolute").format(end=found.end_pa),
        ),
        bounds=(_("0 to 1,000 psig, -40 to 60 °C; ideal gas; pressure held at the far end; no fittings"),),
        cautions=(_("A pressure that falls as the line empties gives less."),),
    )


def _over_time(asked: Asked, worked: _Worked, it: gas.Gas) -> list[Value]:
    if "duration" not in asked.values:
        return []
    hours = positive(asked, "duration", unit="h")
    share = 1.0 if it.is_methane else number(asked, "methane_share")
    counted = dated.potential(int(number(asked, "year")) if "year" in asked.values else None)
    methane = worked.mass_flow * 3600 * hours * share
    return [
        Value(key="volume_scf", label=_("Volume"), worth=worked.scfh * hours, unit="scf"),
        Value(key="methane_kg", label=_("Methane"), worth=methane, unit="kg"),
        Value(key="co2e_t", label=_("As carbon dioxide"), worth=methane / 1000 * counted.value, unit="t CO2e"),
        Value(key="gwp", label=_("Counted with"), worth=counted.value, unit=counted.basis, digits=0),
    ]


FLOW = Figure(
    name="flow",
    version="1",
    title=_("Gas through a hole"),
    help=_("Say how much gas escapes through a hole, or out of a line cut through."),
    inputs=INPUTS,
    work=work,
)
