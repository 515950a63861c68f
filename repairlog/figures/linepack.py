"""How much gas a length of pipe holds, and how much a fall in pressure lets out."""

from __future__ import annotations

from repairlog.figures import inputs
from repairlog.figures.asked import absolute_pa, amount_in, number, positive
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.trade import gas, linepack
from repairlog.trade.unworkable import above_zero
from repairlog.words import _

INPUTS = (
    Input(name="id", kind="hole", label=_("Pipe inside"), help=_('The pipe\'s inside diameter, such as "4.026 in".')),
    Input(name="length", kind="distance", label=_("Length"), help=_("Of the pipe.")),
    Input(name="from", kind="pressure", label=_("Pressure before"), help=_("Gauge unless it says absolute.")),
    Input(name="to", kind="pressure", label=_("Pressure after"), help=_("What is left in the pipe."), default="0 psi"),
    Input(
        name="temperature",
        kind="temperature",
        label=_("Temperature of the gas"),
        help=_("The same before and after."),
        default="60 F",
    ),
    inputs.GRAVITY,
    inputs.ATMOSPHERE,
    inputs.ELEVATION,
)

SHORT_FORM = "1/Z = 1 + 344,400 P 10^(1.785 G)/T^3.825"


def work(asked: Asked) -> Answer:
    """Contents before and after, and the difference that was let out."""
    found = linepack.line_pack(
        bore=positive(asked, "id", unit="m"),
        length=positive(asked, "length", unit="m"),
        before=absolute_pa(asked, "from"),
        after=absolute_pa(asked, "to"),
        atmosphere=float(asked.atmosphere_kpa * 1000),
        temperature=amount_in(asked, "temperature", unit="K"),
        gravity=above_zero(number(asked, "gravity"), field="gravity"),
    )
    unit = f"scf ({gas.BASE})"
    source = _("CNGA short form, {form}; within {error:g} % of GERG-2008 in the contents, as measured").format(
        form=SHORT_FORM, error=found.error_percent
    )
    return Answer(
        values=(
            Value(key="vented_scf", label=_("Let out"), worth=found.vented_scf, unit=unit),
            Value(key="contents_scf", label=_("Held before"), worth=found.contents_scf, unit=unit),
            Value(key="left_scf", label=_("Held after"), worth=found.left_scf, unit=unit),
            Value(key="volume_ft3", label=_("Volume of the pipe"), worth=found.volume_ft3, unit="ft3", digits=4),
            Value(key="z_from", label=_("Compressibility before"), worth=found.z_from, digits=4),
            Value(key="z_to", label=_("Compressibility after"), worth=found.z_to, digits=4),
            Value(key="z_source", worth=source),
        ),
        formula="N = V (P/Pb) (Tb/T) (Zb/Z), V = pi/4 D^2 L",
        source=_("the real gas law; Z by the {source}").format(source=source),
        steps=(
            _("volume {volume:.6g} ft3").format(volume=found.volume_ft3),
            _("before {contents:,.6g} scf at Z {z:.5f}").format(contents=found.contents_scf, z=found.z_from),
            _("after {left:,.6g} scf at Z {z:.5f}, Z counted from 1 at no gauge pressure").format(
                left=found.left_scf, z=found.z_to
            ),
        ),
        bounds=(_("0 to 500 psig at -20 to 40 °C, to 1,000 psig from 10 °C; gravity 0.55 to 0.70"),),
        cautions=(_("What a purge, a flare or a leak during the work takes comes on top."),),
        understood={**asked.shown, "atmosphere": f"{asked.atmosphere_kpa} kPa absolute"},
    )


LINEPACK = Figure(
    name="linepack",
    version="1",
    title=_("Line pack"),
    help=_("Say how much gas a pipe holds, and how much a fall in pressure lets out."),
    inputs=INPUTS,
    work=work,
)
