"""What each kind of rule is made of: its keys, how each is read, and which it cannot be without."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from repairlog import units
from repairlog.rulebooks import values
from repairlog.rulebooks.values import Reader, code_of, interval, measure_of, number, some_of, text, whole_from, yes
from repairlog.rulebooks.wrong import At
from repairlog.trade import rulebook as trade


@dataclass(frozen=True, slots=True)
class Key:
    """How the value of one key is read, whether it must be there, and its name in the rule where that is another."""

    reads: Reader
    required: bool = False
    into: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """What a table becomes, and its keys. `one_of`: keys of which exactly one is given; `any_of`: of which at
    least one is."""

    makes: Callable[..., Any]
    keys: Mapping[str, Key]
    one_of: tuple[str, ...] = ()
    any_of: tuple[str, ...] = ()


def must(reads: Reader, *, into: str = "") -> Key:
    """A key that cannot be left out."""
    return Key(reads, required=True, into=into)


def may(reads: Reader, *, into: str = "") -> Key:
    """A key that can be left out."""
    return Key(reads, into=into)


CITED = Form(
    trade.Cited,
    {
        "clause": must(text),
        "source": must(text),
        "mark": must(code_of(trade.MARKS)),
        "checked": must(values.day),
        "from": may(values.day, into="first"),
        "until": may(values.day, into="last"),
        "remark": may(text),
    },
)
"""What stands in every rule."""

HEAD = {
    "id": must(text),
    "title": must(text),
    "authority": must(text),
    "status": must(code_of(trade.STATUSES)),
    "from": may(values.day, into="first"),
    "until": may(values.day, into="last"),
    "extends": may(some_of(text)),
    "says": may(text),
}
"""What stands before the first rule."""

DROP = Form(trade.Drop, {"id": must(text), "reason": must(text)})


def table_of(form: Form) -> Reader:
    """A table within a rule."""

    def read(value: object, at: At) -> Any:
        told = values.table(value, at)
        return None if told is None else made(form, told, at=at)

    return read


def made(form: Form, told: Mapping[str, object], *, at: At, known: frozenset[str] = frozenset(), **more: object) -> Any:
    """The value that a table tells of, None where something is wrong in it, which is noted. `known`: keys of the
    table that others read; `more`: fields that the table does not say."""
    found = read_keys(form.keys, told, at=at, known=known)
    if form.one_of and sum(key in told for key in form.one_of) != 1:
        at.wrong("one_of", expected=", ".join(form.one_of))
        return None
    if form.any_of and not any(key in told for key in form.any_of):
        at.wrong("any_of", expected=", ".join(form.any_of))
        return None
    return None if found is None else form.makes(**found, **more)


def read_keys(
    keys: Mapping[str, Key], told: Mapping[str, object], *, at: At, known: frozenset[str] = frozenset()
) -> dict[str, Any] | None:
    """Each key's value by its name in the rule; None where something is wrong, which is noted."""
    before = len(at.wrongs)
    for given in told:
        if given not in keys and given not in known:
            at.inner(given).wrong("key_unknown", got=given, among=sorted({*keys, *known}))
    for name, key in keys.items():
        if key.required and name not in told:
            at.wrong("key_missing", got=name)
    found = {key.into or name: key.reads(told[name], at.inner(name)) for name, key in keys.items() if name in told}
    return found if len(at.wrongs) == before else None


def _bound(quantity: str) -> Reader:
    limit = may(measure_of(quantity))
    keys = dict.fromkeys(("at_least", "above", "below", "at_most"), limit)

    def read(value: object, at: At) -> trade.Bound | None:
        found: trade.Bound | None = table_of(Form(trade.Bound, keys))(value, at)
        if found == trade.Bound():
            at.wrong("no_limit", expected=", ".join(keys))
        return found

    return read


def _reading(value: object, at: At) -> trade.ReadingBound | None:
    """A reading of one gas, within limits written in its units."""
    told = values.table(value, at)
    if told is None:
        return None
    gas = code_of(units.GASES)(told.get("gas"), at.inner("gas"))
    kind = code_of(("sustained", "peak"))(told["kind"], at.inner("kind")) if "kind" in told else ""
    limits = {key: each for key, each in told.items() if key not in ("gas", "kind")}
    bound = _bound("gas")(limits, at)
    if gas is None or kind is None or bound is None:
        return None
    return trade.ReadingBound(gas=gas, kind=kind, bound=bound)


_PRESSURE = table_of(
    Form(
        trade.PressureForm,
        {
            "form": must(code_of(trade.PRESSURE_FORMS)),
            "pressure": may(measure_of("pressure")),
            "times": may(number),
        },
    )
)


def _pressure(value: object, at: At) -> trade.PressureForm | None:
    """A named form with exactly the fields that the form has."""
    found: trade.PressureForm | None = _PRESSURE(value, at)
    if found is None:
        return None
    wants = trade.FIELDS_OF_FORM[found.form]
    has = {name for name in ("pressure", "times") if getattr(found, name) is not None}
    if has != set(wants):
        at.wrong("fields_of_form", got=found.form, expected=", ".join(wants))
    return found


_GRADES = may(some_of(text))

