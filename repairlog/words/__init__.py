"""Codes with facts become sentences here, in the reader's language; English where no other is installed."""

from __future__ import annotations

import gettext

_translations = gettext.NullTranslations()


def _(message: str) -> str:
    """The message in the reader's language."""
    return _translations.gettext(message)


def of_number(one: str, many: str, *, number: int) -> str:
    """The message for one or for many, in the reader's language."""
    return _translations.ngettext(one, many, number)
