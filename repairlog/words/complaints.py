"""What is said of a field that could not be read: a sentence, and what to do about it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from repairlog.words import _, measures
from repairlog.words.measures import Facts

MOST_NAMED = 12
"""Names that a hint lists at the most; a longer list says that there are more."""


class Told(Protocol):
    """A complaint: where it is (`field`, `list.key.field`, empty for the whole entry), what it is, and its facts."""

    @property
    def field(self) -> str: ...
    @property
    def code(self) -> str: ...
    @property
    def facts(self) -> Facts: ...


def sentence(complaint: Told) -> tuple[str, str]:
    """Message and hint for a complaint of `repairlog.intake` or `repairlog.units`; KeyError for an unknown code."""
    told = {name: _plain(value) for name, value in complaint.facts.items()}
    told = {"got": "", "would_have": "", "most": "", "least": "", "longest": "", **told}
    told["where"] = told["got"] or complaint.field.rpartition(".")[2]
    own = {
        **_of_calls(),
        **_of_text(),
        **_of_choices(),
        **_of_whens(),
        **_of_subjects(),
        **_of_righting(),
        **_of_rules(),
    }
    if complaint.code in own:
        return _filled(own[complaint.code], told)
    return measures.sentence(complaint.code, complaint.facts)


def _filled(said: tuple[str, str], told: Mapping[str, str]) -> tuple[str, str]:
    return said[0].format_map(told), said[1].format_map(told)


def _plain(value: str | list[str]) -> str:
    if isinstance(value, str):
        return value
    return ", ".join(value[:MOST_NAMED]) + (" ..." if len(value) > MOST_NAMED else "")


def _of_calls() -> dict[str, tuple[str, str]]:
    return {
        "number_of_entries": (
            _("{got} entries came in one call; it takes from 1 to {most}."),
            _("Send them in several calls, what belongs together in one."),
        ),
        "not_a_call": (
            _("What came is no entry and no call of entries."),
            _('Send one entry, a list of them, or an object such as {{"entries": [...]}}.'),
        ),
        "field_twice": (
            _("“{where}” stands twice here, and only one of the two could be kept."),
            _("Send it once; what else there is to be told goes into the remarks or a note."),
        ),
        "not_an_object": (
            _("What came is no entry."),
            _('Send an object with the entry\'s fields, such as "kind" and "id".'),
        ),
        "kind_unknown": (_("There is no kind of entry “{got}”."), _("Choose one of: {would_have}.")),
        "version_unknown": (
            _("Version “{got}” of this kind of entry is not known here."),
            _("Send version {would_have}, or leave the version out."),
        ),
        "id_missing": (
            _("The entry has no id."),
            _("Give it a new UUID of version 7, and send the same one again when the call is repeated."),
        ),
        "not_an_id": (
            _("“{got}” is no id."),
            _("An id is written like 019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a: lower case, with hyphens."),
        ),
        "id_version": (
            _("“{got}” is not the id of an entry that a person makes."),
            _("Make a new UUID of version 7; those of version 8 come from lists that are taken in."),
        ),
        "not_a_moment": (
            _("“{got}” is no moment of a clock."),
            _("Write it in UTC like 2026-03-05T15:20:11.000Z, with three decimals."),
        ),
        "clock_too_far_off": (
            _("The device's clock is more than {most} years from the server's."),
            _("Set the device's clock, or leave out when it was sent."),
        ),
    }


def _of_text() -> dict[str, tuple[str, str]]:
    return {
        "field_missing": (
            _("This is needed and was left empty."),
            _("Fill it in; nothing else that you typed is lost."),
        ),
        "field_unknown": (_("There is no field “{where}” here."), _("Choose one of: {would_have}.")),
        "not_text": (_("“{got}” is no text."), _("Send it as text, between quotation marks.")),
        "too_long": (
            _("The text has {got} characters; {longest} is the most."),
            _("Shorten it here, and put the rest into the remarks or an entry of its own."),
        ),
        "control_characters": (
            _("The text holds characters that cannot be seen or kept."),
            _("Type it anew, or paste it as plain text."),
        ),
        "not_a_list_of_rows": (
            _("What came is no list of rows."),
            _('Send a list of objects, each with its own "key", such as [{{"key": "r1"}}].'),
        ),
        "too_many_rows": (
            _("{got} rows came; {most} is the most of one entry."),
            _("Put the rest into a second entry."),
        ),
        "row_key_unreadable": (
            _("“{got}” is no key of a row."),
            _("Give each row a short key of small letters, digits and underscores, such as r1."),
        ),
        "row_key_twice": (_("Two rows have the key “{got}”."), _("Give each row of a list a key of its own.")),
    }


def _of_choices() -> dict[str, tuple[str, str]]:
    return {
        "not_one_of": (_("“{got}” is none of the answers here."), _("Choose one of: {would_have}.")),
        "several_lots": (
            _("Several lots bear the number “{got}”."),
            _("Choose which of them was used; where nobody knows, say so there."),
        ),
        "no_access_and_looked": (
            _("It says that there was no access, and yet that places were looked at."),
            _("Choose which it was, or empty the boxes of the places."),
        ),
        "needs_one_of": (_("This row names nothing."), _("Fill in one of: {would_have}.")),
        "not_a_whole_number": (_("“{got}” is no whole number."), _("Write digits alone, such as 1974.")),
        "out_of_range": (_("{got} is not believed here."), _("Write a number from {least} to {most}.")),
        "not_a_measure": (
            _("“{got}” is no measure of this entry, so it cannot be kept as text."),
            _("Name a field that asks for a measure, such as pressure_found or readings.r3.value."),
        ),
    }


def _of_whens() -> dict[str, tuple[str, str]]:
    return {
        "file_first": (_("No picture or file came."), _("Choose one, or take a picture; an empty file is none.")),
        "file_too_large": (
            _("The file has more than {most} MB."),
            _("Choose a smaller one, or make it smaller first; nothing else that you typed is lost."),
        ),
        "not_a_digest": (
            _("“{got}” is no SHA-256 of a file."),
            _("Give 64 hexadecimal digits in small letters, as sha256sum prints them."),
        ),
        "not_a_day": (_("“{got}” is no day of the calendar."), _("Write the day like 2026-03-05.")),
        "when_unreadable": (
            _("No day or time can be read in “{got}”."),
            _("Write the day like 2026-03-05, or with the time like 2026-03-05 10:02."),
        ),
        "area_first": (
            _("Nobody said yet in which area it was, and so by which clock."),
            _("Choose the operating area, then press Now again."),
        ),
        "no_such_day": (_("The calendar has no day “{got}”."), _("Look at the day and the month.")),
        "no_such_hour": (_("The clock has no time “{got}”."), _("Write the time from 00:00 to 23:59.")),
        "year_out_of_range": (_("The year of “{got}” is not believed."), _("Write a year from {least} to {most}.")),
        "offset_unreadable": (
            _("The offset from UTC in “{got}” is none that a zone has."),
            _("Write it like -05:00, or leave it out."),
        ),
        "hour_comes_twice": (
            _("On that night clocks were put back, and “{got}” came twice."),
            _("Write which one is meant by its offset, such as: {would_have}; the first is the earlier."),
        ),
        "hour_does_not_exist": (
            _("On that night clocks were put forward, and “{got}” never came."),
            _("Write the time that the new clock showed, an hour later."),
        ),
        "hour_of_a_day_not_known": (
            _("“{got}” names an hour, of a day that is said to be only the latest it can have been."),
            _("Leave the hour out, or say the day as known."),
        ),
        "in_the_future": (
            _("“{got}” has not come yet; it is {received}."),
            _("Look at the day and the time; what is still to be done is entered when it is done."),
        ),
        "zone_unknown": (
            _("No time zone “{got}” is known."),
            _("Write it as the time zone database does, such as America/New_York."),
        ),
    }


def _of_subjects() -> dict[str, tuple[str, str]]:
    return {
        "subject_of_other_kind": (
            _("What is named here is of the kind “{got}”; this asks for: {would_have}."),
            _("Choose it again from the list."),
        ),
        "leak_number_unknown": (
            _("No leak here bears the number “{got}”."),
            _("Write it as it stands on its sheet, such as ES-26-0417."),
        ),
        "nothing_otherwise": (
            _("Nothing here says what is otherwise."),
            _("Say what the source turned out to be, or go back to the sheet."),
        ),
        "linked_to_itself": (
            _("“{got}” is the number of this leak itself."),
            _("Write the number of the other leak."),
        ),
        "joined_to_itself": (
            _("“{got}” is the number of this leak itself."),
            _("Write the number of the leak under which it goes on."),
        ),
        "joined_in_a_ring": (
            _("“{got}” was joined to this leak itself, so that the hazard would be open under neither number."),
            _("Open that one again first, or write another number."),
        ),
        "joined_to_one_opened_in_error": (
            _("“{got}” was opened by mistake, so that the hazard would be open under neither number."),
            _("Write the number of the leak under which it goes on, or end this one in another way."),
        ),
        "area_code_unreadable": (
            _("“{got}” is no code that a leak's number can start with."),
            _("Write up to eight letters and digits, such as ES."),
        ),
        "area_code_taken": (
            _("The code “{got}” is that of the area {by} already."),
            _("Choose another; the numbers of leaks start with it."),
        ),
        "operator_not_opened": (
            _("The book has no operator yet."),
            _("Open the operator first: its name and its time zone."),
        ),
        "operator_opened_already": (
            _("The book is another operator's already; a book has one."),
            _("Keep a second operator in a database of its own."),
        ),
    }


def _of_righting() -> dict[str, tuple[str, str]]:
    return {
        "not_to_be_voided": (
            _("What “{got}” opened cannot be made void: all else rests on it."),
            _("Correct what is wrong in it instead."),
        ),
        "nothing_changed": (
            _("Nothing in it is different from what stands."),
            _("Change what is wrong; or go back to the sheet, if nothing is."),
        ),
        "put_right_meanwhile": (
            _("{by} put the same entry right while this page was open."),
            _("What stands now is shown with what you changed. Look it over, and save it again if it still holds."),
        ),
        "void_is_not_corrected": (
            _("This speaks about an entry that makes another void; such an entry is not corrected."),
            _("Make it void, and what it had made void stands again."),
        ),
        "speaks_of_itself": (
            _("An entry cannot put itself right."),
            _("Give it an id of its own, and name the entry that it puts right."),
        ),
        "leaves_misread": (
            _("A later correction was read together with that entry, and would be read otherwise without: {got}."),
            _("Make the later correction void first, or correct the field to what it should say."),
        ),
        "leaves_unreadable": (
            _("Without that entry a later correction would stand alone, and this could not be read: {got}."),
            _("Make the later correction void first, or correct the field to what it should say."),
        ),
    }


def _of_rules() -> dict[str, tuple[str, str]]:
    return {
        "rulebook_unknown": (
            _("No rulebook “{got}” of the digest {named} is known here."),
            _("Its file was changed or is not there: look at the rulebooks again, and name the one that is meant now."),
        ),
        "rulebook_of_other_digest": (
            _("That digest is not of the rulebook “{got}”."),
            _("It is of {would_have}."),
        ),
        "rule_unknown": (_("The rulebook has no rule “{got}”."), _("Perhaps one of these is meant: {would_have}.")),
        "rulebook_proposed": (
            _("“{got}” is a proposal, and not in force anywhere."),
            _("Say that it is adopted although it is a proposal, or adopt another one."),
        ),
        "calendar_unknown": (
            _("There is no calendar “{got}”."),
            _("Give a country, or a country and a part of it, by ISO 3166: {would_have}."),
        ),
    }
