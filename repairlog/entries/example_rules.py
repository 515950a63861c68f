"""Examples about rulebooks and working days: see `examples`."""

from __future__ import annotations

from repairlog.entries.example_ids import AREA, Raw, example_id

DIGEST = "b6bc04c22cda6fc9a4c7a03906513e09063464a39b2e775a6390efc66cafa0ae"
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
