"""What stands around the boxes of a form: labels, how a measure is said, and what becomes of what is written there."""

from __future__ import annotations

from collections.abc import Sequence

from repairlog.entries.fields import AUTHORITIES
from repairlog.words import _

LONG_TEXT = 400
"""From so many characters on a text gets a box of several lines, and is told that it stays."""


def label(says: str) -> str:
    """What a field or a list says, as it stands above its box: in the reader's language, its first letter capital."""
    said = _(says)
    return said[:1].upper() + said[1:]


def head(says: str) -> str:
    """The same as it stands over what was said: without what tells how to fill the box, which follows a semicolon."""
    return label(says).partition("; ")[0]


def how_said(quantity: str) -> str:
    """How people say a measure of that quantity; KeyError for another name."""
    return {
        "area": _("such as 120 sq ft"),
        "atmosphere": _("such as 14.7 psi"),
        "distance": _("such as 6 ft 3 in or 2 m"),
        "duration": _("such as 15 min or 1 h 30 min"),
        "elevation": _("such as 5280 ft"),
        "gas": _("such as 60 %LEL, 2.5 %gas or 35 ppm"),
        "hole": _("such as 3/16 in or 5 mm"),
        "pressure": _("such as 45 psi or 7 in wc"),
        "temperature": _("such as 57 F or 14 C"),
    }[quantity]


def asked_by(authorities: Sequence[str]) -> str:
    """Beside a box that may stay empty: whose rules ask for it, states by their postal codes. KeyError for an authority
    that is none of ours."""
    names = {"us-federal": _("federal"), "us-guide": _("guide")}
    states = {code: code.removeprefix("us-").upper() for code in AUTHORITIES if code not in names}
    return _("asked for: {who}").format(who=", ".join((names | states)[each] for each in authorities))


def what_becomes_of_private() -> str:
    """What is said under a box whose value stands beside the journal."""
    return _("Kept apart from the record, and can be removed later.")


def what_becomes_of_text() -> str:
    """What is said under a box of free text."""
    return _("Stands in the record for good: it cannot be removed, so name nobody who must be forgotten one day.")
