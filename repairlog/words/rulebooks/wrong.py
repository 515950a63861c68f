"""What is wrong in a rulebook file: where, what came, what was expected, what was perhaps meant."""

from __future__ import annotations

from typing import Protocol

from repairlog.words import _, intervals, measures
from repairlog.words.measures import Facts


class Wrong(Protocol):
    """One thing wrong in a file; see `repairlog.rulebooks.wrong`."""

    @property
    def file(self) -> str: ...
    @property
    def line(self) -> int: ...
    @property
    def rule(self) -> str: ...
    @property
    def key(self) -> str: ...
    @property
    def code(self) -> str: ...
    @property
    def got(self) -> str: ...
    @property
    def expected(self) -> str: ...
    @property
    def perhaps(self) -> str: ...
    @property
    def facts(self) -> Facts: ...


def wrong_line(wrong: Wrong) -> str:
    """`FILE:LINE: due repair-2, within: “6 monthz” …`; KeyError for an unknown code."""
    where = ", ".join(filter(None, (wrong.rule, wrong.key)))
    said = _said(wrong)
    if wrong.perhaps:
        said += " " + _("Perhaps “{perhaps}” is meant.").format(perhaps=wrong.perhaps)
    return f"{wrong.file}:{wrong.line}: " + (f"{where}: {said}" if where else said)


def _said(wrong: Wrong) -> str:
    own = {**_of_files(), **_of_values(), **_of_togetherness()}
    if wrong.code in own:
        return own[wrong.code].format(got=wrong.got, expected=wrong.expected)
    told = {"got": wrong.got, **wrong.facts}
    by = intervals if wrong.code in intervals.CODES else measures
    return _("“{got}”: {why}").format(got=wrong.got, why=" ".join(by.sentence(wrong.code, told)))


def _of_files() -> dict[str, str]:
    return {
        "not_utf8": _("It is not in UTF-8 from here on; save it as UTF-8."),
        "not_toml": _("It cannot be read as TOML: {got}."),
        "too_long": _("It is longer than {expected} bytes; no rulebook is."),
        "rulebook_twice": _("“{got}” is the id of {expected} already; give this one another."),
        "rulebook_unknown": _("There is no rulebook “{got}”. There are: {expected}."),
        "extends_in_a_ring": _("“{got}” extends this one, directly or through others; one of them must not."),
    }


def _of_values() -> dict[str, str]:
    return {
        "key_unknown": _("There is no such key here; there are: {expected}."),
        "key_missing": _("“{got}” is missing."),
        "empty": _("It is empty; write a text, or leave the key out."),
        "not_text": _("“{got}” is no text; write it between quotation marks."),
        "not_one_of": _("“{got}” is none of: {expected}."),
        "not_a_list": _("“{got}” is no list with something in it; write [“…”, “…”]."),
        "twice_in_list": _("“{got}” stands in the list twice."),
        "not_a_day": _("“{got}” is no day; write it without quotation marks, like 2026-11-25."),
        "not_a_day_of_the_year": _("“{got}” is no day of every year; write it like “03-15”."),
        "not_yes_or_no": _("“{got}” is neither true nor false."),
        "not_a_whole_number": _("“{got}” is no whole number within {expected}."),
        "not_a_number": _("“{got}” is no number above zero; write it without quotation marks."),
        "not_a_table": _("“{got}” is no table of keys; write {{ key = value, … }}."),
        "not_a_list_of_tables": _("Write each as a table of its own, headed [[{got}]]."),
        "not_an_id": _("“{got}” is no id: small letters, digits and single hyphens, such as repair-2."),
        "one_of": _("Give exactly one of: {expected}."),
        "any_of": _("Give at least one of: {expected}."),
        "no_limit": _("It sets no limit; give at least one of: {expected}."),
        "fields_of_form": _("The form “{got}” has these fields and no others: {expected}."),
    }


def _of_togetherness() -> dict[str, str]:
    return {
        "ends_before_it_begins": _("Its last day in force, {got}, is before its first, {expected}."),
        "id_twice": _("“{got}” is the id of the rule on line {expected} already."),
        "drops_nothing": _("Nothing that is extended has a rule “{got}”. There are: {expected}."),
        "replaces_another_kind": _("“{got}” would replace a rule of another kind: {expected}."),
        "grade_unknown": _("There is no grade “{got}” here. There are: {expected}."),
        "grade_of_extended_unknown": _("The criterion {expected} that is extended calls for “{got}”, no grade here."),
        "rule_unknown": _("There is no such rule “{got}”. There are: {expected}."),
        "when_and_unless": _("“{got}” stands under when, too: the rule would never apply."),
        "rank_twice": _("Another grade has the rank {got}, too; each has its own."),
        "not_as_counted": _("“{got}” is not how it is counted here, which is {expected}."),
        "half_month_not_stated": _(
            "“{got}” counts half months, and no code says what half a month is: state it under [[convention]],"
            " name “half_month”, value “{expected}”."
        ),
    }
