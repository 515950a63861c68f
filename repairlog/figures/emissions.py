"""Methane in a year by dated factors, and by what was measured, side by side."""

from __future__ import annotations

from repairlog.figures import dated
from repairlog.figures.asked import bare_number, number
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.trade import emissions
from repairlog.trade.emissions import Factor, Part
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _
from repairlog.words.rulebooks.cited import mark_word

INPUTS = (
    Input(name="year", kind="year", label=_("Year reported for"), help=_("Takes the potential of that year.")),
    Input(
        name="factors",
        kind="text",
        label=_("Factor table"),
        help=_("The id of a table in config/emissions: {ids}.").format(ids=", ".join(dated.factor_tables())),
        metavar="ID",
    ),
    Input(
        name="miles",
        kind="text",
        many=True,
        label=_("Miles of main"),
        help=_('By material, such as "cast iron=12.5"; may be given again.'),
        metavar="MATERIAL=N",
    ),
    Input(
        name="services",
        kind="text",
        many=True,
        label=_("Services"),
        help=_('By material, such as "plastic=10000"; may be given again.'),
        metavar="MATERIAL=N",
    ),
    Input(
        name="components",
        kind="text",
        many=True,
        label=_("Components found leaking"),
        help=_('By name, such as "connector=3"; may be given again.'),
        metavar="NAME=N",
    ),
    Input(
        name="gas_scf",
        kind="number",
        label=_("Gas measured, scf"),
        help=_("Standard cubic feet of gas let out, by measured flow."),
    ),
    Input(
        name="methane_share",
        kind="share",
        label=_("Share of methane"),
        help=_("Of the gas measured."),
        default="1",
    ),
)
GROUPS = {"miles": "mains", "services": "services", "components": "components"}


def work(asked: Asked) -> Answer:
    """The sum, each part of it, and what was counted and what was measured apart."""
    for name in ("year", "factors"):
        if name not in asked.values and (name == "year" or asked.typed & set(GROUPS)):
            raise Unworkable("missing", field=name)
    if not asked.typed & {*GROUPS, "gas_scf"}:
        raise Unworkable("missing", field="miles")
    year, kg_per_scf = int(number(asked, "year")), dated.methane_kg_per_ft3()
    counted, parts = dated.potential(year), _parts(asked, kg_per_scf)
    by_factor = sum(it.methane_kg for it in parts)
    measured = _measured_scf(asked) * number(asked, "methane_share") * kg_per_scf
    methane = by_factor + measured
    return Answer(
        values=(
            Value(key="methane_kg", label=_("Methane"), worth=methane, unit="kg"),
            Value(key="methane_t", label=_("In tonnes"), worth=methane / 1000, unit="t"),
            Value(key="co2e_t", label=_("As carbon dioxide"), worth=methane / 1000 * counted.value, unit="t CO2e"),
            Value(key="gwp", label=_("Counted with"), worth=counted.value, unit=counted.basis, digits=0),
            Value(key="by_factor_kg", label=_("By factor"), worth=by_factor if parts else None, unit="kg"),
            Value(
                key="measured_kg",
                label=_("By measured flow"),
                worth=measured if "gas_scf" in asked.values else None,
                unit="kg",
            ),
        ),
        parts={"parts": (*map(_row, parts), *_measured_row(asked, measured))},
        formula=_("count x factor x {hours} h x {density} kg/ft3, or count x factor where it is in kg a year").format(
            hours=f"{emissions.HOURS:,}", density=kg_per_scf
        ),
        source=_("{factors}; {gwp} for the potential").format(
            factors="; ".join(dict.fromkeys(it.factor.source for it in parts)) or _("no factor"), gwp=counted.source
        ),
        steps=tuple(_step(it) for it in parts),
        bounds=(
            _("{hours} h in every year; a factor is an average of many and says nothing of one leak").format(
                hours=f"{emissions.HOURS:,}"
            ),
        ),
        cautions=_cautions(asked, parts, year=year),
        understood={
            name: text for name, text in asked.shown.items() if name != "methane_share" or "gas_scf" in asked.values
        },
    )


def _parts(asked: Asked, kg_per_scf: float) -> tuple[Part, ...]:
    given = [(name, text) for name in GROUPS for text in _texts(asked, name)]
    if not given:
        return ()
    factors = dated.factors(str(asked.values["factors"]))
    return tuple(_part(text, name, factors=factors, kg_per_scf=kg_per_scf) for name, text in given)


def _texts(asked: Asked, name: str) -> tuple[str, ...]:
    texts = asked.values.get(name, ())
    assert isinstance(texts, tuple)
    return texts


def _part(text: str, field: str, *, factors: tuple[Factor, ...], kg_per_scf: float) -> Part:
    name, equals, count = text.rpartition("=")
    if not equals or not name.strip():
        raise Unworkable("not_written_so", field=field, got=text[:80], would_have="plastic=100")
    many = float(bare_number(count, field=field))
    if many < 0:
        raise Unworkable("negative", field=field, got=text[:80])
    try:
        factor = emissions.factor_of(factors, group=GROUPS[field], name=name)
    except Unworkable as complaint:
        raise Unworkable(complaint.code, field=field, **complaint.facts) from None
    return emissions.by_factor(factor, count=many, kg_per_scf=kg_per_scf)


def _measured_scf(asked: Asked) -> float:
    if "gas_scf" not in asked.values:
        if "methane_share" in asked.typed:
            raise Unworkable("missing", field="gas_scf")
        return 0.0
    scf = number(asked, "gas_scf")
    if scf < 0:
        raise Unworkable("negative", field="gas_scf", got=asked.shown["gas_scf"])
    return scf


def _row(it: Part) -> dict[str, float | str]:
    return {
        "how": "factor",
        "group": it.factor.group,
        "name": it.factor.name,
        "count": it.count,
        "factor": it.factor.value,
        "unit": it.factor.unit,
        "methane_kg": it.methane_kg,
        "mark": it.factor.mark,
        "source": it.factor.source,
    }


def _measured_row(asked: Asked, measured: float) -> tuple[dict[str, float | str], ...]:
    if "gas_scf" not in asked.values:
        return ()
    return ({"how": "measured", "gas_scf": number(asked, "gas_scf"), "methane_kg": measured},)


def _step(it: Part) -> str:
    return _("{count:,g} of {name} ({group}) x {value:g} {unit} = {kg:,.6g} kg; factor {mark}").format(
        count=it.count,
        name=it.factor.name,
        group=it.factor.group,
        value=it.factor.value,
        unit=it.factor.unit,
        kg=it.methane_kg,
        mark=mark_word(it.factor.mark),
    )


def _cautions(asked: Asked, parts: tuple[Part, ...], *, year: int) -> tuple[str, ...]:
    told = []
    if any(it.factor.mark == "memory" for it in parts):
        told.append(_("Some of these factors were not checked against their text; look them up before you report."))
    if parts and not dated.is_for(str(asked.values["factors"]), year=year):
        told.append(_("This factor table is not the one of {year}.").format(year=year))
    if parts and "gas_scf" in asked.values:
        told.append(_("Counted and measured are added: leave out of the counts what was measured."))
    return tuple(told)


EMISSIONS = Figure(
    name="emissions",
    version="1",
    title=_("Methane in a year"),
    help=_("Sum a year's methane by dated factors, and by measured flow."),
    inputs=INPUTS,
    work=work,
)
