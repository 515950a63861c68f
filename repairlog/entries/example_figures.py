"""The example of a worked figure that is kept on a leak."""

from __future__ import annotations

from repairlog.entries.example_ids import ATTEMPT, LEAK, Raw, example_id

EXAMPLES: tuple[Raw, ...] = (
    {
        "kind": "figure_kept",
        "id": example_id(0x200),
        "subject": LEAK,
        "happened": "2026-10-06",
        "figure": "flow",
        "called": "Gas through a hole",
        "from_entry": ATTEMPT,
        "formula": "Isentropic flow of an ideal gas through a hole, choked",
        "formula_source": "one-dimensional isentropic flow; API Standard 520 Part I has the same two forms",
        "figure_version": "1",
        "remarks": "the gas blew free of the hole once the pipe was exposed",
        "inputs": [
            {"key": "i1", "name": "hole", "label": "Hole across", "typed": "1/16 in", "heard": "0.0625 in"},
            {"key": "i2", "name": "pressure", "label": "Pressure in the line", "typed": "60 psi"}
            | {"heard": "60 psi gauge"},
            {"key": "i3", "name": "gravity", "label": "Gravity of the gas (air 1)", "heard": "0.6"},
        ],
        "results": [
            {"key": "r1", "name": "standard_flow_scfh", "label": "Flow", "value": "316.039097082"}
            | {"unit": "scf/h (60 degF, 14.73 psia)", "shown": "316 scf/h (60 degF, 14.73 psia)"},
            {"key": "r2", "name": "regime", "label": "Regime", "value": "choked", "shown": "choked"},
        ],
        "holds_for": [{"key": "h1", "text": "0 to 1,000 psig, -40 to 60 °C"}],
        "cautions": [
            {"key": "c1", "text": "For gas that blows free. Soil holds a buried leak back: take a measured rate there."}
        ],
    },
)
