"""The first hour at a leak: moments of one tap, the watch that passes from one named person to the next, and how what
people did is looked over afterwards."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, code, ref, text, when, whole

MOMENTS = (
    "on_site",
    "first_gas",
    "people_out",
    "street_closed",
    "gas_under_control",
    "area_made_safe",
    "people_back",
    "left_site",
)
CONTROLLED_BY = (
    "meter_valve",
    "curb_valve",
    "main_valve",
    "squeeze_off",
    "stopper",
    "temporary_clamp",
    "venting",
    "other",
)

EMERGENCY = ("people_out", "gas_under_control")
"""Moments that tell of an emergency: people had to leave, or the gas had to be brought under control. Common practice,
no source: the operator's own emergency plan says what is one."""

PROCEDURES = ("followed", "followed_in_part", "not_followed")

MOMENT_NOTED = EntryKind(
    name="moment_noted",
    says="a moment of the first hour",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        code("moment", "which moment", of=MOMENTS, required=True),
        whole("people_count", "how many people", most=100_000),
        text("place", "out of where, or where they are now"),
        code("controlled_by", "how the gas was brought under control", of=CONTROLLED_BY),
        text("remarks", "what else is to be known", longest=1000),
    ),
)

WATCH_HANDED = EntryKind(
    name="watch_handed",
    says="the watch is handed over",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        ref("from_person", "who hands it over", to="person"),
        text("from_named", "name of that person, where not on the books", longest=120),
        ref("to_person", "who takes it over", to="person"),
        text("to_named", "name of that person, where not on the books", longest=120),
        text("valves", "valves: which are shut, which are open", longest=1000),
        text("vents", "vents: which stand open", longest=1000),
        text("last_readings", "last readings: where, what, when", longest=1000),
        whole("customers_off", "how many customers are off", most=1_000_000),
        when("next_reading_by", "next reading by"),
        text("remarks", "what else is to be known", longest=4000),
    ),
)

# 49 CFR 192.615(b)(3): what employees did is reviewed after each emergency, to determine whether the procedures were
# effectively followed. Of an emergency that came with a call, the review of the call may tell it.
EMERGENCY_REVIEWED = EntryKind(
    name="emergency_reviewed",
    says="what people did in the emergency is reviewed",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        code("procedures", "whether the emergency procedures were effectively followed", of=PROCEDURES, required=True),
        text("found", "what was found", longest=4000),
        text("changed", "what is changed because of it", longest=4000),
        text("remarks", "what else is to be known", longest=4000),
    ),
)

KINDS = (MOMENT_NOTED, WATCH_HANDED, EMERGENCY_REVIEWED)
