"""Codes with facts become sentences here, in the reader's language; English where no other is installed."""

from __future__ import annotations

import gettext

_translations = gettext.NullTranslations()


def _(message: str) -> str:
    """The message in the reader's language."""
    return _translations.gettext(message)
