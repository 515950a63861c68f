"""What is said where the book itself cannot be opened, read or written: what is the matter, and what to do."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.words import _


def sentence(code: str, facts: Mapping[str, str] | None = None) -> tuple[str, str]:
    """Message and hint for a trouble with the book, by its code; KeyError for an unknown one. `facts`: by name."""
    message, hint = {
        **_of_the_address(),
        **_of_the_tables(),
        **_of_the_journal(),
        **_of_serving(),
        **_of_sign_ins(),
        **_of_others(),
    }[code]
    return message.format_map(facts or {}), hint.format_map(facts or {})


def _of_the_address() -> dict[str, tuple[str, str]]:
    address = _("Write it like sqlite:///FILE or postgresql://USER@HOST/NAME.")
    return {
        "database_url_unknown": (_("“{got}” is no address of a database that RepairLog can open."), address),
        "no_database": (_("There is no database at {file}."), _("`repairlog init` makes one.")),
        "cannot_be_opened": (
            _("The database cannot be opened: {said}."),
            _("See that the server runs, that the address is right, and that you may use it."),
        ),
    }


def _of_the_tables() -> dict[str, tuple[str, str]]:
    return {
        "no_book": (_("The database holds no book yet."), _("`repairlog init` makes one.")),
        "older_revision": (
            _("The database has the tables of revision {found}; this release wants {wanted}."),
            _("Make a backup, then `repairlog upgrade` brings the book to this release."),
        ),
        "other_revision": (
            _("The database has the tables of revision {found}; this release wants {wanted}."),
            _("Use the release of repairlog that fits it."),
        ),
        "other_release": (
            _("The tables of this database are not of this release: {said}."),
            _("Use the release of repairlog that fits it."),
        ),
    }


def _of_the_journal() -> dict[str, tuple[str, str]]:
    return {
        "head_missing": (
            _("The journal has no head any more: somebody took it away."),
            _("Nothing was written. `repairlog journal verify` says what else is wrong; restore the last backup."),
        ),
        "tables_missing": (
            _("Tables of the book are gone: {names}."),
            _("Nothing was written. Restore the last backup."),
        ),
        "journal_altered": (
            _("Line {index} of the journal is not the one that was sealed there; nothing can be worked out from it."),
            _("Nothing was written. `repairlog journal verify` names every such line."),
        ),
        "rulebook_unreadable": (
            _("The rulebook of the digest {digest}, which an area adopted, cannot be opened."),
            _(
                "Nothing was recorded of it. `repairlog journal verify` says whether its text is kept: restore it from"
                " the last backup, or use the newer release that wrote it; then send the same again."
            ),
        ),
        "from_a_newer_release": (
            _("Line {index} of the journal holds “{kind}” in version {version}, which this release does not know."),
            _("A newer release of repairlog wrote it; use that one."),
        ),
    }


def _of_serving() -> dict[str, tuple[str, str]]:
    return {
        "served_already": (
            _("Another process serves {file} already."),
            _("Stop that one first, or use it: one server at a time on an SQLite file."),
        ),
        "one_process_alone": (
            _("A book in an SQLite file is served by one process; {asked} were asked for."),
            _("Leave --processes out, or keep the book in PostgreSQL."),
        ),
        "cannot_listen": (
            _("Nobody can listen on port {port} of this machine: {said}."),
            _("Give another with --port, or 0 for any that is free."),
        ),
        "not_installed": (
            _("What this needs is not installed."),
            _("Install it: pip install 'repairlog[{extra}]'."),
        ),
    }


def _of_sign_ins() -> dict[str, tuple[str, str]]:
    return {
        "sign_in_name_taken": (
            _("“{name}” signs in already, or that person has a sign-in."),
            _("Choose another name to sign in with."),
        ),
        "sign_in_unknown": (
            _("There is no open sign-in “{name}”."),
            _("Look at how it is written; `repairlog sign-in make` makes one."),
        ),
        "password_too_short": (
            _("The password is too short."),
            _("Choose one of at least {least} characters; a few words in a row are easy to keep in mind."),
        ),
        "password_too_long": (_("The password is too long."), _("Choose one of at most {longest} characters.")),
        "person_unknown": (
            _("Nobody on the books is named “{got}”, or has that id."),
            _("Look at how the name is written on the books, or give the person's id."),
        ),
        "person_unclear": (
            _("Several people on the books are named “{got}”: {would_have}."),
            _("Give the id of the one who is meant."),
        ),
        "token_mark_unknown": (
            _("No open token has the mark “{mark}”."),
            _("`repairlog token list` shows the mark of each, 12 digits."),
        ),
    }


def _of_others() -> dict[str, tuple[str, str]]:
    return {
        "setting_unknown": (
            _("The setting {name} is “{got}”, which cannot be read."),
            _("Set it to one of these, or leave it out: {expected}."),
        ),
        "file_too_large": (
            _("The file has more than {most} bytes."),
            _("Send a smaller one; whoever runs the machine sets how large a file may be."),
        ),
        "away": (
            _("The database cannot be reached just now."),
            _(
                "Send the same again in a moment: it is saved once, also where it was saved just before. If it stays"
                " so, tell whoever runs the machine."
            ),
        ),
        "busy": (
            _("The book is being written by others."),
            _("Nothing was saved of it; send the same again in a moment."),
        ),
    }
