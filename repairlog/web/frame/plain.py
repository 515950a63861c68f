"""A page that enters one entry on a leak and asks for nothing but what its kind declares."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.intake.form import Choices
from repairlog.records.post import Receipt
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.where import Where, sheet_of


def plain(
    where: Where,
    leak: UUID,
    *,
    kind: str,
    heading: str,
    save: str,
    said: Mapping[str, str] | None = None,
    choices: Mapping[str, Choices] | None = None,
    first: Collection[str] = (),
    labels: Mapping[str, str] | None = None,
    begins: Mapping[str, Any] | None = None,
    hint: str = "",
    told: Collection[str] = (),
    names_leak: bool = True,
    then: Callable[[Receipt], str] | None = None,
) -> ResponseReturnValue:
    """Answer a GET or a POST of that page. `first`: what is asked for openly beside what is needed; the rest is behind
    a fold. `hint`: what is to be known before; `told`: what the page is about, line by line. `names_leak`: the kind
    says in a field of that name on which leak it is. `then`: where to go when it is saved; to the sheet, where left
    out."""
    part = Part(
        name="entry",
        kind=kind,
        said={**({"leak": str(leak)} if names_leak else {}), **(said or {})},
        choices={"did.person": where.people, **(choices or {})},
        labels=labels or {},
        begins=begins or {},
    )
    return entering(
        Page(
            template="frame/plain.html",
            parts=[part],
            areas=where.areas,
            then=lambda receipts: then(receipts[0]) if then else sheet_of(leak, saved=receipts[0]),
            around={
                "leak": where.leak,
                "heading": heading,
                "save": save,
                "first": first,
                "hint": hint,
                "lines": told,
            },
        )
    )
