"""Examples of entries about shelves, and about lots in stores: see `examples`."""

from __future__ import annotations

from repairlog.entries.example_ids import AREA, Raw, example_id

SHELF, TAPE = example_id(0x70), example_id(0x71)
"""A truck, and a lot that waits in quarantine."""

STANDS_BEFORE: tuple[Raw, ...] = (
    {
        "kind": "shelf_made",
        "id": SHELF,
        "area": AREA,
        "name": "Truck 4, left bin",
        "what": "truck",
        "happened": "2026-10-01",
    },
    {
        "kind": "lot_received",
        "id": TAPE,
        "area": AREA,
        "item": "wrap tape, 2 in",
        "maker": "Brackwater Works",
        "lot_number": "W-0207",
        "received": "12 rolls",
        "expires_on": "2027-12-31",
        "happened": "2026-10-01",
    },
    {
        "kind": "lot_quarantined",
        "id": example_id(0x72),
        "lot": TAPE,
        "reason": "two rolls came with a torn wrapper",
        "happened": "2026-10-02",
    },
)
"""What these speak about."""

EXAMPLES: tuple[Raw, ...] = (
    {
        "kind": "shelf_made",
        "id": example_id(0x1A0),
        "area": AREA,
        "name": "bay 5",
        "what": "stockroom",
        "happened": "2026-10-02",
    },
    {
        "kind": "temperature_logged",
        "id": example_id(0x1A7),
        "subject": SHELF,
        "temperature": "64 F",
        "lowest": "41 F",
        "highest": "71 F",
        "happened": "2026-10-05 07:00",
    },
    {
        "kind": "lot_moved",
        "id": example_id(0x1A1),
        "lot": TAPE,
        "shelf": SHELF,
        "amount": "2 rolls",
        "happened": "2026-10-05 07:10",
    },
    {"kind": "lot_counted", "id": example_id(0x1A2), "lot": TAPE, "amount": "12 rolls", "happened": "2026-10-05"},
    {
        "kind": "lot_used",
        "id": example_id(0x1A3),
        "lot": TAPE,
        "amount": "1 roll",
        "used_for": "training",
        "happened": "2026-10-06",
    },
    {
        "kind": "lot_quarantined",
        "id": example_id(0x1A4),
        "lot": TAPE,
        "reason": "notice of the maker",
        "happened": "2026-10-06",
    },
    {
        "kind": "lot_released",
        "id": example_id(0x1A5),
        "lot": TAPE,
        "reason": "looked over; the rolls with a torn wrapper taken out",
        "happened": "2026-10-06",
    },
    {
        "kind": "lot_scrapped",
        "id": example_id(0x1A6),
        "lot": TAPE,
        "amount": "2 rolls",
        "reason": "torn wrapper",
        "happened": "2026-10-06",
    },
)
