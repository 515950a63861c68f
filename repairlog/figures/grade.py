"""The least grade that readings call for under a rulebook, as a figure with a page."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import cast

from repairlog.figures.asked import bare_number, in_words
from repairlog.figures.by_rulebook import RULEBOOK, grade_of, rulebook
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.figures.interval import DAY
from repairlog.trade.grading import CalledFor, Found, Spot, called_for, grader, nearly_met, reading_of
from repairlog.trade.rulebook import ASSUMED, OWNERS, PLACES, Rulebook
from repairlog.trade.unworkable import Unworkable
from repairlog.units import Measure, NotUnderstood, read
from repairlog.words import _, codes, grading
from repairlog.words.boxes import label
from repairlog.words.rulebooks.cited import mark_word
from repairlog.words.rulebooks.coded import plain

SAID = {
    "ignited": "ignited",
    "seen_or_heard": "seen_heard_or_felt",
    "paved": "paved_wall_to_wall",
    "frost": "frost",
    "excavation_damage": "excavation_damage",
}
"""By input, the condition that it says holds."""


def _weighed(code: str) -> Input:
    said = grading.conditions()[code]
    return Input(
        name=code,
        kind="choice",
        choices=("yes", "no"),
        words={"yes": _("yes"), "no": _("no")},
        label=label(said),
        help=_("As somebody weighed it; what nobody says counts as so."),
        group=_("What only a person can weigh"),
    )


def _flag(name: str) -> Input:
    said = label(grading.conditions()[SAID[name]])
    return Input(name=name, kind="yes", label=said, help="", group=_("What was seen there"))


AROUND = _("The area and the line")

INPUTS = (
    Input(
        name="reading", kind="text", many=True, label=_("Readings"), help=_("Such as 45 %LEL or 2.5 %gas, a line each.")
    ),
    Input(
        name="place",
        kind="choice",
        choices=PLACES,
        words={code: codes.word(code) for code in PLACES},
        label=_("Where they were taken"),
        help=_("Of all of them."),
    ),
    Input(
        name="owner",
        kind="choice",
        choices=OWNERS,
        words={code: plain(code) for code in OWNERS},
        label=_("Whose substructure"),
        help=_("Built for gas or not."),
    ),
    Input(
        name="distance",
        kind="distance",
        label=_("Distance from a building"),
        help=_("From its outside wall, such as 5 ft."),
    ),
    Input(
        name="kind",
        kind="choice",
        choices=("sustained", "peak"),
        words={"sustained": _("sustained"), "peak": _("peak")},
        label=_("Sustained or peak"),
        help=_("What the readings are."),
    ),
    *map(_flag, SAID),
    *map(_weighed, ASSUMED),
    RULEBOOK,
    Input(
        name="extent",
        kind="area",
        label=_("Over which area"),
        help=_("Gas was read, such as 2000 sq ft."),
        group=AROUND,
    ),
    Input(name="smys", kind="text", label=_("Stress, % of SMYS"), help=_("Of the line, such as 30."), group=AROUND),
    Input(
        name="class_location",
        kind="choice",
        choices=("1", "2", "3", "4"),
        label=_("Class location"),
        help=_("Of the line."),
        group=AROUND,
    ),
    Input(
        name="given",
        kind="text",
        label=_("Grade that a person gave"),
        help=_("Where a class within it is asked for."),
        group=AROUND,
    ),
    Input(
        name="lel_basis",
        kind="choice",
        choices=("5.0", "4.4"),
        label=_("LEL of methane, per cent"),
        help=_("What 100 %LEL is in per cent of gas."),
        default="5.0",
    ),
    Input(name="on", kind="text", label=_("By the rules of that day"), help=_("Such as 2026-03-05."), group=AROUND),
)


def work(asked: Asked) -> Answer:
    """The least grade, by which criterion, and what nobody answered."""
    by = rulebook(asked, on=_day(asked))
    found = _found(asked, by)
    ready = grader(by)
    called, nearly = called_for(ready, found), nearly_met(ready, found)
    return Answer(
        values=(
            Value(
                key="grade",
                label=_("Least grade called for"),
                worth=called.grade.code if called.grade else _("none by these"),
            ),
            *_by(called),
        ),
        formula=_("the most hazardous grade with a criterion that is met; what nobody answered counts as met"),
        source=_("{title}; {clause}").format(title=by.title, clause=called.by.criterion.cited.clause)
        if called.by
        else by.title,
        steps=tuple(grading.lines(called, nearly)),
        bounds=(_("readings of methane in %LEL, per cent or ppm; criteria with a limit that can be measured"),),
        cautions=(_("A qualified person sets the grade, and any hazard to people raises it whatever was read."),),
        understood=dict(asked.shown),
    )


def _by(called: CalledFor) -> tuple[Value, ...]:
    if called.by is None:
        return ()
    criterion = called.by.criterion
    return (
        Value(key="criterion", label=_("By the criterion"), worth=criterion.says),
        Value(key="clause", label=_("Clause"), worth=criterion.cited.clause),
        Value(key="mark", label=_("How far its text is known"), worth=mark_word(criterion.cited.mark)),
    )


def _found(asked: Asked, by: Rulebook) -> Found:
    spot = Spot(
        counts_as=frozenset({str(asked.values["place"])} if "place" in asked.values else ()),
        owner=str(asked.values.get("owner", "")),
        distance=cast("Measure | None", asked.values.get("distance")),
    )
    basis, kind = Decimal(str(asked.values["lel_basis"])), str(asked.values.get("kind", ""))
    readings = [_read(text, basis) for text in cast("tuple[str, ...]", asked.values.get("reading", ()))]
    return Found(
        readings=tuple(
            reading_of(each, key=str(number), kind=kind, spot=spot, lel_basis=basis)
            for number, each in enumerate(readings)
        ),
        spots=(spot,),
        said=frozenset(code for name, code in SAID.items() if name in asked.values),
        answers={code: asked.values[code] == "yes" for code in ASSUMED if code in asked.values},
        extent=cast("Measure | None", asked.values.get("extent")),
        percent_smys=_percent(asked),
        class_location=str(asked.values.get("class_location", "")),
        grade=grade_of(asked, by, name="given"),
    )


def _read(text: str, basis: Decimal) -> Measure:
    try:
        return read(text, "gas", lel_basis=basis)
    except NotUnderstood as complaint:
        raise in_words(complaint, "reading") from None


def _percent(asked: Asked) -> Decimal | None:
    if "smys" not in asked.values:
        return None
    percent = bare_number(str(asked.values["smys"]).removesuffix("%"), field="smys")
    if percent < 0:
        raise Unworkable("negative", field="smys", got=str(asked.values["smys"])[:80])
    return percent


def _day(asked: Asked) -> date | None:
    if "on" not in asked.values:
        return None
    said = str(asked.values["on"]).strip()
    try:
        return date.fromisoformat(said)
    except ValueError:
        raise Unworkable("not_written_so", field="on", got=said[:80], would_have=DAY) from None


GRADE = Figure(
    name="grade",
    version="1",
    title=_("Least grade"),
    help=_("Say the least grade that readings call for, by which criterion, and what was assumed."),
    inputs=INPUTS,
    work=work,
)
