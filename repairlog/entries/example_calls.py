"""Examples about calls, the first hour and whom one tells: see `examples`."""

from __future__ import annotations

from repairlog.entries.example_ids import AREA, CALL, CALLED_CREW, CREW_LEADER, LEAK, Raw, example_id

STANDS_BEFORE: tuple[Raw, ...] = (
    {"kind": "crew_made", "id": CALLED_CREW, "area": AREA, "name": "Truck 6", "happened": "2026-10-01"},
    {
        "kind": "call_received",
        "id": CALL,
        "area": AREA,
        "happened": "2026-10-05 07:44",
        "report": "odor",
        "house_number": "14",
        "street": "Quarry Lane",
        "town": "Harrowsedge",
    },
)
"""A call that is not ended, and a crew to send to it."""

EXAMPLES: tuple[Raw, ...] = (
    {
        "kind": "call_received",
        "id": example_id(0x1B0),
        "area": AREA,
        "happened": "2026-10-08 06:31",
        "report": "odor",
        "came_from": "customer",
        "inside": "outside",
        "house_number": "3",
        "street": "Tannery Row",
        "town": "Harrowsedge",
        "location": "by the front steps",
        "caller_name": "J. Thwaite",
        "caller_phone": "555-0142",
        "caller_story": "smells it since last evening, worse when the wind drops",
        "outside_numbers": [{"key": "n1", "what": "premise", "number": "P-30117"}],
    },
    {"kind": "call_sent", "id": example_id(0x1B1), "call": CALL, "happened": "2026-10-05 07:46", "crew": CALLED_CREW},
    {"kind": "call_on_way", "id": example_id(0x1B2), "call": CALL, "happened": "2026-10-05 07:49", "crew": CALLED_CREW},
    {
        "kind": "call_on_site",
        "id": example_id(0x1B3),
        "call": CALL,
        "happened": "2026-10-05 08:07",
        "crew": CALLED_CREW,
    },
    {
        "kind": "call_outcome",
        "id": example_id(0x1B4),
        "call": CALL,
        "happened": "2026-10-05 08:30",
        "outcome": "operators_leak",
        "found_leak": LEAK,
        "remarks": "gas at the wall; leak opened",
    },
    {
        "kind": "call_reviewed",
        "id": example_id(0x1B5),
        "call": CALL,
        "happened": "2026-10-06 09:10",
        "outcome": "accepted",
    },
    {
        "kind": "moment_noted",
        "id": example_id(0x1B6),
        "leak": LEAK,
        "happened": "2026-10-05 08:12",
        "moment": "people_out",
        "people_count": 6,
        "place": "14 and 16, to the church hall",
    },
    {
        "kind": "watch_handed",
        "id": example_id(0x1B7),
        "leak": LEAK,
        "happened": "2026-10-05 14:00",
        "from_named": "night crew leader",
        "to_person": CREW_LEADER,
        "valves": "curb valve at 14 shut",
        "last_readings": "over the service 60 %LEL at 13:40",
        "customers_off": 1,
        "next_reading_by": "2026-10-05 15:00",
    },
    {
        "kind": "emergency_reviewed",
        "id": example_id(0x1BA),
        "leak": LEAK,
        "happened": "2026-10-07 10:30",
        "procedures": "followed_in_part",
        "found": "people were out within four minutes; nobody told the electric company before 09:20",
        "changed": "the electric company stands on the first card of every truck",
    },
    {
        "kind": "told",
        "id": example_id(0x1B8),
        "subject": LEAK,
        "happened": "2026-10-05 08:15",
        "whom": "fire_department",
        "how": "radio",
        "reference": "engine 4",
    },
    {
        "kind": "decided",
        "id": example_id(0x1B9),
        "subject": LEAK,
        "happened": "2026-10-05 09:00",
        "decision": "not_reportable",
        "report_to": "federal_response_center",
        "facts": "nobody hurt, no fire, small loss of gas",
        "reason": "below every threshold of the plan",
    },
)
