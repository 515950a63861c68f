"""Pages that enter something on a leak and lead back to its sheet; one that asks for nothing but what its kind
declares."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.intake.form import Choices
from repairlog.records.post import Receipt
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.where import Where, sheet_of


def on_leak(
    where: Where,
    leak: UUID,
    *,
    template: str,
    parts: Sequence[Part],
    around: Mapping[str, Any] | None = None,
    **of: Any,
) -> ResponseReturnValue:
    """Answer a GET or a POST of a page that enters something on that leak, and goes to its sheet then. `around`: what
    the template takes beside the leak; `of`: what else `Page` takes."""
    of = {"then": lambda receipts: sheet_of(leak, saved=receipts[0])} | of
    around = {"leak": where.leak} | dict(around or {})
    return entering(Page(template=template, parts=parts, areas=where.areas, around=around, **of))


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
    goes_on = {"then": lambda receipts: then(receipts[0])} if then else {}
    around = {"heading": heading, "save": save, "first": first, "hint": hint, "lines": told}
    return on_leak(where, leak, template="frame/plain.html", parts=[part], around=around, **goes_on)
