"""`repairlog figure convert`: a reading in another unit, and how it was understood."""

from __future__ import annotations

import json
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Context, Decimal, InvalidOperation

import click

from repairlog.cli.figure.unclear import CAUTION
from repairlog.units import (
    QUANTITIES,
    STANDARD_ATMOSPHERE,
    STANDARD_LEL,
    Converted,
    Measure,
    NotUnderstood,
    atmosphere_at,
    convert,
    quantities_of,
    read,
    shown,
)
from repairlog.units.exact import plain
from repairlog.words import _
from repairlog.words.measures import sentence

SHOWN = Context(prec=9, rounding=ROUND_HALF_EVEN)  # as many digits as a sealed measure has


@dataclass(frozen=True, slots=True, kw_only=True)
class _Figure:
    """A reading and what it was converted to, in the unit as it was asked for."""

    measure: Measure
    converted: Converted
    asked: str


@click.command(
    "convert",
    help=_('Give READING, such as "7 in wc" or "45 %LEL", in another unit.'),
    context_settings={"ignore_unknown_options": True},  # so that -5 C is a reading
)
@click.argument("reading", metavar="READING")
@click.option("--to", "to", required=True, metavar="UNIT", help=_("The unit asked for, such as kPa, psia, mm or %gas."))
@click.option("--atmosphere", metavar="PRESSURE", help=_('The local atmosphere, such as "12.1 psi" (absolute).'))
@click.option("--elevation", metavar="HEIGHT", help=_('The height above the sea, such as "5280 ft", instead.'))
@click.option("--lel-basis", metavar="PERCENT", help=_("The lower explosive limit of methane: 5.0 (usual) or 4.4."))
@click.option(
    "--quantity", type=click.Choice(sorted(QUANTITIES)), help=_("What READING is; else worked out from UNIT.")
)
@click.option("--json", "as_json", is_flag=True, help=_("Print one JSON object."))
@click.pass_context
def convert_reading(
    context: click.Context,
    *,
    reading: str,
    to: str,
    atmosphere: str | None,
    elevation: str | None,
    lel_basis: str | None,
    quantity: str | None,
    as_json: bool,
) -> None:
    """Print the reading in the unit asked for; the exit code is 2 where it cannot be understood.

    As JSON: `value` (twelve significant digits) in `unit`, `canonical` of what it was converted to (absolute where that
    was asked), `understood` the reading shown back; or `error` with `code`, `message` and `hint`.
    """
    if atmosphere is not None and elevation is not None:
        raise click.UsageError(_("Give --atmosphere or --elevation, not both."), context)
    try:
        local = _atmosphere(atmosphere, elevation)
        basis = _lel_basis(lel_basis)
        found = _worked_out(reading, to, quantity=quantity, atmosphere=local, lel_basis=basis)
    except NotUnderstood as complaint:
        _tell(complaint, as_json=as_json)
        context.exit(2)
    click.echo(_as_json(found) if as_json else _for_people(found))


def _worked_out(
    reading: str, to: str, *, quantity: str | None, atmosphere: Decimal, lel_basis: Decimal | None
) -> _Figure:
    """The reading under the first quantity that has the unit asked for and in which it can be read."""
    candidates = (quantity,) if quantity else quantities_of(to)
    basis = STANDARD_LEL if lel_basis is None else lel_basis
    first: NotUnderstood | None = None
    for name in candidates:
        try:
            measure = read(reading, name, atmosphere=atmosphere, lel_basis=basis)
        except NotUnderstood as complaint:
            first = first or complaint
            continue
        converted = convert(measure, to, atmosphere=atmosphere, lel_basis=lel_basis)
        return _Figure(measure=measure, converted=converted, asked=to.strip())
    raise first or NotUnderstood("unit_unknown", {"got": to, "unit": to, "would_have": ["kPa", "psi", "mm", "m", "°C"]})


def _atmosphere(atmosphere: str | None, elevation: str | None) -> Decimal:
    """The local atmosphere, kPa absolute, from either option; the standard one where neither is given."""
    if atmosphere is not None:
        return convert(read(atmosphere, "atmosphere"), "kPa").value
    if elevation is not None:
        return atmosphere_at(convert(read(elevation, "elevation"), "m").value)
    return STANDARD_ATMOSPHERE


def _lel_basis(text: str | None) -> Decimal | None:
    if text is None:
        return None
    try:
        basis = Decimal(text.strip().removesuffix("%").strip()[:20])
    except InvalidOperation:
        basis = Decimal("NaN")
    if not basis.is_finite():
        raise NotUnderstood("lel_unknown", {"got": text[:80], "basis": text[:80], "would_have": ["5.0", "4.4"]})
    return basis


def _as_json(found: _Figure) -> str:
    told = {"unit": found.asked, "canonical": found.converted.canonical, "understood": shown(found.measure)}
    # The number is written by hand: json would make a binary float of it first.
    return f'{{"value": {plain(found.converted.value)}, {json.dumps(told, ensure_ascii=False)[1:]}'


def _for_people(found: _Figure) -> str:
    value = plain(SHOWN.plus(found.converted.value))
    return "\n".join(
        (
            f"{found.measure.typed} = {value} {found.asked}",
            _("Understood as {shown}; kept as {canonical}.").format(
                shown=shown(found.measure), canonical=found.measure.canonical
            ),
            CAUTION,
        )
    )


def _tell(complaint: NotUnderstood, *, as_json: bool) -> None:
    message, hint = sentence(complaint.code, complaint.facts)
    if as_json:
        click.echo(
            json.dumps({"error": {"code": complaint.code, "message": message, "hint": hint}}, ensure_ascii=False)
        )
    for line in (message, hint):
        click.echo(line, err=True)
