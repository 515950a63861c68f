"""A visit: the places looked at and what was read there. Zeros are readings, blanks are not."""

from __future__ import annotations

from repairlog.entries.fields import (
    HAPPENED,
    YES_NO,
    EntryKind,
    Field,
    Rows,
    asked,
    code,
    measure,
    ref,
    text,
    when,
    whole,
)

GASES = ("methane", "carbon_monoxide", "propane", "hydrogen")
PURPOSES = ("first_investigation", "re_evaluation", "follow_up_inspection", "watch_reading", "after_repair")

PLACES = (
    "bar_hole",
    "building",
    "manhole",
    "vault",
    "catch_basin",
    "valve_box",
    "surface",
    "outside_wall",
    "inside",
    "tunnel",
    "confined_space",
    "small_substructure",
    "sidewalk",
    "street",
    "other",
)
"""The later ones are what rules of grading speak of; a small substructure is gas-associated where its owner is gas."""

CLASS_LOCATIONS = ("class_1", "class_2", "class_3", "class_4")
"""How built-up it is along the line: 49 CFR 192.5."""

VISIT = EntryKind(
    name="visit",
    says="places are looked at",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        code(
            "purpose",
            "what for",
            of=PURPOSES,
            required=True,
        ),
        code("outcome", "looked, or no access", of=("looked", "no_access"), required=True),
        asked("nh", code("ground", "condition of the ground", of=("dry", "wet", "frozen", "snow", "paved"))),
        asked("guide nh", code("paving", "paving", of=("wall_to_wall", "some_paving", "unpaved"))),
        code("frost", "frost in the ground", of=YES_NO),
        code("ignited", "gas was burning", of=YES_NO),
        code("seen_or_heard", "the leak was seen, heard or felt", of=YES_NO),
        when("venting_started", "venting started"),
        when("venting_stopped", "venting stopped"),
        asked("ma", measure("extent", "area over which gas was read", of="area")),
        asked("wa", text("instrument", "instrument, as marked", longest=60)),
        asked("wa", ref("instrument_used", "instrument, where it is on the books", to="instrument")),
        text("remarks", "what else was seen", longest=4000),
        code("likely_to_reach_outside_wall", "gas is likely to reach the outside wall of a building", of=YES_NO),
        code("significant_migration", "gas spreads far through the ground", of=YES_NO),
        code("probable_future_hazard", "it is likely to become a hazard", of=YES_NO),
        code("public_or_property_endangered", "people or property may be endangered", of=YES_NO),
        code("excavation_damage", "somebody dug into the pipe", of=YES_NO),
        whole("percent_smys", "stress of the line at operating pressure, in % of SMYS, rounded up", most=100),
        code("class_location", "class location of the line", of=CLASS_LOCATIONS),
    ),
    rows=(
        Rows(
            name="places",
            says="the places looked at",
            fields=(
                code(
                    "kind",
                    "what kind of place",
                    of=PLACES,
                    required=True,
                ),
                code("owner", "whose", of=("gas", "electric", "telephone", "sewer", "water", "customer", "unknown")),
                text("label", "label or where", longest=120),
                Field(name="same_as", kind="hole", says="the same hole as before", longest=100),
                measure("from_building", "distance from the building", of="distance"),
                text("not_entered", "not entered because", longest=400),
            ),
        ),
        Rows(
            name="readings",
            says="readings",
            most=500,
            fields=(
                asked("guide wa", text("place", "key of the place", longest=40)),
                code("gas", "gas", of=GASES),
                code("kind", "sustained or peak", of=("sustained", "peak")),
                asked("guide ma wa", measure("value", "reading", of="gas", required=True)),
                asked("wa", text("instrument", "instrument, where another than the visit's", longest=60)),
                ref("instrument_used", "that instrument, where it is on the books", to="instrument"),
            ),
        ),
    ),
)

KINDS = (VISIT,)
