"""What a rule says, in sentences, whichever kind it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from repairlog import units
from repairlog.trade import rulebook as trade
from repairlog.trade.rulebook import Bound, PressureForm, Rule
from repairlog.words import _
from repairlog.words.boxes import label
from repairlog.words.days import day_of_year
from repairlog.words.rulebooks.coded import counted_word, plain, task_word

MONTHS = 12


def said(rule: Rule) -> str:
    """What the rule asks, and what else its text says beside it."""
    beside = "" if isinstance(rule, trade.Criterion) else getattr(rule, "says", "")
    return " ".join(filter(None, (_sentence(rule), beside)))


def _sentence(rule: Rule) -> str:
    match rule:
        case trade.Grade():
            return _("Grade {code} (rank {rank}): {meaning}.").format(
                code=rule.code, rank=rule.rank, meaning=rule.meaning
            )
        case trade.Criterion():
            return _criterion(rule)
        case trade.Due():
            return _due(rule)
        case trade.RuleGap():
            return _gap(rule)
        case trade.Target():
            return _("Beside {beside}: {within}; a target, never late.").format(beside=rule.beside, within=rule.within)
        case trade.RegradeLimit():
            return _regrade(rule)
        case _:
            return _other(rule)


def _criterion(rule: trade.Criterion) -> str:
    parts = [plain(rule.place), plain(rule.owner), *map(plain, rule.conditions)]
    if rule.reading:
        what = (plain(rule.reading.kind), plain(rule.reading.gas), bound(rule.reading.bound))
        parts.append(" ".join(filter(None, what)))
    if rule.extent:
        parts.append(_("extent {bound}").format(bound=bound(rule.extent)))
    if rule.distance:
        parts.append(_("distance {bound}").format(bound=bound(rule.distance)))
    if rule.percent_smys_at_least is not None:
        parts.append(_("stressed to {percent} % of SMYS or more").format(percent=rule.percent_smys_at_least))
    if rule.class_locations:
        parts.append(_("class location {classes}").format(classes=", ".join(rule.class_locations)))
    if rule.judged:
        parts.append(_("a person judges it; nothing measured decides"))
    if rule.of_grade:
        parts.append(_("of a leak that otherwise has grade {grade}").format(grade=rule.of_grade))
    told = _("{says}: calls for grade {grade}.").format(says=rule.says, grade=rule.calls_for)
    return f"{told} ({_joined(parts)})"


def _due(rule: trade.Due) -> str:
    told = _("{task}: {within}, counted from {start}").format(
        task=task_word(rule.task), within=rule.within, start=counted_word(rule.counted_from)
    )
    more = [_("and again each time it is done") if rule.repeats else "", _owed_until(rule.until)]
    if rule.grades:
        more.append(_("for grade {grades}").format(grades=", ".join(rule.grades)))
    if rule.criteria:
        more.append(_("where one of these set the grade: {criteria}").format(criteria=", ".join(rule.criteria)))
    more += [_("where {what}").format(what=plain(each)) for each in rule.when]
    more += [_("unless {what}").format(what=plain(each)) for each in rule.unless]
    return f"{_joined([told, *more])}."


def _owed_until(until: str) -> str:
    return {
        "made_safe": _("owed until it is made safe"),
        "repaired": _("owed until it is repaired"),
        "permanently_repaired": _("owed until it is repaired for good"),
        "ended": _("owed until the leak has ended"),
        "no_reading": _("owed until there is no reading any more"),
        "done_once": _("owed once"),
    }[until]


def _gap(rule: trade.RuleGap) -> str:
    of = [task_word(rule.task) if rule.task else "", *(_("grade {code}").format(code=each) for each in rule.grades)]
    told = _("To be filled in by the operator: {what}.").format(what=rule.fill_in)
    return f"{told} ({_joined([*of, *rule.criteria])})" if any(of) or rule.criteria else told


def _regrade(rule: trade.RegradeLimit) -> str:
    ways = {
        "up": _("To a more hazardous grade"),
        "down": _("To a less hazardous grade"),
        "either": _("To another grade"),
    }
    clocks = {
        "runs_on": _("the time runs on"),
        "starts_anew": _("the time starts anew"),
        "shorter_of_both": _("the shorter of what is left and the new grade's time counts"),
    }
    parts = [ways[rule.direction]]
    if rule.from_grades:
        parts.append(_("from {grades}").format(grades=", ".join(rule.from_grades)))
    if rule.to_grades:
        parts.append(_("to {grades}").format(grades=", ".join(rule.to_grades)))
    if rule.most_times is not None:
        parts.append(_("without a repair at most {times} times").format(times=rule.most_times))
    if rule.within:
        parts.append(_("only within {within} of the day it was found").format(within=rule.within))
    parts += [
        _("only after a repair") if rule.only_after_repair else "",
        clocks.get(rule.clock, ""),
        _("with a reason") if rule.reason_asked else "",
        _("by a person who is named") if rule.person_named else "",
    ]
    return f"{_joined(parts)}."


def _other(rule: Rule) -> str:
    match rule:
        case trade.VentingWait():
            return _("Wait {wait}, then read again before a lower grade.").format(wait=rule.wait)
        case trade.RecordAsked():
            return _("Of each {record}: {fields}.").format(
                record=plain(rule.record), fields=", ".join(map(plain, rule.fields))
            )
        case trade.Retention():
            return _("{record}: {keep}.").format(record=label(plain(rule.record)), keep=_kept(rule))
        case trade.Round():
            apart = _("; not within {time} of the one before").format(time=rule.not_sooner) if rule.not_sooner else ""
            told = _("{round} of {of}: {within}").format(round=label(plain(rule.round)), of=rule.of, within=rule.within)
            return f"{told}{apart}."
        case trade.Report():
            return _report(rule)
        case trade.TestPressure():
            return _test(rule)
        case trade.InstrumentInterval() | trade.QualificationInterval():
            return _again(rule)
        case trade.ResponseTime():
            return _response(rule)
        case trade.Convention():
            return _("{name}: {value}.").format(name=label(plain(rule.name)), value=rule.value)
    raise TypeError(f"no words for a {type(rule).__name__}")


def _kept(rule: trade.Retention) -> str:
    if rule.life_of_pipeline:
        return _("for the life of the pipeline")
    if rule.most_recent is not None:
        return _("the most recent {count}").format(count=rule.most_recent)
    longer = _(", or until the next one is complete, if that is longer") if rule.or_next_one else ""
    return f"{rule.keep}{longer}"


def _report(rule: trade.Report) -> str:
    weekends = {
        "stays": _("a weekend does not move the day"),
        "next_working_day": _("on a weekend or holiday it moves to the next working day"),
        "shifts_direction_not_read": _("on a weekend or holiday it moves; where to was not read, the operator says"),
    }
    when = (
        _("within {within} of {start}").format(within=rule.within, start=rule.counted_from or _("the event"))
        if rule.within
        else _each_year(rule.days)
    )
    told = _("{report} to {to}: {when}").format(report=label(plain(rule.report)), to=rule.to, when=when)
    return f"{_joined([told, weekends.get(rule.weekend, '')])}."


def _each_year(days: Sequence[str]) -> str:
    """The days of every year; the same day of each month as such."""
    in_month = {day.partition("-")[2] for day in days}
    if len(days) == MONTHS and len(in_month) == 1:
        return _("on day {day} of each month").format(day=int(in_month.pop()))
    return _("each year on {days}").format(days=", ".join(map(day_of_year, days)))


def _test(rule: trade.TestPressure) -> str:
    parts = [label(plain(rule.part))]
    if rule.operating:
        parts.append(_("where the highest operating pressure is {bound}").format(bound=bound(rule.operating)))
    if rule.least:
        parts.append(_("at least {pressure}").format(pressure=_pressure(rule.least)))
    if rule.most:
        parts.append(_("at most {pressure}").format(pressure=_pressure(rule.most)))
    if rule.hold:
        parts.append(_("held for {time}").format(time=units.shown(rule.hold)))
    return f"{_joined(parts)}."


def _pressure(form: PressureForm) -> str:
    pressure = units.shown(form.pressure) if form.pressure else ""
    if form.times == 1 and form.form == "times_operating":
        return _("the highest operating pressure")
    return {
        "fixed": pressure,
        "times_operating": _("{times} times the highest operating pressure"),
        "greater_of_operating_and_fixed": _(
            "the greater of {times} times the highest operating pressure and {pressure}"
        ),
        "times_design": _("{times} times the design pressure"),
    }[form.form].format(times=form.times, pressure=pressure)


def _again(rule: trade.InstrumentInterval | trade.QualificationInterval) -> str:
    what = plain(rule.instrument) if isinstance(rule, trade.InstrumentInterval) else rule.task
    after = _("also after: {what}").format(what=rule.also_after) if rule.also_after else ""
    told = _("{what}: {within}").format(what=label(what), within=rule.within)
    return f"{_joined([told, after])}."


def _response(rule: trade.ResponseTime) -> str:
    time = units.shown(rule.time)
    forms = {
        "mean": _("on the mean within {time}"),
        "share": _("at least {percent} % within {time}"),
        "most": _("none of them over {time}"),
    }
    told = forms[rule.form].format(time=time, percent=rule.percent)
    span = _("from {start} to {end}").format(start=rule.counted_from, end=rule.until)
    by = {"month": _("counted by the month"), "year": _("counted by the year")}.get(rule.period, "")
    return f"{_joined([_('{calls}: {told}').format(calls=rule.calls, told=told), span, by])}."


def bound(of: Bound) -> str:
    """Its limits in words, in the units that the rule is written in."""
    words = (
        (of.at_least, _("at least {limit}")),
        (of.above, _("above {limit}")),
        (of.at_most, _("at most {limit}")),
        (of.below, _("below {limit}")),
    )
    return _(" and ").join(word.format(limit=limit.typed) for limit, word in words if limit)


def _joined(parts: Iterable[str]) -> str:
    return ", ".join(part for part in parts if part)
