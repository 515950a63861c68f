"""Entries about a leak as such: opened, its sources, its grade, its end."""

from __future__ import annotations

from repairlog.entries.fields import (
    HAPPENED,
    YES_NO,
    EntryKind,
    Rows,
    asked,
    code,
    entry,
    measure,
    ref,
    text,
    when,
    whole,
)

DETECTED_BY = ("odor_call", "survey", "patrol", "excavation", "other_call", "meter_work", "as_found", "listed")
PARTS = ("main", "service", "meter_set", "customer_piping", "station", "transmission_line", "other")
DECADES = (
    "before_1940",
    "1940s",
    "1950s",
    "1960s",
    "1970s",
    "1980s",
    "1990s",
    "2000s",
    "2010s",
    "2020s",
)
MATERIALS = ("steel", "cast_iron", "ductile_iron", "wrought_iron", "copper", "plastic_pe", "plastic_other", "other")
HOW_KNOWN = (
    "seen_in_the_dig",
    "cut_out_and_measured",
    "measured_in_place",
    "from_records",
    "from_the_laboratory",
    "other",
)
ENDINGS = (
    "repaired",
    "replaced",
    "retired",
    "adjusted",
    "no_reading",
    "customers",
    "other_gas",
    "joined",
    "opened_in_error",
    "handed_over",
)

LEAK_OPENED = EntryKind(
    name="leak_opened",
    says="a leak is opened",
    opens="leak",
    fields=(
        ref("area", "operating area", to="area", required=True),
        HAPPENED,  # the report: most clocks start here
        asked("guide nh wa", when("discovered", "when it was discovered, where that differs from the report")),
        asked("guide nh", code("detected_by", "how it was detected", of=DETECTED_BY)),
        text("number", "number that it bore in an older list", longest=40),
        asked("guide ma nh nj ny tn tx wa", text("house_number", "house number", longest=40)),
        asked("guide ma nh nj ny tn tx wa", text("street", "street")),
        text("cross_street", "cross street"),
        asked("guide ma nh nj ny tn tx wa", text("town", "town")),
        asked("nj", text("postal_code", "postal code", longest=20)),
        asked("guide", text("location", "where, in words", longest=1000)),
        asked("nj", text("county", "county")),
        asked("guide", text("map_reference", "sheet or square of the map", longest=80)),
        asked("nj", text("coordinates", "latitude and longitude, as a map or device says them", longest=80)),
        asked("federal", code("on_federal_land", "on federal land", of=YES_NO)),
        asked("guide nh wa", text("reporter_name", "name of the person who reported it", private=True)),
        asked("guide nh wa", text("reporter_address", "address of that person", private=True)),
        ref("from_call", "the call that it was opened from", to="call"),
    ),
    rows=(
        Rows(
            name="outside_numbers",
            says="numbers that others know it by",
            fields=(
                text("what", "kind of number: work order, call, premise, list", longest=40, required=True),
                asked("nh nj ny tn", text("number", "number", longest=60, required=True)),
            ),
        ),
    ),
)

_OF_A_SOURCE = (
    asked("federal guide nh tx wa", code("part", "main, service or meter set", of=PARTS)),
    asked("guide nj wa", text("component", "what leaks: pipe, tee, coupling, valve")),
    asked("federal guide nh tx wa", code("material", "material of the pipe", of=MATERIALS)),
    asked("federal guide tx wa", measure("size", "nominal size", of="hole")),
    asked("guide nh", measure("pressure", "normal operating pressure", of="pressure")),
    asked("federal guide wa", whole("installed_year", "year of installation", least=1800, most=2200)),
    asked(
        "federal guide wa",
        code("installed_decade", "decade of installation, where the year is not known", of=DECADES),
    ),
    asked("guide", text("coating", "coating")),
    asked("federal guide wa", code("protection", "cathodic protection", of=("protected", "unprotected"))),
    asked("guide wa", text("condition", "condition of the pipe", longest=400)),
    code("defect", "what it is", of=("hole", "crack", "joint", "thread", "seal", "other")),
    text("location", "where, in words", longest=1000),
    ref("place", "place on the books", to="place"),
)

SOURCE_ADDED = EntryKind(
    name="source_added",
    says="a source of the leak is found",
    opens="source",
    folds_in="leak",
    fields=(ref("leak", "leak", to="leak", required=True), HAPPENED, *_OF_A_SOURCE),
)

SOURCE_CHANGED = EntryKind(
    name="source_changed",
    says="a source turns out to be otherwise than it was told",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        ref("source", "which source", to="source", required=True),
        HAPPENED,
        *_OF_A_SOURCE,
        code("how_known", "how it is known", of=HOW_KNOWN),
        ref("seen_in_dig", "the dig in which it was seen", to="dig"),
        text("remarks", "what else is to be known", longest=4000),
    ),
)
"""Only what is otherwise is given; the rest stands as it was told."""

GRADE_SET = EntryKind(
    name="grade_set",
    says="a grade is set",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        asked("guide ma nh nj tx wa", text("grade", "grade or class code", longest=12, required=True)),
        whole("rank", "rank of a grade that no rulebook here knows; 1 is the most hazardous", least=1, most=99),
        text("criterion", "criterion that calls for it", longest=200),
        asked(
            "federal",
            code("hazardous", "a hazard to people or property, so that it asks for action at once", of=YES_NO),
        ),
        asked("ma tn", text("reason", "why", longest=1000)),
    ),
)

LEAK_ENDED = EntryKind(
    name="leak_ended",
    says="the leak is ended",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        asked("federal ma", code("how", "in which way", of=ENDINGS, required=True)),
        ref("joined_to", "the leak that it is joined to", to="leak"),
        text("reason", "why", longest=1000),
    ),
    rows=(
        Rows(
            name="attempts",
            says="the tight attempt on each source",
            fields=(entry("attempt", "repair attempt", required=True),),
        ),
    ),
)

KINDS = (LEAK_OPENED, SOURCE_ADDED, SOURCE_CHANGED, GRADE_SET, LEAK_ENDED)
