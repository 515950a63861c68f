"""A dig: one excavation with what was found in it, the pipe that it laid bare, its filling and what is owed for it."""

from __future__ import annotations

from repairlog.entries.fields import (
    HAPPENED,
    YES_NO,
    EntryKind,
    Rows,
    asked,
    code,
    day,
    entry,
    measure,
    ref,
    text,
    when,
)

CORROSION_OUTSIDE = ("none", "light", "pitting", "general", "graphitized_in_spots", "graphitized_all_over")
"""The last two of iron: 49 CFR 192.489 asks for one thing or another by which of them it is."""

_DIG = ref("dig", "dig", to="dig", required=True)

DIG_OPENED = EntryKind(
    name="dig_opened",
    says="a dig is opened",
    opens="dig",
    fields=(
        ref("area", "operating area", to="area", required=True),
        HAPPENED,
        asked("federal", text("ticket", "locate ticket: its number", longest=60)),
        when("ticket_from", "first moment at which the ticket lets you dig", ahead=True),
        when("ticket_until", "last moment at which the ticket lets you dig", ahead=True),
        text("permit", "permit: its number", longest=60),
        text("location", "where, in words", longest=1000),
        asked(
            "nh",
            code(
                "surface",
                "what covers the ground",
                of=("grass", "bare_soil", "gravel", "asphalt", "concrete", "brick", "other"),
            ),
        ),
    ),
    rows=(
        Rows(name="leaks", says="leaks that it serves", fields=(ref("leak", "leak", to="leak", required=True),)),
        Rows(
            name="ties",
            says="measured ties: how far from what",
            fields=(
                text("from_what", "from what: a corner, a pole, a valve", required=True),
                measure("distance", "distance", of="distance"),
            ),
        ),
    ),
)

DIG_FOUND = EntryKind(
    name="dig_found",
    says="what a dig found is said",
    folds_in="dig",
    fields=(
        _DIG,
        HAPPENED,
        code("found", "what was found", of=("source", "nothing", "other_pipe"), required=True),
        ref("source", "which source", to="source"),
        measure("depth", "depth of the dig", of="distance"),
        measure("cover", "cover over the pipe", of="distance"),
        code("soil", "soil", of=("sand", "loam", "clay", "gravel", "rock", "fill", "other")),
        code("water", "water in the dig", of=("dry", "wet", "standing_water")),
        text("remarks", "what else was seen", longest=4000),
    ),
)

PIPE_EXPOSED = EntryKind(
    name="pipe_exposed",
    says="an exposed pipe is looked at",
    folds_in="dig",
    fields=(
        _DIG,
        HAPPENED,
        ref("source", "the pipe of which source", to="source"),
        text("pipe", "which pipe, in words, where it is that of no source"),
        asked("federal", code("outside", "bare or coated", of=("bare", "coated"))),
        asked("federal", text("coating", "kind of coating", longest=80)),
        asked("federal", code("coating_state", "coating as found", of=("sound", "damaged", "loose", "missing"))),
        asked("federal", code("corrosion_outside", "corrosion outside", of=CORROSION_OUTSIDE)),
        asked("federal", text("searched", "how far the search for corrosion went", longest=400)),
        asked("federal", code("cut_out", "was pipe cut out", of=YES_NO)),
        asked("federal", code("corrosion_inside", "corrosion inside", of=("none", "light", "pitting", "general"))),
        measure("deepest_pit", "deepest pit", of="hole"),
        asked("federal", measure("nominal_wall", "nominal wall of the pipe", of="hole")),
        asked("federal", measure("wall_left", "wall that is left", of="hole")),
        asked("federal", code("joint_sealed", "was a joint sealed", of=YES_NO)),
        asked("federal", code("anode_installed", "was an anode installed", of=YES_NO)),
        asked("federal", text("potential_before", "pipe-to-soil before, with its unit and reference", longest=60)),
        asked("federal", text("potential_after", "pipe-to-soil after, with its unit and reference", longest=60)),
        code("tracer_wire", "tracer wire", of=("whole", "broken", "mended", "none")),
        text("part_kept", "part kept for the laboratory: its tag", longest=60),
        text("remarks", "what else was seen", longest=4000),
    ),
)

DIG_BACKFILLED = EntryKind(
    name="dig_backfilled",
    says="a dig is backfilled",
    folds_in="dig",
    fields=(
        _DIG,
        HAPPENED,
        text("material", "with what", longest=120),
        text("compaction", "how it was compacted", longest=200),
        text("remarks", "what else is to be known", longest=4000),
    ),
)

RESTORATION_OWED = EntryKind(
    name="restoration_owed",
    says="restoration is owed",
    folds_in="dig",
    fields=(
        _DIG,
        HAPPENED,
        text("what", "what is to be restored", longest=400, required=True),
        day("by_on", "by which day"),
        text("owed_by", "who owes it", longest=120),
    ),
)

RESTORED = EntryKind(
    name="restored",
    says="a surface is restored",
    folds_in="dig",
    fields=(
        _DIG,
        HAPPENED,
        entry("owed", "what was owed; all that was owed so far where left out"),
        text("what", "what was restored", longest=400),
    ),
)

KINDS = (DIG_OPENED, DIG_FOUND, PIPE_EXPOSED, DIG_BACKFILLED, RESTORATION_OWED, RESTORED)
