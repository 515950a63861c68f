"""Pipe: its size, how it is stressed, what it is designed for, and the least pressure it is tested to."""

from __future__ import annotations

import re

from repairlog.figures import pipe_tables
from repairlog.figures.asked import amount_in, measure, number, positive
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.figures.pipe_tables import COPPER, PLASTIC, STEEL
from repairlog.trade import pipe
from repairlog.trade.pipe import Line, Pipe
from repairlog.trade.unworkable import Unworkable, above_zero, within
from repairlog.words import _
from repairlog.words.rulebooks.cited import mark_word

TESTED = _("Its test")
OF_PLASTIC = _("Plastic")
OF_STEEL = _("Steel")
INPUTS = (
    Input(
        name="material",
        kind="choice",
        choices=(STEEL, PLASTIC, COPPER),
        label=_("Material"),
        help=_("What the pipe is made of."),
    ),
    Input(name="nps", kind="text", label=_("Nominal size"), help=_('Such as 2, 3/4 or "1 1/4".'), metavar="SIZE"),
    Input(name="schedule", kind="text", label=_("Schedule"), help=_("Of steel: 40, 80, STD or XS."), metavar="NAME"),
    Input(name="sdr", kind="number", label=_("SDR"), help=_("Of plastic: outside diameter over wall, such as 11.")),
    Input(
        name="system",
        kind="choice",
        choices=("IPS", "CTS"),
        label=_("Sizing system"),
        help=_("Of plastic: iron pipe or copper tubing sizes."),
        default="IPS",
    ),
    Input(name="od", kind="hole", label=_("Outside diameter"), help=_("In place of a nominal size, with the wall.")),
    Input(
        name="wall", kind="hole", label=_("Wall"), help=_("With an outside diameter, in place of a schedule or SDR.")
    ),
    Input(
        name="pressure",
        kind="pressure",
        label=_("Operating pressure"),
        help=_("For the stress and the test; gauge."),
    ),
    Input(
        name="grade",
        kind="text",
        label=_("Grade"),
        help=_("Of steel: A25, A, B, X42 to X80, or unknown."),
        metavar="NAME",
        group=OF_STEEL,
    ),
    Input(
        name="smys",
        kind="stress",
        label=_("Yield strength"),
        help=_("Specified minimum, in place of the grade."),
        group=OF_STEEL,
    ),
    Input(
        name="class_location",
        kind="choice",
        choices=("1", "2", "3", "4"),
        label=_("Class location"),
        help=_("For the design of steel; 4, the strictest, where nothing is said."),
        default="4",
        group=OF_STEEL,
    ),
    Input(
        name="joint_factor",
        kind="number",
        label=_("Joint factor E"),
        help=_("Of steel's long seam."),
        default="1",
        group=OF_STEEL,
    ),
    Input(
        name="temperature_factor",
        kind="number",
        label=_("Temperature factor T"),
        help=_("Of steel; 1 up to 250 °F."),
        default="1",
        group=OF_STEEL,
    ),
    Input(
        name="hdb",
        kind="stress",
        label=_("Hydrostatic design basis"),
        help=_('Of plastic, at its temperature, such as "1250 psi".'),
        group=OF_PLASTIC,
    ),
    Input(
        name="design_factor",
        kind="number",
        label=_("Design factor"),
        help=_("Of plastic: 0.32, or 0.40 for polyethylene that meets its conditions."),
        default="0.32",
        group=OF_PLASTIC,
    ),
    Input(
        name="test_clause",
        kind="text",
        label=_("Test clause"),
        help=_("Such as 192.513, for the least test pressure."),
        metavar="CLAUSE",
        group=TESTED,
    ),
    Input(
        name="line",
        kind="choice",
        choices=("main", "service", "transmission"),
        label=_("Kind of line"),
        help=_("In place of the clause."),
        group=TESTED,
    ),
)

_CFR = re.compile(r"^(?:49 CFR)?\s*(?:part\s)?\s*§?\s*", re.IGNORECASE)

ONLY_FOR = {
    STEEL: ("schedule", "grade", "smys", "class_location", "joint_factor", "temperature_factor"),
    PLASTIC: ("sdr", "system", "hdb", "design_factor"),
    COPPER: (),
}
"""Inputs that belong to one material alone."""


