"""What is said of companies, as whoever types it would send it."""

from __future__ import annotations

from typing import Any

from tests.makers.book import new_id


def company(name: str = "Dale Pipe Co", **fields: Any) -> dict[str, Any]:
    """A contractor, since 2025."""
    said = {"kind": "company_added", "id": new_id(), "name": name, "what": "contractor", "happened": "2025-02-03"}
    return said | {"from_on": "2025-02-03"} | fields


def back(company: str, **fields: Any) -> dict[str, Any]:
    """It works again from 1 April 2026 on."""
    said = {"kind": "company_back", "id": new_id(), "subject": company, "happened": "2026-03-04"}
    return said | {"from_on": "2026-04-01"} | fields


def left(company: str, **fields: Any) -> dict[str, Any]:
    """Its work ends with 3 March 2026."""
    said = {"kind": "company_left", "id": new_id(), "subject": company, "happened": "2026-03-02"}
    return said | {"until_on": "2026-03-03"} | fields


def also(*names: str) -> dict[str, Any]:
    """The names that it is also written as."""
    return {"also_named": [{"key": f"n{place}", "name": name} for place, name in enumerate(names, start=1)]}
