"""A text with what it extends becomes a rulebook, or what does not hang together in it is told."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from repairlog.rulebooks.reading import Text
from repairlog.rulebooks.wrong import At
from repairlog.trade.intervals import read_interval
from repairlog.trade.intervals.counting import HALF_MONTH_DAYS
from repairlog.trade.rulebook import KINDS, Criterion, Due, RegradeLimit, Rule, Rulebook, RuleGap, VentingWait, rules
from repairlog.trade.rulebook.kept import digest_of


def composed(text: Text, *, extended: Sequence[Rulebook]) -> Rulebook:
    """The rulebook of a text. `extended`: those it extends, in its order. Of what they have, a rule of the same id
    replaces and a drop takes away; what does not hang together is noted in the text's `wrongs`."""
    held = _extended(extended)
    for drop, at in text.drops:
        if held.pop(drop.id, None) is None:
            at.inner("id").wrong("drops_nothing", got=drop.id, among=list(held))
    for kind, rule, at in text.rules:
        if rule.id in held and held[rule.id][0] != kind:
            at.inner("id").wrong("replaces_another_kind", got=rule.id, expected=held[rule.id][0])
        held[rule.id] = (kind, rule)
    by_kind = {field: tuple(rule for kind, rule in held.values() if KINDS[kind] == field) for field in KINDS.values()}
    rulebook = Rulebook(
        id=text.id,
        title=text.title,
        authority=text.authority,
        status=text.status,
        digest=digest_of(text.digest, extended=[each.digest for each in extended]),
        first=text.first,
        last=text.last,
        extends=text.extends,
        says=text.says,
        dropped=(*(drop for each in extended for drop in each.dropped), *(drop for drop, _ in text.drops)),
        **by_kind,  # type: ignore[arg-type]
    )
    if not text.at.wrongs:
        _hangs_together(rulebook, text)
    return rulebook


def _extended(extended: Sequence[Rulebook]) -> dict[str, tuple[str, Rule]]:
    """Every rule of what is extended, by id; of one id the later in the order of extending stands."""
    return {rule.id: (kind, rule) for each in extended for kind, rule in rules(each)}


def _hangs_together(rulebook: Rulebook, text: Text) -> None:
    codes = [grade.code for grade in rulebook.grades]
    for _, rule, at in text.rules:
        for key, code in _grades_named(rule):
            if code not in codes:
                at.inner(key).wrong("grade_unknown", got=code, among=codes)
        _names_rules(rule, rulebook, at)
        _half_months(rule, rulebook, at)
    _ranks_once(rulebook, text)
    for criterion in rulebook.criteria:
        if criterion.calls_for not in codes:
            text.at.wrong("grade_of_extended_unknown", got=criterion.calls_for, expected=criterion.id)


def _grades_named(rule: Rule) -> Iterator[tuple[str, str]]:
    match rule:
        case Criterion():
            yield "calls_for", rule.calls_for
            yield from [("of_grade", rule.of_grade)] * bool(rule.of_grade)
        case Due() | VentingWait() | RuleGap():
            yield from (("grades", code) for code in rule.grades)
        case RegradeLimit():
            yield from (("from_grades", code) for code in rule.from_grades)
            yield from (("to_grades", code) for code in rule.to_grades)


def _names_rules(rule: Rule, rulebook: Rulebook, at: At) -> None:
    """Criteria and limits that a rule names are there."""
    match rule:
        case Due() | RuleGap():
            _known(rule.criteria, [each.id for each in rulebook.criteria], at=at.inner("criteria"))
    match rule:
        case Due() if both := set(rule.when) & set(rule.unless):
            at.inner("unless").wrong("when_and_unless", got=min(both))
    beside = getattr(rule, "beside", None)
    if beside is not None:
        _known((beside,), [each.id for each in rulebook.dues], at=at.inner("beside"))


def _known(ids: Collection[str], among: Sequence[str], *, at: At) -> None:
    for id in ids:
        if id not in among:
            at.wrong("rule_unknown", got=id, among=among)


def _half_months(rule: Rule, rulebook: Rulebook, at: At) -> None:
    """No code says what half a month is: a rulebook that counts by it says so, and as it is counted here."""
    usual = f"{HALF_MONTH_DAYS} days"
    value, within = getattr(rule, "value", usual), str(getattr(rule, "within", ""))
    if value != usual:
        at.inner("value").wrong("not_as_counted", got=value, expected=usual)
    halves = bool(within) and any(bound.unit == "half_months" for bound in read_interval(within).bounds)
    if halves and not any(each.name == "half_month" for each in rulebook.conventions):
        at.inner("within").wrong("half_month_not_stated", got=within, expected=usual)


def _ranks_once(rulebook: Rulebook, text: Text) -> None:
    ranks = [grade.rank for grade in rulebook.grades]
    own = {rule.id: at for kind, rule, at in text.rules if kind == "grade"}
    for grade in rulebook.grades:
        if ranks.count(grade.rank) > 1:
            own.get(grade.id, text.at).inner("rank").wrong("rank_twice", got=grade.rank)
