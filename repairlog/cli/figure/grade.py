"""`repairlog figure grade`: the least grade that readings call for under a rulebook, and what decided."""

from __future__ import annotations

import json
from decimal import Decimal, InvalidOperation
from typing import Any

import click

from repairlog.cli.figure.anchor import read_anchor
from repairlog.cli.figure.shelf import rulebook_of, unknown
from repairlog.cli.figure.unclear import CAUTION, FigureUnclear, told
from repairlog.trade.grading import CalledFor, Found, Met, Nearly, Spot, called_for, grader, nearly_met, reading_of
from repairlog.trade.rulebook import ASSUMED, OWNERS, PLACES, Rulebook
from repairlog.units import Measure, NotUnderstood, read
from repairlog.words import _, grading, measures

LEL_BASES = ("5.0", "4.4")


@click.command("grade", help=_("Say the least grade that readings call for, by which criterion, and what was assumed."))
@click.option("--rulebook", required=True, metavar="ID", help=_("The rulebook, such as us-guide."))
@click.option("--place", type=click.Choice(PLACES), help=_("Where the readings were taken."))
@click.option("--owner", type=click.Choice(OWNERS), help=_("Whose substructure it is."))
@click.option(
    "--reading", "readings", multiple=True, metavar="TEXT", help=_('A reading, such as "45 %LEL"; again for each.')
)
@click.option("--kind", type=click.Choice(("sustained", "peak")), help=_("What the readings are, where it is known."))
@click.option("--ignited", is_flag=True, help=_("Gas is burning."))
@click.option("--seen-or-heard", is_flag=True, help=_("The leak is seen, heard or felt."))
@click.option("--paved", is_flag=True, help=_("The area is paved from wall to wall."))
@click.option("--frost", is_flag=True, help=_("There is frost in the ground."))
@click.option("--excavation-damage", is_flag=True, help=_("Somebody dug into the pipe."))
@click.option("--holds", multiple=True, type=click.Choice(ASSUMED), help=_("A question that was answered with yes."))
@click.option("--denied", multiple=True, type=click.Choice(ASSUMED), help=_("A question that was answered with no."))
@click.option("--distance", metavar="TEXT", help=_('From the outside wall of a building, such as "5 ft".'))
@click.option("--extent", metavar="TEXT", help=_('Over which area gas was read, such as "2000 sq ft".'))
@click.option("--smys", metavar="PERCENT", help=_("Stress of the line in percent of its yield strength."))
@click.option("--class-location", type=click.Choice(("1", "2", "3", "4")), help=_("Class location of the line."))
@click.option("--given", metavar="GRADE", help=_("The grade that a person gave, where a class within it is asked for."))
@click.option("--lel-basis", type=click.Choice(LEL_BASES), default="5.0", help=_("Basis of % gas and ppm (5.0)."))
@click.option("--on", "on", metavar="DATE", help=_("By the rules in force on that day."))
@click.option("--json", "as_json", is_flag=True, help=_("Print one JSON object."))
@click.pass_context
def grade(context: click.Context, /, *, rulebook: str, on: str | None, as_json: bool, **said: Any) -> None:
    """Print the grade; the exit code is 2 where something cannot be understood, 0 where nothing calls for a grade.

    As JSON: `grade`, `criterion`, `clause`, `mark`, `says`, `readings`, `assumed` where one is met; `met`, `nearly`
    and `not_judged` always.
    """
    with told(context, as_json=as_json):
        by = rulebook_of(rulebook, on=read_anchor(on, zone=None).on if on else None)
        found = _found(by, **said)
        ready = grader(by)
        called, nearly = called_for(ready, found), nearly_met(ready, found)
        click.echo(_as_json(called, nearly, said["readings"]) if as_json else _for_people(called, nearly))


def _found(by: Rulebook, **said: Any) -> Found:
    basis = Decimal(said["lel_basis"])
    if said["given"] and said["given"] not in (codes := [each.code for each in by.grades]):
        message = _("The rulebook has no grade “{got}”.").format(got=said["given"])
        raise unknown("grade_unknown", message, got=said["given"], known=codes)
    spot = Spot(
        counts_as=frozenset({said["place"]} - {None}),
        owner=said["owner"] or "",
        distance=_measure(said["distance"], "distance"),
    )
    flags = {
        "ignited": said["ignited"],
        "seen_heard_or_felt": said["seen_or_heard"],
        "paved_wall_to_wall": said["paved"],
        "frost": said["frost"],
        "excavation_damage": said["excavation_damage"],
    }
    read_ones = [_measured(text, "gas", basis) for text in said["readings"]]
    return Found(
        readings=tuple(
            reading_of(each, key=str(number), kind=said["kind"] or "", spot=spot, lel_basis=basis)
            for number, each in enumerate(read_ones)
        ),
        spots=(spot,),
        said=frozenset(name for name, holds in flags.items() if holds),
        answers=dict.fromkeys(said["holds"], True) | dict.fromkeys(said["denied"], False),
        extent=_measure(said["extent"], "area"),
        percent_smys=_percent(said["smys"]),
        class_location=said["class_location"] or "",
        grade=said["given"] or "",
    )


def _measure(text: str | None, quantity: str) -> Measure | None:
    return None if text is None else _measured(text, quantity, Decimal(LEL_BASES[0]))


def _measured(text: str, quantity: str, basis: Decimal) -> Measure:
    try:
        return read(text, quantity, lel_basis=basis)
    except NotUnderstood as unclear:
        raise FigureUnclear(unclear.code, measures.sentence(unclear.code, unclear.facts)) from None


def _percent(text: str | None) -> Decimal | None:
    if text is None:
        return None
    try:
        percent = Decimal(text.removesuffix("%").strip()[:20])
    except InvalidOperation:
        percent = Decimal("NaN")
    if not percent.is_finite() or percent < 0:
        said = _("“{got}” is no percentage.").format(got=text[:80])
        raise FigureUnclear("percent_unreadable", (said, _("Write it like 30.")))
    return percent


def _as_json(called: CalledFor, nearly: tuple[Nearly, ...], typed: tuple[str, ...]) -> str:
    shown: dict[str, Any] = {}
    if called.grade and called.by:
        shown = _met(called.by, typed)
    shown["met"] = [_met(each, typed) for each in called.met]
    shown["nearly"] = [_nearly(each, typed) for each in nearly]
    shown["not_judged"] = [typed[int(key)] for key in called.not_judged]
    return json.dumps(shown, ensure_ascii=False)


def _met(met: Met, typed: tuple[str, ...]) -> dict[str, Any]:
    criterion = met.criterion
    return {
        "grade": criterion.calls_for,
        "criterion": criterion.id,
        "clause": criterion.cited.clause,
        "mark": criterion.cited.mark,
        "says": criterion.says,
        "readings": [typed[int(key)] for key in met.readings],
        "assumed": list(met.assumed),
    }


def _nearly(nearly: Nearly, typed: tuple[str, ...]) -> dict[str, Any]:
    criterion = nearly.criterion
    return {
        "grade": criterion.calls_for,
        "criterion": criterion.id,
        "clause": criterion.cited.clause,
        "lacks": nearly.lacks,
        "readings": [typed[int(key)] for key in nearly.readings],
    }


def _for_people(called: CalledFor, nearly: tuple[Nearly, ...]) -> str:
    return "\n".join((*grading.lines(called, nearly), CAUTION))
