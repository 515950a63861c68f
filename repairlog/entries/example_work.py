"""Examples about a leak's later life and about work that is given: see `examples`."""

from __future__ import annotations

from repairlog.entries.example_ids import AREA, CREW_LEADER, LEAK, Raw, example_id

GRADE, LOWER_GRADE, GIVEN = (example_id(number) for number in range(0x50, 0x53))
"""On the open leak a grade, and a lower one that waits for a supervisor; work that was given."""

LEAK_ENDED, ENDING = example_id(0x54), example_id(0x55)
"""A leak that was ended too soon."""

STANDS_BEFORE: tuple[Raw, ...] = (
    {
        "kind": "grade_set",
        "id": GRADE,
        "leak": LEAK,
        "happened": "2026-10-05 08:30",
        "grade": "1",
    },
    {
        "kind": "grade_set",
        "id": LOWER_GRADE,
        "leak": LEAK,
        "happened": "2026-10-05 13:00",
        "grade": "2",
        "reason": "vented; two readings an hour apart",
    },
    {
        "kind": "work_given",
        "id": GIVEN,
        "leak": LEAK,
        "happened": "2026-10-05 14:00",
        "work": "repair",
        "person": CREW_LEADER,
        "by_on": "2026-10-07",
    },
    {
        "kind": "leak_opened",
        "id": LEAK_ENDED,
        "area": AREA,
        "happened": "2026-10-05 15:20",
        "detected_by": "odor_call",
        "street": "Fuller Row",
        "town": "Harrowsedge",
    },
    {
        "kind": "leak_ended",
        "id": ENDING,
        "leak": LEAK_ENDED,
        "happened": "2026-10-05 16:05",
        "how": "no_reading",
        "reason": "nothing read at the wall and in the lawn",
    },
)
"""What these speak about, beside what stands in `examples`."""

EXAMPLES: tuple[Raw, ...] = (
    {
        "kind": "leak_reopened",
        "id": example_id(0x180),
        "leak": LEAK_ENDED,
        "happened": "2026-10-06 09:10",
        "reason": "an odor again, and 20 %LEL at the wall",
    },
    {
        "kind": "downgrade_reviewed",
        "id": example_id(0x181),
        "leak": LEAK,
        "grade_set": LOWER_GRADE,
        "happened": "2026-10-05 16:30",
        "outcome": "approved",
        "reason": "readings seen",
    },
    {
        "kind": "scheduled_for_repair",
        "id": example_id(0x182),
        "leak": LEAK,
        "happened": "2026-10-06",
        "scheduled": "yes",
        "for_on": "2026-10-20",
    },
    {
        "kind": "work_given",
        "id": example_id(0x183),
        "leak": LEAK,
        "happened": "2026-10-06 07:00",
        "work": "re_evaluation",
        "named": "the crew of Dale Pipe Co",
        "by_on": "2026-10-09",
        "remarks": "ring at number 16 first",
    },
    {
        "kind": "work_settled",
        "id": example_id(0x184),
        "leak": LEAK,
        "given": GIVEN,
        "happened": "2026-10-06 07:05",
        "outcome": "taken_back",
        "reason": "the truck is in the workshop",
    },
    {
        "kind": "work_waiting",
        "id": example_id(0x185),
        "leak": LEAK,
        "happened": "2026-10-06 11:00",
        "waits_on": "permit",
        "until_on": "2026-10-12",
    },
    {
        "kind": "work_goes_on",
        "id": example_id(0x186),
        "leak": LEAK,
        "happened": "2026-10-07 08:00",
        "remarks": "the permit came a day early",
    },
    {
        "kind": "briefing_given",
        "id": example_id(0x187),
        "leak": LEAK,
        "happened": "2026-10-06 08:50",
        "topics": "traffic, the telephone duct beside the service, who stays at the valve",
        "present": [{"key": "p1", "person": CREW_LEADER}, {"key": "p2", "named": "a helper"}],
    },
    {
        "kind": "gap_set_aside",
        "id": example_id(0x188),
        "subject": LEAK,
        "about": LOWER_GRADE,
        "happened": "2026-10-07",
        "gap": "downgrade_not_reviewed",
        "reason": "reviewed on paper that day; the page is in the file of the leak",
    },
)
