"""Examples about rulebooks and working days: see `examples`."""

from __future__ import annotations

from repairlog.entries.example_ids import AREA, Raw, example_id

DIGEST = "b790dbf34d8cdeca947b95473f0b403081e88f60e26901ac13451e5a87490f2b"
"""Of the rulebook `us-guide` as it is shipped: another one as soon as its text, or what it extends, says anything else.
`repairlog rules show us-guide` prints it."""

EXAMPLES: tuple[Raw, ...] = (
    {
        "kind": "rulebook_adopted",
        "id": example_id(0x1C0),
        "subject": AREA,
        "happened": "2026-10-01",
        "rulebook": "us-guide",
        "digest": DIGEST,
        "from_on": "2026-10-01",
        "reason": "the manual's revision 7 follows the guide",
    },
    {
        "kind": "rule_confirmed",
        "id": example_id(0x1C1),
        "subject": AREA,
        "happened": "2026-10-02",
        "rulebook": "us-guide",
        "digest": DIGEST,
        "rule": "repair-2",
        "document": "Operating and maintenance manual, revision 7",
        "page": "4-12",
    },
    {
        "kind": "working_days_set",
        "id": example_id(0x1C2),
        "subject": AREA,
        "happened": "2026-10-01",
        "calendar": "US-NY",
    },
)