def work(asked: Asked) -> Answer:
    """Sizes first, then stress, design and test, as far as what was given goes."""
    material = str(asked.values["material"]) if "material" in asked.values else ""
    if not material:
        raise Unworkable("missing", field="material")
    _refuse_strangers(asked, material)
    it = None if _needs_no_size(asked, material) else _size(asked, material)
    psig = _psig(asked) if "pressure" in asked.values else None
    smys = _smys(asked) if material == STEEL else None
    hoop = None if psig is None else _hoop(asked, it, psig=psig)
    percent = 100 * hoop / smys if hoop is not None and smys else None
    stress = (
        Value(key="hoop_psi", label=_("Hoop stress"), worth=hoop, unit="psi"),
        Value(key="percent_smys", label=_("Share of the yield strength"), worth=percent, unit="% SMYS"),
    )
    design, cautions = _design(asked, it, material=material, smys=smys)
    tested, more = _test(asked, material=material, psig=psig, percent=percent)
    return Answer(
        values=(*tested, *design, *stress, *_sizes(it)),
        formula=_formulas()[material],
        source=_("sizes: {sizes}; {formula}").format(
            sizes=pipe_tables.source_of(material), formula=_sources()[material]
        ),
        steps=_steps(it, psig=psig, hoop=hoop, smys=smys),
        bounds=(_("internal pressure in sound pipe of the stated size; no outside load, corrosion or damage"),),
        cautions=(*cautions, *more, *_above_design(design, psig)),
        understood=_understood(asked, material),
    )


def _steps(it: Pipe | None, *, psig: float | None, hoop: float | None, smys: float | None) -> tuple[str, ...]:
    if it is None or psig is None or hoop is None:
        return ()
    stress = _("stress {psig:g} x {od:g} / (2 x {wall:.5g}) = {hoop:.6g} psi").format(
        psig=psig, od=it.od, wall=it.wall, hoop=hoop
    )
    if smys is None:
        return (stress,)
    return stress, _("share 100 x {hoop:.6g} / {smys:g} = {percent:.5g} % of the yield strength").format(
        hoop=hoop, smys=smys, percent=100 * hoop / smys
    )


def _formulas() -> dict[str, str]:
    return {
        STEEL: "S = P D / (2 t); P = (2 S t / D) F E T",
        PLASTIC: "S = P D / (2 t); P = 2 S / (SDR - 1) DF",
        COPPER: "S = P D / (2 t)",
    }


def _sources() -> dict[str, str]:
    return {
        STEEL: "49 CFR 192.105, 192.111; Barlow",
        PLASTIC: "49 CFR 192.121; Barlow",
        COPPER: "Barlow",
    }


def _understood(asked: Asked, material: str) -> dict[str, str]:
    strange = {name for other, names in ONLY_FOR.items() if other != material for name in names}
    return {name: text for name, text in asked.shown.items() if name not in strange}


def _refuse_strangers(asked: Asked, material: str) -> None:
    for other, names in ONLY_FOR.items():
        for name in names:
            if other != material and name in asked.typed:
                raise Unworkable("not_of_material", field=name, got=material, other=other)


def _needs_no_size(asked: Asked, material: str) -> bool:
    """Whether no size was given and none is needed: plastic by its SDR alone, or a test by its clause alone."""
    if asked.typed & {"nps", "od", "wall", "schedule"}:
        return False
    return (material == PLASTIC and "sdr" in asked.values) or bool(asked.typed & {"test_clause", "line"})


def _sizes(it: Pipe | None) -> tuple[Value, ...]:
    if it is None:
        return ()
    return (
        Value(key="od_in", label=_("Outside diameter"), worth=it.od, unit="in", digits=4),
        Value(key="wall_in", label=_("Wall"), worth=it.wall, unit="in"),
        Value(key="id_in", label=_("Inside diameter"), worth=it.inside, unit="in", digits=4),
    )


def _hoop(asked: Asked, it: Pipe | None, *, psig: float) -> float | None:
    if it is None and "sdr" not in asked.values:
        return None
    return pipe.hoop_stress(it or Pipe(od=_sdr(asked), wall=1.0), psig=psig)


def _size(asked: Asked, material: str) -> Pipe:
    for name in ("od", "wall"):
        if name in asked.typed and "nps" in asked.typed:
            raise Unworkable("not_together", field=name, other="nps")
    if "nps" in asked.values:
        return pipe.sound(_by_nominal_size(asked, material))
    od = positive(asked, "od", unit="in")
    if material == PLASTIC and "sdr" in asked.values and "wall" not in asked.values:
        return pipe.sound(Pipe(od=od, wall=od / _sdr(asked)))
    for name in ("sdr", "schedule"):
        if name in asked.typed:
            raise Unworkable("not_together", field=name, other="wall")
    return pipe.sound(Pipe(od=od, wall=positive(asked, "wall", unit="in")))


def _by_nominal_size(asked: Asked, material: str) -> Pipe:
    nps = str(asked.values["nps"])
    if material == STEEL:
        if "schedule" not in asked.values:
            raise Unworkable("missing", field="schedule")
        return pipe_tables.steel(nps, schedule=str(asked.values["schedule"]))
    if material == PLASTIC:
        return pipe_tables.plastic(nps, sdr=_sdr(asked), system=str(asked.values["system"]))
    return pipe_tables.copper(nps)


def _sdr(asked: Asked) -> float:
    return within(number(asked, "sdr"), field="sdr", least=5, most=41)


def _psig(asked: Asked) -> float:
    if measure(asked, "pressure").basis == "absolute":
        raise Unworkable("gauge_asked", field="pressure", got=measure(asked, "pressure").typed)
    psig = amount_in(asked, "pressure", unit="psi")
    if psig < 0:
        raise Unworkable("negative", field="pressure", got=measure(asked, "pressure").typed)
    return psig


