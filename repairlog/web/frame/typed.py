"""What was typed into a page that cannot be taken now: it stays on the page that answers; one button sends it again.

It is never sent by itself, and to no address but the one that it was meant for. A password is no part of it.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from flask import render_template, request
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import HTTPException

from repairlog.entries.fields import Field
from repairlog.entries.ids import as_id
from repairlog.entries.kinds import DID, KINDS
from repairlog.web.frame.ours import is_from_elsewhere, is_ours
from repairlog.words import boxes, codes

TOKEN = "csrf_token"  # noqa: S105 - the name of a field
OUR_OWN = "sign_in"
"""The routes whose own fields are not kept: a password is typed there."""

PASSWORDS = ("password", "present", "new", "again")
"""The fields that a password is typed into on the pages of `TAKE_PASSWORDS`; they are not kept either."""

TAKE_PASSWORDS = ("mine", "sign_ins", "person_signs_in")

NEVER_TYPED = ("key", "save", "check")
"""Fields that a page fills in by itself: the key of a row, and the button that was pressed."""

CARRIED = "typed"
"""The field of signing in that carries what was typed before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """`address`: one of ours that takes what is posted. `fields`: name and value as they came, in their order; a name
    may come more than once."""

    address: str
    fields: tuple[tuple[str, str], ...]

    @property
    def shown(self) -> list[tuple[str, str]]:
        """What a person typed or chose, each with what the field says; ids, keys of rows and buttons, which no person
        reads, are left out."""
        return [
            (label_of(name), _said(name, value))
            for name, value in self.fields
            if value.strip() and as_id(value) is None and _last_of(name) not in NEVER_TYPED
        ]


def typed_now() -> Typed | None:
    """What came with this request, or was carried along by signing in; None where it brought nothing to keep, or where
    a page of another site sent it."""
    if request.method != "POST" or is_from_elsewhere():
        return None
    address = request.full_path.rstrip("?")
    try:
        if request.blueprint == OUR_OWN:
            return unpacked(request.form.get(CARRIED, ""))
        left_out = (TOKEN, *(PASSWORDS if request.blueprint in TAKE_PASSWORDS else ()))
        fields = tuple((name, value) for name, value in request.form.items(multi=True) if name not in left_out)
    except HTTPException:
        return None  # more than a request may bring: it was never read
    return Typed(address=address, fields=fields) if fields and is_ours(address, method="POST") else None


def packed(typed: Typed) -> str:
    """The same in one field, so that signing in can carry it along."""
    return json.dumps([typed.address, *typed.fields])


def unpacked(text: str) -> Typed | None:
    """What `packed` made; None for anything else, and for an address that is none of ours."""
    try:
        address, *fields = json.loads(text)
        read = tuple((name, value) for name, value in fields)
    except (ValueError, TypeError, RecursionError):
        return None
    whole = all(isinstance(each, str) for pair in (("", address), *read) for each in pair)
    return Typed(address=address, fields=read) if whole and is_ours(address, method="POST") else None


def offer_again(typed: Typed, *, title: str, why: str, status: int) -> ResponseReturnValue:
    """The page that holds what was typed, with the button that sends it."""
    return render_template("frame/typed.html", typed=typed, title=title, why=why), status


def label_of(name: str) -> str:
    """What the field says whose box has that name, such as `repair-materials-0-used`; its last part where none does,
    or where fields of that name say different things."""
    last = _last_of(name)
    says = {field.says for field in _fields().get(last, ())}
    return boxes.label(says.pop() if len(says) == 1 else last.replace("_", " "))


def _said(name: str, value: str) -> str:
    """The value as a person reads it: the word for a code."""
    is_code = any(value in field.codes for field in _fields().get(_last_of(name), ()))
    return codes.word(value) if is_code else value


def _last_of(name: str) -> str:
    return name.replace(".", "-").rpartition("-")[2]


@cache
def _fields() -> Mapping[str, Sequence[Field]]:
    rows = [DID, *(rows for kind in KINDS.values() for rows in kind.rows)]
    found: defaultdict[str, list[Field]] = defaultdict(list)
    for field in (*(each for of in rows for each in of.fields), *(each for of in KINDS.values() for each in of.fields)):
        found[field.name].append(field)
    return found
