"""An example of every kind of entry, such as a program may post: written out in the schema, posted by the tests.

They speak about a small piece of the demo's book and about no other: `STANDS_BEFORE` makes that piece, `AREA`,
`OTHER_AREA` and `CREW_LEADER` are the demo's own. Each example can be posted alone, in any order and twice, for none
speaks about another. In a book that is not the demo's they name nothing: it keeps them until what they name comes, as
it does with every entry of which the subject is not there yet.

What the demo's book must hold for it, beside `STANDS_BEFORE`, which it posts as it stands:

- areas of the ids `AREA` and `OTHER_AREA` and a person of the id `CREW_LEADER`, opened and added on `FIRST_DAY` or
  before;
- somebody of each of the roles crew, supervisor and officer whose role covers `AREA` from `FIRST_DAY` on or before, and
  an administrator whose role covers every area: each kind is then posted by whichever of them may post it;
- no area with the code that the example of `area_opened` gives.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from repairlog.entries import (
    example_calls,
    example_digs,
    example_figures,
    example_people,
    example_rules,
    example_stores,
    example_work,
)
from repairlog.entries.example_ids import (
    AREA,
    ATTEMPT,
    ATTEMPT_ON_IT,
    CREW_LEADER,
    INSTRUMENT,
    LEAK,
    LEAK_TO_END,
    LOT,
    NOTE,
    SOURCE,
    TEST,
    TEST_ON_IT,
    VISIT,
    Raw,
    example_id,
)

FIRST_DAY = "2026-10-01"

STANDS_BEFORE: tuple[Raw, ...] = (
    *example_people.STANDS_BEFORE,
    {
        "kind": "lot_received",
        "id": LOT,
        "area": AREA,
        "item": "bolt-on clamp, 3/4 in",
        "maker": "Brackwater Works",
        "lot_number": "C-2207",
        "received": "24",
        "shelf": "bay 2",
        "happened": "2026-10-01",
    },
    {
        "kind": "leak_opened",
        "id": LEAK,
        "area": AREA,
        "happened": "2026-10-05 07:52",
        "detected_by": "odor_call",
        "house_number": "14",
        "street": "Quarry Lane",
        "town": "Harrowsedge",
    },
    {
        "kind": "source_added",
        "id": SOURCE,
        "leak": LEAK,
        "happened": "2026-10-05 09:05",
        "part": "service",
        "component": "threaded tee",
        "material": "steel",
        "size": "3/4 in",
        "pressure": "45 psi",
    },
    {
        "kind": "visit",
        "id": VISIT,
        "leak": LEAK,
        "happened": "2026-10-05 08:26",
        "purpose": "first_investigation",
        "outcome": "looked",
        "likely_to_reach_outside_wall": "yes",
        "class_location": "class_2",
        "places": [{"key": "p1", "kind": "bar_hole", "owner": "gas", "label": "6 ft from the wall"}],
        "readings": [{"key": "r1", "place": "p1", "kind": "sustained", "value": "60 %LEL"}],
    },
    {
        "kind": "note",
        "id": NOTE,
        "subject": LEAK,
        "happened": "2026-10-05",
        "text": "the gate is locked; the key is with number 16",
    },
    {
        "kind": "repair_attempted",
        "id": ATTEMPT,
        "leak": LEAK,
        "source": SOURCE,
        "happened": "2026-10-06 10:02",
        "lasting": "permanent",
        "method": "bolt-on clamp",
        "cause": "corrosion_failure",
        "outcome": "tight",
        "materials": [{"key": "m1", "lot": LOT, "used": "1"}],
    },
    {
        "kind": "tested",
        "id": TEST,
        "leak": LEAK,
        "attempt": ATTEMPT,
        "happened": "2026-10-06 10:20",
        "kind_of_test": "soap",
        "result": "tight",
    },
    {
        "kind": "leak_opened",
        "id": LEAK_TO_END,
        "area": AREA,
        "happened": "2026-10-05 14:10",
        "detected_by": "survey",
        "street": "Mill Lane",
        "cross_street": "Weir Street",
        "town": "Harrowsedge",
    },
    {
        "kind": "repair_attempted",
        "id": ATTEMPT_ON_IT,
        "leak": LEAK_TO_END,
        "happened": "2026-10-07 11:30",
        "lasting": "permanent",
        "method": "coupling_tightened",
        "cause": "equipment_failure",
        "outcome": "tight",
    },
    {
        "kind": "tested",
        "id": TEST_ON_IT,
        "leak": LEAK_TO_END,
        "attempt": ATTEMPT_ON_IT,
        "happened": "2026-10-07 11:45",
        "kind_of_test": "soap",
        "result": "tight",
    },
    *example_work.STANDS_BEFORE,
    *example_digs.STANDS_BEFORE,
    *example_stores.STANDS_BEFORE,
    *example_calls.STANDS_BEFORE,
)
"""What the examples speak about, in an order in which it can be posted in one call."""

_OF_THE_OPERATOR: tuple[Raw, ...] = (
    {
        "kind": "operator_opened",
        "id": example_id(0x100),
        "name": "Saltmarsh Gas",
        "zone": "America/New_York",
        "happened": "2026-10-01",
    },
    {
        "kind": "area_opened",
        "id": example_id(0x101),
        "name": "Weirside",
        "code": "WSX",
        "zone": "America/Denver",
        "elevation": "5280 ft",
        "lel_basis": "5.0",
        "happened": "2026-10-01",
    },
    {
        "kind": "person_added",
        "id": example_id(0x102),
        "name": "T. Birkett",
        "company": "Dale Pipe Co",
        "staff_number": "88",
        "happened": "2026-10-01",
        "roles": [{"key": "r1", "role": "crew", "area": AREA, "from_on": "2026-10-01", "until_on": "2026-12-31"}],
    },
    {
        "kind": "crew_made",
        "id": example_id(0x103),
        "area": AREA,
        "name": "Truck 4",
        "happened": "2026-10-01",
        "members": [{"key": "m1", "person": CREW_LEADER, "from_on": "2026-10-01"}],
    },
    {
        "kind": "lot_received",
        "id": example_id(0x104),
        "area": AREA,
        "item": "wrap tape, 2 in",
        "maker": "Brackwater Works",
        "lot_number": "W-0118",
        "received": "40 rolls",
        "expires_on": "2027-09-30",
        "happened": "2026-10-02",
    },
)

_OF_LEAKS: tuple[Raw, ...] = (
    {
        "kind": "leak_opened",
        "id": example_id(0x110),
        "area": AREA,
        "happened": "2026-10-08 06:40",
        "discovered": "2026-10-08 06:15",
        "detected_by": "odor_call",
        "house_number": "3",
        "street": "Tannery Row",
        "town": "Harrowsedge",
        "location": "in the lawn, between the walk and the wall",
        "reporter_name": "J. Thwaite",
        "outside_numbers": [{"key": "n1", "what": "work order", "number": "77-120"}],
    },
    {
        "kind": "source_added",
        "id": example_id(0x111),
        "leak": LEAK,
        "happened": "2026-10-06 09:40",
        "part": "service",
        "component": "coupling",
        "material": "steel",
        "size": "1 1/4 in",
        "pressure": "45 psi",
        "installed_year": 1968,
        "defect": "seal",
    },
    {
        "kind": "source_changed",
        "id": example_id(0x116),
        "leak": LEAK,
        "source": SOURCE,
        "happened": "2026-10-06 09:50",
        "size": "1 in",
        "coating": "coal tar",
        "defect": "thread",
        "how_known": "seen_in_the_dig",
        "remarks": "the map has 3/4 in",
    },
    {
        "kind": "visit",
        "id": example_id(0x112),
        "leak": LEAK,
        "happened": "2026-10-06 08:15",
        "purpose": "re_evaluation",
        "outcome": "looked",
        "ground": "wet",
        "instrument": "G-3",
        "instrument_used": INSTRUMENT,
        "places": [
            {"key": "p1", "kind": "bar_hole", "owner": "gas", "same_as": f"{VISIT}/p1"},
            {"key": "p2", "kind": "vault", "owner": "telephone", "from_building": "30 ft"},
            {"key": "p3", "kind": "manhole", "owner": "sewer", "not_entered": "traffic"},
        ],
        "readings": [
            {"key": "r1", "place": "p1", "gas": "methane", "kind": "sustained", "value": "45 %LEL"},
            {"key": "r2", "place": "p2", "gas": "methane", "kind": "peak", "value": "0 %LEL"},
        ],
    },
    {
        "kind": "visit",
        "id": example_id(0x113),
        "leak": LEAK,
        "happened": "2026-10-07",
        "purpose": "follow_up_inspection",
        "outcome": "no_access",
        "remarks": "nobody at home; a card was left",
    },
    {
        "kind": "grade_set",
        "id": example_id(0x114),
        "leak": LEAK,
        "happened": "2026-10-05 08:40",
        "grade": "2",
        "reason": "sustained reading 6 ft from the wall",
    },
    {
        "kind": "leak_ended",
        "id": example_id(0x115),
        "leak": LEAK_TO_END,
        "happened": "2026-10-07 12:00",
        "how": "repaired",
        "attempts": [{"key": "a1", "attempt": ATTEMPT_ON_IT}],
    },
)

_OF_REPAIRS: tuple[Raw, ...] = (
    {
        "kind": "repair_attempted",
        "id": example_id(0x120),
        "leak": LEAK,
        "source": SOURCE,
        "happened": "2026-10-06 09:50",
        "lasting": "permanent",
        "method": "bolt-on clamp",
        "cause": "corrosion_failure",
        "hole_size": "1/16 in",
        "pressure_found": "45 psi",
        "pressure_installing": "7 in wc",
        "pressure_restored": "45 psi",
        "authorised_by": CREW_LEADER,
        "pipe_temperature": "57 F",
        "customers": "live",
        "outcome": "not_tight",
        "materials": [{"key": "m1", "lot": LOT, "used": "1"}, {"key": "m2", "named": "W-81?", "used": "half a roll"}],
        "people": [{"key": "p1", "person": CREW_LEADER, "task": "install clamp"}],
        "did": [{"key": "d1", "person": CREW_LEADER}, {"key": "d2", "named": "a helper"}],
        "written": "2026-10-06T15:20:11.000Z",
    },
    {
        "kind": "repair_attempted",
        "id": example_id(0x121),
        "leak": LEAK,
        "happened": "2026-10-07",
        "lasting": "temporary",
        "outcome": "not_tested",
        "pressure_found": "as usual",
        "kept_as_text": [{"key": "k1", "field": "pressure_found"}],
    },
    {
        "kind": "tested",
        "id": example_id(0x122),
        "leak": LEAK,
        "attempt": ATTEMPT,
        "happened": "2026-10-06 10:45",
        "kind_of_test": "pressure_hold",
        "pressure": "60 psi",
        "duration": "15 min",
        "medium": "air",
        "instrument": "T-1",
        "result": "tight",
    },
    {
        "kind": "repair_reviewed",
        "id": example_id(0x123),
        "leak": LEAK,
        "attempt": ATTEMPT,
        "happened": "2026-10-06 16:10",
        "outcome": "accepted",
    },
)

_OF_OTHER_ENTRIES: tuple[Raw, ...] = (
    {
        "kind": "note",
        "id": example_id(0x130),
        "subject": LEAK,
        "happened": "2026-10-06",
        "text": "the dog is in the yard until noon",
    },
    {
        "kind": "corrected",
        "id": example_id(0x131),
        "entry": VISIT,
        "reason": "6 was read for 8",
        "changes": [{"key": "c1", "field": "readings.r1.value", "to": "80 %LEL"}],
    },
    {"kind": "void", "id": example_id(0x132), "entry": NOTE, "reason": "entered on the wrong leak"},
)

_ALL = (
    *_OF_THE_OPERATOR,
    *example_people.EXAMPLES,
    *example_rules.EXAMPLES,
    *_OF_LEAKS,
    *example_calls.EXAMPLES,
    *example_work.EXAMPLES,
    *_OF_REPAIRS,
    *_OF_OTHER_ENTRIES,
    *example_digs.EXAMPLES,
    *example_stores.EXAMPLES,
    *example_figures.EXAMPLES,
)

EXAMPLES: Mapping[str, tuple[Raw, ...]] = MappingProxyType(
    {kind: tuple(each for each in _ALL if each["kind"] == kind) for kind in dict.fromkeys(e["kind"] for e in _ALL)}
)
"""By kind, its examples. The operator's opening is one that the demo, as every book, has behind it already."""
