"""`repairlog figure convert`: a reading in another unit, and how it was understood."""

from __future__ import annotations

import json
from decimal import ROUND_HALF_EVEN, Context, Decimal, InvalidOperation

import click

from repairlog.cli.figure.unclear import CAUTION
from repairlog.figures import converted
from repairlog.figures.converted import Base, Found
from repairlog.trade.unworkable import Unworkable
from repairlog.units import QUANTITIES, STANDARD_ATMOSPHERE, NotUnderstood, atmosphere_at, convert, read, shown
from repairlog.units.exact import plain
from repairlog.words import _, figures, measures

SHOWN = Context(prec=9, rounding=ROUND_HALF_EVEN)  # as many digits as a sealed measure has


@click.command(
    "convert",
    help=_('Give READING, such as "7 in wc" or "45 %LEL", in another unit.'),
    context_settings={"ignore_unknown_options": True},  # so that -5 C is a reading
)
@click.argument("reading", metavar="READING")
@click.option("--to", "to", metavar="UNIT", help=_("The unit asked for, such as kPa, psia, mm, %gas or kg/h."))
@click.option("--from-base", metavar="BASE", help=_('What gas was counted at, such as "60 F, 14.73 psia".'))
@click.option("--to-base", metavar="BASE", help=_('What it is to be counted at, such as "15 C, 101.325 kPa".'))
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
    to: str | None,
    from_base: str | None,
    to_base: str | None,
    atmosphere: str | None,
    elevation: str | None,
    lel_basis: str | None,
    quantity: str | None,
    as_json: bool,
) -> None:
    """Print the reading in the unit asked for; the exit code is 2 where it cannot be understood.

    As JSON: `value` (twelve significant digits) in `unit`, `canonical` of what it was converted to (absolute where that
    was asked), `understood` the reading shown back with what was taken beside it; or `error` with `code`,
    `message` and `hint`.
    """
    if atmosphere is not None and elevation is not None:
        raise click.UsageError(_("Give --atmosphere or --elevation, not both."), context)
    if (from_base is None) != (to_base is None):
        raise click.UsageError(_("Give --from-base and --to-base together."), context)
    if to is None and from_base is None:
        raise click.UsageError(_("Missing option '--to'."), context)
    try:
        local = _atmosphere(atmosphere, elevation)
        basis = _lel_basis(lel_basis)
        found = converted.found(
            reading,
            converted.own_unit(reading) if to is None else to,
            quantity=quantity,
            atmosphere=local,
            lel_basis=basis,
            bases=_bases(from_base, to_base),
        )
    except (NotUnderstood, Unworkable) as complaint:
        _tell(complaint, as_json=as_json)
        context.exit(2)
    click.echo(_as_json(found) if as_json else _for_people(found))


def _bases(was: str | None, now: str | None) -> tuple[Base, Base] | None:
    if was is None or now is None:
        return None
    return converted.base(was, field="from_base"), converted.base(now, field="to_base")


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


def _understood(found: Found) -> str:
    return "; ".join((shown(found.measure), *found.taken))


def _as_json(found: Found) -> str:
    told = {"unit": found.asked, "canonical": found.canonical, "understood": _understood(found)}
    # The number is written by hand: json would make a binary float of it first.
    return f'{{"value": {plain(found.value)}, {json.dumps(told, ensure_ascii=False)[1:]}'


def _for_people(found: Found) -> str:
    value = plain(SHOWN.plus(found.value))
    return "\n".join(
        (
            f"{found.measure.typed} = {value} {found.asked}",
            _("Understood as {shown}; kept as {canonical}.").format(
                shown=_understood(found), canonical=found.measure.canonical
            ),
            CAUTION,
        )
    )


def _tell(complaint: NotUnderstood | Unworkable, *, as_json: bool) -> None:
    if isinstance(complaint, Unworkable):
        message, hint = figures.sentence(complaint.code, complaint.facts)
    else:
        message, hint = measures.sentence(complaint.code, complaint.facts)
    if as_json:
        click.echo(
            json.dumps({"error": {"code": complaint.code, "message": message, "hint": hint}}, ensure_ascii=False)
        )
    for line in (message, hint):
        click.echo(line, err=True)
