"""What is said of an old list that is taken in: of its columns file, of its rows, of what became of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from repairlog.words import _, complaints, of_number
from repairlog.words.measures import Facts


class Refused(Protocol):
    """A row that was not taken in: where, what stands there, and why."""

    @property
    def line(self) -> int: ...
    @property
    def column(self) -> str: ...
    @property
    def cell(self) -> str: ...
    @property
    def code(self) -> str: ...
    @property
    def facts(self) -> Facts: ...


class Wrong(Protocol):
    """Something wrong in a columns file: at which key, what came, what was expected and what perhaps meant."""

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


def sentence(refused: Refused) -> tuple[str, str]:
    """Why a row was not taken in and what to do; KeyError for an unknown code."""
    own = {**_of_days(), **_of_rows(), **_of_the_book()}
    if refused.code not in own:
        return complaints.sentence(_AsComplaint(refused))
    told = {"cell": shown(refused.cell), **{name: str(value) for name, value in refused.facts.items()}}
    told["order"] = _orders().get(told.get("order", ""), "")
    told["what"] = _facts_told().get(told.get("kind", ""), "")
    message, hint = own[refused.code]
    return message.format_map(told), hint.format_map(told)


def line_of(refused: Refused) -> str:
    """The whole of it on one line: where, what stands there, why, what to do."""
    where = _("line {line}").format(line=refused.line)
    if refused.column:
        where = _("line {line}, “{column}”").format(line=refused.line, column=refused.column)
    if refused.cell:
        where = _("{where}: “{cell}”").format(where=where, cell=shown(refused.cell))
    return " ".join((f"{where}.", *sentence(refused)))


def shown(cell: str) -> str:
    """A cell as it can be written anywhere, and not too long."""
    return cell[:80].encode("utf-8", "replace").decode().replace("\n", " ") + ("…" if len(cell) > 80 else "")


class _AsComplaint:
    """A refused row as a complaint about the field that its column became."""

    def __init__(self, refused: Refused) -> None:
        self.field = refused.column
        self.code = refused.code
        self.facts: Facts = {"got": shown(refused.cell), **refused.facts}


def _of_days() -> dict[str, tuple[str, str]]:
    return {
        "day_unreadable": (
            _("No day can be read in it; the columns file says that days are written {order}."),
            _("Write the day so, or give the file's own order under dates."),
        ),
        "no_day_in_that_order": (
            _("The calendar has no such day, written {order} as the columns file says."),
            _("Look at the day; if the list writes them otherwise, give its order under dates."),
        ),
        "two_digit_year": (
            _("Its year has two digits, and the columns file does not say in which century."),
            _("Add two_digit_years_from under dates: with 1950, 50 is 1950 and 49 is 2049."),
        ),
        "repaired_day_missing": (
            _("It is a list of repairs, and this row has no day of one."),
            _("Write the day, or take the row in with a list of leaks."),
        ),
    }


def _of_rows() -> dict[str, tuple[str, str]]:
    return {
        "number_missing": (
            _("The row has no number, and the list's leaks are told apart by theirs."),
            _("Write its number, or leave number out of the columns file and name the columns that make a leak."),
        ),
        "word_refused": (
            _("The columns file says to send back rows with this word."),
            _("Write what is meant, or give the word another meaning under words."),
        ),
        "more_cells_than_columns": (
            _("The row has {got} cells and the list {most} columns: what stands where cannot be told."),
            _("Put a cell that holds a separator between quotation marks."),
        ),
        "rows_run_together": (
            _(
                "The rows from here to line {last} cannot be told apart: a quotation mark is not closed,"
                " or stands inside a cell."
            ),
            _("Close it, or write it twice inside a cell that stands between quotation marks."),
        ),
    }


def _of_the_book() -> dict[str, tuple[str, str]]:
    return {
        "says_otherwise": (
            _("{what} The book says: {stands}. The list says: {came}."),
            _("Nothing of the row was taken in. Correct whichever is wrong."),
        ),
        "changed_meanwhile": (
            _("Somebody else wrote about the same leak just then."),
            _("Take the list in again; what is in the book is not taken twice."),
        ),
    }


def _facts_told() -> dict[str, str]:
    return {
        "leak_opened": _("The leak is in the book with another day of its report."),
        "grade_set": _("The leak has another grade of that day already."),
        "source_added": _("The leak has a source that is described otherwise."),
        "repair_attempted": _("The leak has that repair already, told otherwise."),
        "leak_ended": _("The leak has ended already, otherwise."),
        "note": _("The leak has that note already, told otherwise."),
    }


def _orders() -> dict[str, str]:
    return {
        "month day year": _("month, day, year"),
        "day month year": _("day, month, year"),
        "year month day": _("year, month, day"),
    }


def wrong_line(wrong: Wrong) -> str:
    """What is wrong in a columns file, with the key where it stands; KeyError for an unknown code."""
    said = _of_columns()[wrong.code].format(got=shown(wrong.got), expected=wrong.expected)
    if wrong.perhaps:
        said += " " + _("Perhaps “{perhaps}” is meant.").format(perhaps=wrong.perhaps)
    return f"{wrong.key}: {said}" if wrong.key else said


def _of_columns() -> dict[str, str]:
    return {**_of_values(), **_of_togetherness()}


def _of_values() -> dict[str, str]:
    return {
        "not_toml": _("It cannot be read as TOML: {got}."),
        "key_unknown": _("There is no such key here; there are: {expected}."),
        "missing": _("It is missing. Expected: {expected}."),
        "not_one_of": _("“{got}” is none of: {expected}."),
        "not_text": _("“{got}” is no text; write it between quotation marks."),
        "not_a_table": _("“{got}” is no table of keys."),
        "not_a_list_of_tables": _("Write it as tables of its own, each headed [[grade_on]]."),
        "not_a_day": _("“{got}” is no day; write it like 2016-12-31."),
        "not_a_year": _("“{got}” is no year; write it like 1950."),
        "not_a_rank": _("“{got}” is no rank; write a number from 1, the most hazardous, to 99."),
        "not_a_meaning": _(
            "“{got}” is no meaning of a word; write “no entry”, “note”, “refuse”, another value,"
            " {{ keep = true, rank = 2 }} or {{ value = …, rank = 2 }}."
        ),
        "word_unclear": _("“{got}” is taken for a value, and is nearly one of the words that do something else."),
        "encoding_unknown": _("No encoding “{got}” is known in which letters are letters; the usual are: {expected}."),
        "not_an_identity": _("Write “number”, or a list of the columns that make a leak."),
    }


def _of_togetherness() -> dict[str, str]:
    return {
        "one_of_on_and_on_column": _("Give either on, a day, or on_column, the column in which the day stands."),
        "repaired_missing": _("A list of repairs needs the column with the day of the repair."),
        "not_of_open_leaks": _('It is about repairs; a list of leaks has none. Set kind = "repairs".'),
        "number_or_identity": _(
            "The list has a number of its own for its leaks; leave identity out, or the number if it only counts rows."
        ),
        "identity_missing": _(
            "Without a column for the leak's number, list the columns that make a leak: identity = [“…”, “…”]."
        ),
        "address_or_its_parts": _("Name address, or house_number and street, not both."),
        "column_or_constant": _("It is named as a column, too; give it once."),
        "lasting_and_outcome": _(
            "Of lasting and outcome only {got} is known. Give both, or neither: then the leak ends as listed,"
            " and no attempt is made of it."
        ),
        "kind_differs": _("It says “{got}”, and --kind says “{expected}”."),
        "column_unknown": _("The list has no column “{got}”. It has: {expected}."),
        "column_twice": _("The list has more than one column “{got}”; give them names of their own."),
    }


def file_sentence(reason: str, facts: Mapping[str, str]) -> str:
    """Why a file is no list that can be read, and what to do; KeyError for an unknown reason."""
    return {
        "no_rows": _("There is no line with the names of columns in it."),
        "spreadsheet": _("It is a spreadsheet's own file. Save it as comma-separated values (CSV), and take that in."),
        "header_unreadable": _("The line with the names of its columns cannot be read: {said}."),
        "not_in_its_encoding": _("From line {line} on it is not in the encoding that the columns file gives."),
    }[reason].format_map(facts)


def counts(*, rows: int, taken: int, already_here: int, refused: int, only_looked: bool) -> str:
    """What became of a list's rows, in a sentence."""
    told = _("{rows} read: {taken} taken in, {already_here} in the book already, {refused} sent back.")
    if only_looked:
        told = _(
            "{rows} read, nothing written: {taken} would be taken in, {already_here} are in the book already,"
            " {refused} would be sent back."
        )
    return told.format(rows=rows_told(rows), taken=taken, already_here=already_here, refused=refused)


def rows_told(rows: int) -> str:
    """How many rows, in words."""
    return of_number("{rows} row", "{rows} rows", number=rows).format(rows=rows)


def raised_line(code: str, count: int) -> str:
    """A kind of gap and about how many entries that were taken in it was raised."""
    told = _gaps().get(code, code)
    return _("{count} raised: {told} ({code})").format(count=count, told=told, code=code)


def _gaps() -> dict[str, str]:
    """Those that an old list can raise."""
    return {
        "repaired_before_reported": _("repaired before it was reported"),
        "grade_not_known": _("a grade of which no rank is known; give it one under words in the columns file"),
        "ending_does_not_hold": _("an ending that does not hold"),
    }
