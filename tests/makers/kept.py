"""Entries to say about worked figures that are kept."""

from __future__ import annotations

from typing import Any

from tests.makers.book import new_id


def figure(subject: str, **fields: Any) -> dict[str, Any]:
    """The flow through a hole, with what went into it."""
    said = {"figure": "flow", "called": "Gas through a hole", "formula": "m = Cd A P1", "figure_version": "1"}
    return {"kind": "figure_kept", "id": new_id(), "subject": subject, "happened": "2026-03-05"} | said | fields


def whole(subject: str, *, from_entry: str, **fields: Any) -> dict[str, Any]:
    """The same with every field and every list."""
    rows = {
        "inputs": [
            {"key": "i1", "name": "hole", "label": "Hole across", "typed": "1/16 in", "heard": "0.0625 in"},
            {"key": "i2", "name": "gravity", "label": "Gravity of the gas", "heard": "0.6"},
        ],
        "results": [
            {"key": "r1", "name": "standard_flow_scfh", "label": "Flow", "value": "252.573989081", "unit": "scf/h"}
            | {"shown": "253 scf/h"},
            {"key": "r2", "name": "gwp", "value": "28"},
        ],
        "holds_for": [{"key": "h1", "text": "0 to 1,000 psig"}],
        "cautions": [{"key": "c1", "text": "for gas that blows free"}],
    }
    said = {"formula_source": "isentropic flow", "remarks": "until the clamp was on", "from_entry": from_entry}
    return figure(subject) | said | rows | fields
