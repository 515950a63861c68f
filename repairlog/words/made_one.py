"""What is said where two records of the same are made one: both side by side, and what follows from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from repairlog.words import _
from repairlog.words.story import Telling

KIND_OF: Mapping[str, str] = {
    "person_added": "person",
    "crew_made": "crew",
    "instrument_added": "instrument",
    "lot_received": "lot",
    "place_added": "place",
}
"""By kind of the entry that opens it, the kind of what may be made one with another."""

Lines = Sequence[tuple[str, str]]


def lines(told: Sequence[Telling]) -> list[tuple[str, str]]:
    """What a record says of itself, by label: what it was opened with, then what was said of it since, by day."""
    first, *later = told
    found = [(item.label, "; ".join(_said(piece.text, piece.also) for piece in item.pieces)) for item in first.items]
    found += [(item.label, "; ".join(piece.text for piece in item.pieces)) for item in first.prose]
    counted: dict[str, list[str]] = {}
    for each in later:
        if not each.void:
            counted.setdefault(each.title, []).append(each.day)
    return [(_("On the books since"), first.day), *found, *((title, "; ".join(on)) for title, on in counted.items())]


def _said(text: str, also: str) -> str:
    return f"{text} ({also})" if also else text


def side_by_side(kept: Lines, other: Lines) -> list[tuple[str, str, str]]:
    """Label by label what each of two records says, empty where it says nothing."""
    one, two = dict(kept), dict(other)
    return [(label, one.get(label, ""), two.get(label, "")) for label in dict.fromkeys([*one, *two])]


def means(kind: str) -> str:
    """What follows where two of that kind are made one."""
    return {
        "person": _(
            "Lists show the one that is kept, and old records call the other by its name. Work under either name is "
            "held against the qualifications of both, and against what was suspended or withdrawn of either. Roles "
            "and the sign-in stay with the record that has them: say of the kept one what it lacks."
        ),
        "crew": _(
            "Lists show the one that is kept, and old records call the other by its name. Work that was given to "
            "either is in the hands of whoever is in either. Who is in a crew, and whose it is, stays with the record "
            "that says so: say of the kept one what it lacks."
        ),
        "instrument": _(
            "Lists show the one that is kept, and old records call the other by its mark. A reading with either is "
            "held against the calibrations of both: the last one before it counts. It is retired when both are."
        ),
        "lot": _(
            "Lists show the one that is kept, which tells where both were used; old records call the other by its "
            "number. A repair with either is held against both: their last days, and when either was quarantined or "
            "scrapped. Where the last days are not the same, read the label, and correct the one that is wrong."
        ),
        "place": _("Lists show the one that is kept, with the leaks, calls and digs of both."),
        "street": _(
            "Lists show the name that is kept, with the leaks, calls and digs of both; either name finds them."
        ),
    }[kind]
