"""Where anything is told of, whatever it is, and what others linked to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from uuid import UUID

from flask import request, url_for

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.queries.links import linked_from, sheets_of_digs
from repairlog.records.store import Tx
from repairlog.trade.links import others
from repairlog.web.frame.asking import asker
from repairlog.web.frame.books import PAGES, page_of
from repairlog.words import _, links


@dataclass(frozen=True, slots=True, kw_only=True)
class Linked:
    """A link that something else has to what a page tells of. `says`: in one line, `beside`: why, by whom and when;
    `address`: of the other's page, empty where there is none."""

    says: str
    beside: str
    address: str


def linked_here(tx: Tx, *ids: UUID) -> list[Linked]:
    """The links that others in the asker's sight have to any of these."""
    found = linked_from(asker().scope, tx, ids=ids)
    return [
        Linked(
            says=links.says(each),
            beside=links.beside(each),
            address=page_at(each.named.kind, each.other, sheet=each.leak),
        )
        for id in ids
        for each in found.get(id, ())
    ]


def way_to_link(kind: str, subject: UUID, *, area: UUID | None, leak: UUID | None = None) -> Iterator[tuple[str, str]]:
    """Where the asker links that thing to another, if they may. `leak`: on whose sheet a dig is looked at."""
    if others(kind) and asker().may("linked", area=area):
        yield _("Link to another"), url_for("links.choose", subject=subject, leak=leak)


def page_of_any(tx: Tx, *, kind: str, subject: UUID) -> str:
    """The page that tells of it: of a dig the sheet of a leak that it serves, the one that the address names first."""
    if kind != "dig":
        return page_at(kind, subject)
    leak = as_id(request.args.get("leak", ""))
    seen = leak_with_id(asker().scope, tx, leak=leak) if leak else None
    sheet = seen.id if seen else sheets_of_digs(asker().scope, tx, ids=[subject]).get(subject)
    return page_at(kind, subject, sheet=sheet)


def page_at(kind: str, subject: UUID, *, sheet: UUID | None = None) -> str:
    """The page that tells of it; empty where its kind has none. `sheet`: of a dig, the leak on whose sheet it is told,
    None where the asker sees none."""
    if kind == "leak":
        return url_for("sheet.page", leak=subject)
    if kind == "dig":
        return f"{url_for('sheet.page', leak=sheet)}#e-{subject}" if sheet else url_for("digs_listed.page")
    return page_of(kind, subject) if kind in PAGES else ""