def _smys(asked: Asked) -> float | None:
    if "smys" in asked.values and "grade" in asked.values:
        raise Unworkable("given_both", field="smys", other="grade")
    if "smys" in asked.values:
        return positive(asked, "smys", unit="psi")
    return pipe_tables.yield_strength(str(asked.values["grade"])) if "grade" in asked.values else None


def _design(
    asked: Asked, it: Pipe | None, *, material: str, smys: float | None
) -> tuple[tuple[Value, ...], tuple[str, ...]]:
    if material == PLASTIC and "hdb" in asked.values and (it is not None or "sdr" in asked.values):
        return _plastic_design(asked, it)
    if material != STEEL or smys is None or it is None:
        return (), ()
    factors = {
        name: within(above_zero(number(asked, name), field=name), field=name, least=0, most=1)
        for name in ("joint_factor", "temperature_factor")
    }
    design = pipe.steel_design_pressure(
        it, smys=smys, design_factor=pipe_tables.design_factor(str(asked.values["class_location"])), **factors
    )
    return (Value(key="design_psig", label=_("Design pressure"), worth=design, unit="psig"),), ()


def _plastic_design(asked: Asked, it: Pipe | None) -> tuple[tuple[Value, ...], tuple[str, ...]]:
    factor = above_zero(number(asked, "design_factor"), field="design_factor")
    caps = pipe_tables.plastic_caps()
    within(factor, field="design_factor", least=0, most=float(caps[-1]["most_design_factor"]))
    cap = next(row for row in caps if factor <= float(row["most_design_factor"]))
    if "most_nominal_in" in cap and it is not None and it.od > float(cap["most_nominal_in"]) + 0.75:
        raise Unworkable(
            "too_wide_for_factor", field="design_factor", got=f"{factor:g}", most=f"{cap['most_nominal_in']}"
        )
    # By the SDR where it was given: the wall of a table is rounded, and gives a little more than the clause does.
    sdr = _sdr(asked) if it is None or "sdr" in asked.values else it.od / it.wall
    design = pipe.plastic_design_pressure(hdb=positive(asked, "hdb", unit="psi"), sdr=sdr, design_factor=factor)
    most = float(cap["psig"])
    conditions = (_("Only for {conditions}.").format(conditions=cap["conditions"]),) if "conditions" in cap else ()
    return (
        Value(key="allowed_psig", label=_("Allowed by its design"), worth=min(design, most), unit="psig"),
        Value(key="design_psig", label=_("Design pressure"), worth=design, unit="psig"),
        Value(key="cap_psig", label=_("Capped at"), worth=most, unit="psig"),
    ), conditions


def _test(
    asked: Asked, *, material: str, psig: float | None, percent: float | None
) -> tuple[tuple[Value, ...], tuple[str, ...]]:
    if "test_clause" not in asked.values and "line" not in asked.values:
        return (), ()
    if "test_clause" in asked.values and "line" in asked.values:
        raise Unworkable("given_both", field="line", other="test_clause")
    if psig is None:
        raise Unworkable("missing", field="pressure")
    line, known = Line(material=material, psig=psig, percent_smys=percent), pipe_tables.clauses()
    if "line" in asked.values:
        clause = pipe.clause_for(line, str(asked.values["line"]), clauses=known)
    else:
        said = _CFR.sub("", str(asked.values["test_clause"]).strip())
        named = [it for it in known if it.id == said.partition("(")[0].strip()]
        if not named:
            would_have = ", ".join(it.id for it in known)
            raise Unworkable("not_a_choice", field="test_clause", got=said[:80], would_have=would_have)
        clause = named[0]
    least = pipe.least_test(clause, line)
    beside = (
        _("The clause's number is below the pressure asked about; see what else limits it.") if least < psig else ""
    )
    return (
        Value(key="least_test_psig", label=_("Least test pressure"), worth=least, unit="psig"),
        Value(key="clause", label=_("By the clause"), worth=clause.id),
        Value(key="duration", label=_("Held for"), worth=clause.duration or _("not said by the clause")),
    ), tuple(
        filter(
            None,
            (
                _("Clause as on file: {source}, {mark}.").format(source=clause.source, mark=mark_word(clause.mark)),
                beside,
            ),
        )
    )


def _above_design(design: tuple[Value, ...], psig: float | None) -> tuple[str, ...]:
    limits = [float(it.worth) for it in design if it.key in ("design_psig", "allowed_psig") and it.worth is not None]
    if psig is None or not limits or psig <= min(limits):
        return ()
    return (_("The pressure asked about is above what the design allows."),)


PIPE = Figure(
    name="pipe",
    version="1",
    title=_("Pipe"),
    help=_("Give a pipe's size, stress, design pressure and least test pressure."),
    inputs=INPUTS,
    work=work,
)
