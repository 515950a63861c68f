"""Entries about the operator, its areas and its people."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Rows, code, day, measure, ref, text

ROLES = (
    "dispatcher",
    "crew",
    "supervisor",
    "officer",
    "manager",
    "storekeeper",
    "administrator",
    "inspector",
)

INSPECTOR = "inspector"
"""Reads only, and is nobody of the operator's own."""

OPERATOR_OPENED = EntryKind(
    name="operator_opened",
    says="the operator's book is opened",
    opens="operator",
    fields=(
        text("name", "name of the operator", required=True),
        text("zone", "time zone, such as America/New_York", longest=64, required=True),
        HAPPENED,
    ),
)

AREA_OPENED = EntryKind(
    name="area_opened",
    says="an operating area is opened",
    opens="area",
    fields=(
        text("name", "name of the area", required=True),
        text("code", "short code that leak numbers start with", longest=8, required=True),
        text("zone", "time zone, such as America/New_York", longest=64, required=True),
        measure("elevation", "height above the sea; the local atmosphere follows from it", of="elevation"),
        code("lel_basis", "percent methane that counts as 100 %LEL", of=("5.0", "4.4")),
        HAPPENED,
    ),
)

PERSON_ADDED = EntryKind(
    name="person_added",
    says="a person is added",
    opens="person",
    fields=(
        text("name", "name", required=True),
        text("company", "company, where not the operator's own"),
        text("staff_number", "number that the operator gave the person", longest=40),
        HAPPENED,
    ),
    rows=(
        Rows(
            name="roles",
            says="what the person may do, where and from when",
            fields=(
                code("role", "role", of=ROLES, required=True),
                ref("area", "operating area; every area where left out", to="area"),
                day("from_on", "first day", required=True),
                day("until_on", "last day; open where left out"),
                text("company", "company whose work alone is seen; where left out, all of the area"),
            ),
        ),
    ),
)

CREW_MADE = EntryKind(
    name="crew_made",
    says="a crew is made",
    opens="crew",
    fields=(
        ref("area", "operating area", to="area", required=True),
        text("name", "name of the crew", required=True),
        text("company", "company, where not the operator's own"),
        HAPPENED,
    ),
    rows=(
        Rows(
            name="members",
            says="who is in the crew",
            fields=(
                ref("person", "person", to="person", required=True),
                day("from_on", "first day"),
                day("until_on", "last day"),
            ),
        ),
    ),
)

KINDS = (OPERATOR_OPENED, AREA_OPENED, PERSON_ADDED, CREW_MADE)