FORMS: Mapping[str, Form] = MappingProxyType(
    {
        "grade": Form(
            trade.Grade,
            {"id": may(text), "code": must(text), "rank": must(whole_from(1, to=99)), "meaning": must(text)},
        ),
        "criterion": Form(
            trade.Criterion,
            {
                "id": must(text),
                "says": must(text),
                "calls_for": must(text),
                "place": may(code_of(trade.PLACES)),
                "owner": may(code_of(trade.OWNERS)),
                "conditions": may(some_of(code_of(trade.CONDITIONS))),
                "reading": may(_reading),
                "extent": may(_bound("area")),
                "distance": may(_bound("distance")),
                "percent_smys_at_least": may(number),
                "class_locations": may(some_of(code_of(("1", "2", "3", "4")))),
                "judged": may(yes),
                "of_grade": may(text),
            },
        ),
        "due": Form(
            trade.Due,
            {
                "id": must(text),
                "task": must(code_of(trade.TASKS)),
                "counted_from": must(code_of(trade.COUNTED_FROM)),
                "within": must(interval),
                "owed_until": must(code_of(trade.UNTIL), into="until"),
                "grades": _GRADES,
                "criteria": may(some_of(text)),
                "when": may(some_of(code_of(trade.DUE_WHEN))),
                "unless": may(some_of(code_of(trade.DUE_WHEN))),
                "repeats": may(yes),
                "says": may(text),
            },
        ),
        "regrade": Form(
            trade.RegradeLimit,
            {
                "id": must(text),
                "direction": must(code_of(("up", "down", "either"))),
                "from_grades": _GRADES,
                "to_grades": _GRADES,
                "most_times": may(whole_from(0, to=99)),
                "only_after_repair": may(yes),
                "within": may(interval),
                "clock": may(code_of(trade.CLOCKS)),
                "reason_asked": may(yes),
                "person_named": may(yes),
                "says": may(text),
            },
        ),
        "venting_wait": Form(
            trade.VentingWait, {"id": must(text), "wait": must(interval), "grades": _GRADES, "says": may(text)}
        ),
        "record": Form(
            trade.RecordAsked,
            {
                "id": must(text),
                "record": must(code_of(trade.RECORDS)),
                "fields": must(some_of(code_of(trade.FIELDS_ASKED))),
                "says": may(text),
            },
        ),
        "retention": Form(
            trade.Retention,
            {
                "id": must(text),
                "record": must(code_of(trade.RECORDS)),
                "keep": may(interval),
                "life_of_pipeline": may(yes),
                "most_recent": may(whole_from(1, to=99)),
                "or_next_one": may(yes),
                "says": may(text),
            },
            one_of=("keep", "life_of_pipeline", "most_recent"),
        ),
        "round": Form(
            trade.Round,
            {
                "id": must(text),
                "round": must(code_of(trade.ROUNDS)),
                "of": must(text),
                "within": must(interval),
                "not_sooner": may(interval),
                "says": may(text),
            },
        ),
        "report": Form(
            trade.Report,
            {
                "id": must(text),
                "report": must(code_of(trade.REPORTS)),
                "to": must(text),
                "within": may(interval),
                "counted_from": may(text),
                "days": may(some_of(values.day_of_year)),
                "weekend": may(code_of(trade.WEEKENDS)),
                "says": may(text),
            },
            one_of=("within", "days"),
        ),
        "test_pressure": Form(
            trade.TestPressure,
            {
                "id": must(text),
                "part": must(code_of(trade.TESTED_PARTS)),
                "least": may(_pressure),
                "most": may(_pressure),
                "operating": may(_bound("pressure")),
                "hold": may(measure_of("duration")),
                "says": may(text),
            },
            any_of=("least", "most", "hold"),
        ),
        "instrument": Form(
            trade.InstrumentInterval,
            {
                "id": must(text),
                "instrument": must(code_of(trade.INSTRUMENTS)),
                "within": must(interval),
                "also_after": may(text),
                "says": may(text),
            },
        ),
        "qualification": Form(
            trade.QualificationInterval,
            {
                "id": must(text),
                "task": must(text),
                "within": must(interval),
                "also_after": may(text),
                "says": may(text),
            },
        ),
        "response_time": Form(
            trade.ResponseTime,
            {
                "id": must(text),
                "form": must(code_of(trade.RESPONSE_FORMS)),
                "calls": must(text),
                "time": must(measure_of("duration")),
                "counted_from": must(text),
                "counted_to": must(text, into="until"),
                "percent": may(number),
                "period": may(code_of(("month", "year"))),
                "says": may(text),
            },
        ),
        "convention": Form(
            trade.Convention,
            {"id": must(text), "name": must(code_of(("half_month",))), "value": must(interval), "says": may(text)},
        ),
        "target": Form(
            trade.Target, {"id": must(text), "beside": must(text), "within": must(interval), "says": may(text)}
        ),
        "gap": Form(
            trade.RuleGap,
            {
                "id": must(text),
                "fill_in": must(text),
                "task": may(code_of(trade.TASKS)),
                "grades": _GRADES,
                "criteria": may(some_of(text)),
                "instead_of": may(code_of(tuple(trade.KINDS))),
            },
        ),
    }
)
"""The kinds of rule, by what heads them: the same as `repairlog.trade.rulebook.KINDS`."""
