"""A place: a service, a main's segment, a meter set, a structure or a building, where somebody keeps a list of them."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Rows, code, measure, ref, text, whole
from repairlog.entries.leak import MATERIALS

PLACE_ADDED = EntryKind(
    name="place_added",
    says="a place is added",
    opens="place",
    fields=(
        ref("area", "operating area", to="area", required=True),
        HAPPENED,
        code(
            "what",
            "what it is",
            of=("service", "main_segment", "meter_set", "structure", "building"),
            required=True,
        ),
        text("called", "what it is called"),
        text("house_number", "house number", longest=40),
        text("street", "street"),
        text("town", "town"),
        text("postal_code", "postal code", longest=20),
        text("location", "where, in words", longest=1000),
        text("coordinates", "latitude and longitude, as a map or device says them", longest=80),
        code("material", "material of the pipe", of=MATERIALS),
        measure("size", "nominal size", of="hole"),
        whole("installed_year", "year of installation", least=1800, most=2200),
    ),
    rows=(
        Rows(
            name="outside_numbers",
            says="numbers that others know it by",
            fields=(
                text("what", "kind of number: premise, meter, pipe id", longest=40, required=True),
                text("number", "number", longest=60, required=True),
            ),
        ),
    ),
)

PLACE_RETIRED = EntryKind(
    name="place_retired",
    says="a place is retired",
    folds_in="subject",  # `place` is what a source names: an entry stands in one story
    fields=(
        ref("subject", "the place", to="place", required=True),
        HAPPENED,
        text("reason", "why", longest=1000),
    ),
)

KINDS = (PLACE_ADDED, PLACE_RETIRED)
