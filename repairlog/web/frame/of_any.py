"""Where anything is told of, whatever it is, and what others linked to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from uuid import UUID

from flask import request, url_for

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.queries.links import LinkFrom, linked_from, sheets_of_digs
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
        Linked(says=links.says(each), beside=links.beside(each), address=_page_of_link(each))
        for id in ids
        for each in found.get(id, ())
    ]


def way_to_link(kind: str, subject: UUID, *, area: UUID | None, leak: UUID | None = None) -> Iterator[tuple[str, str]]:
    """Where the asker links that thing to another, if they may. `leak`: on whose sheet a dig is looked at."""
    if others(kind) and asker().may("linked", area=area):
        yield _("Link to another"), url_for("links.choose", subject=subject, leak=leak)


def page_of_any(tx: Tx, *, kind: str, subject: UUID) -> str:
    """The page that tells of it: of a dig the sheet of a leak that it serves, the one that the address names first."""
    if kind == "leak":
        return url_for("sheet.page", leak=subject)
    if kind == "dig":
        leak = as_id(request.args.get("leak", ""))
        seen = leak_with_id(asker().scope, tx, leak=leak) if leak else None
        sheet = seen.id if seen else sheets_of_digs(asker().scope, tx, ids=[subject]).get(subject)
        return _dig_on(sheet, subject)
    return page_of(kind, subject) if kind in PAGES else url_for("shelves.page")


def _page_of_link(link: LinkFrom) -> str:
    if link.named.kind == "leak":
        return url_for("sheet.page", leak=link.other)
    if link.named.kind == "dig":
        return _dig_on(link.leak, link.other)
    return page_of(link.named.kind, link.other) if link.named.kind in PAGES else ""


def _dig_on(sheet: UUID | None, dig: UUID) -> str:
    return f"{url_for('sheet.page', leak=sheet)}#e-{dig}" if sheet else url_for("digs_listed.page")
