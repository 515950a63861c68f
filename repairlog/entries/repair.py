"""A repair in attempts, the tests that decide over them, and the supervisor's word on them."""

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

# The eight causes of the federal annual report for gas distribution, PHMSA F 7100.1-1, Part C.
CAUSES = (
    "corrosion_failure",
    "natural_force_damage",
    "excavation_damage",
    "other_outside_force_damage",
    "pipe_weld_or_joint_failure",
    "equipment_failure",
    "incorrect_operation",
    "other_cause",
)
STOPPED_BY = ("not_stopped", "line_valve", "squeeze_off", "stopper", "plug", "bag", "other")
TEST_RESULTS = ("tight", "not_tight", "cannot_say")

REPAIR_ATTEMPTED = EntryKind(
    name="repair_attempted",
    says="a repair is attempted",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        ref("source", "source", to="source"),
        HAPPENED,
        asked("guide tx wa", code("lasting", "permanent or temporary", of=("permanent", "temporary"), required=True)),
        asked("guide tx wa", text("method", "method", longest=80)),
        asked("federal guide nh tx wa", code("cause", "cause of the leak", of=CAUSES)),
        text("cause_detail", "more about the cause", longest=1000),
        asked("federal", code("mechanical_joint", "a mechanical joint failed", of=YES_NO)),
        measure("hole_size", "size of the hole", of="hole"),
        asked("guide nh", measure("pressure_found", "line pressure found", of="pressure")),
        measure("pressure_installing", "line pressure while installing", of="pressure"),
        measure("pressure_restored", "line pressure restored", of="pressure"),
        ref("authorised_by", "who authorised a pressure change", to="person"),
        text("authorised_by_named", "name of that person, where not on the books", longest=120),
        ref("watched_by", "who watched the pressure", to="person"),
        text("watched_by_named", "name of that person, where not on the books", longest=120),
        code("stopped_by", "how the gas was stopped", of=STOPPED_BY),
        when("exposed", "pipe exposed"),
        when("gas_stopped", "gas stopped"),
        when("fitted", "fitting in place"),
        when("gas_restored", "gas restored"),
        code("surface_ready", "surface of the pipe cleaned and made ready", of=YES_NO),
        measure("pipe_temperature", "temperature of the pipe", of="temperature"),
        measure("air_temperature", "temperature of the air", of="temperature"),
        code("customers", "customers kept on, or off", of=("live", "off")),
        whole("customers_off", "how many customers were off"),
        asked("federal", text("coating", "coating put back")),
        code("outcome", "tight or not, in the crew's word", of=("tight", "not_tight", "not_tested"), required=True),
        text("remarks", "what else is to be known", longest=4000),
    ),
    rows=(
        Rows(
            name="materials",
            says="materials by lot",
            fields=(
                ref("lot", "lot", to="lot"),
                text("named", "lot as read, where it is not on the books", longest=120),
                text("used", "how much was used", longest=60),
            ),
            needs_one_of=("lot", "named"),
        ),
        Rows(
            name="people",
            says="who did which covered task",
            fields=(
                ref("person", "person", to="person"),
                text("named", "name, where the person is not on the books", longest=120),
                asked("federal", text("task", "covered task", longest=120)),
                asked("federal", ref("observed_by", "observed by, where not qualified for it", to="person")),
                text("observed_by_named", "name of the observer, where not on the books", longest=120),
            ),
            needs_one_of=("person", "named"),
        ),
    ),
)

TESTED = EntryKind(
    name="tested",
    says="a repair is tested",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        entry("attempt", "the attempt that is tested", required=True),
        HAPPENED,
        code("kind_of_test", "kind of test", of=("soap", "pressure_hold", "gas_reading", "other"), required=True),
        asked("federal", measure("pressure", "test pressure", of="pressure")),
        asked("federal", measure("duration", "how long it was held", of="duration")),
        asked("federal", code("medium", "medium", of=("gas", "air", "nitrogen", "water"))),
        text("instrument", "instrument, as marked", longest=60),
        ref("instrument_used", "instrument, where it is on the books", to="instrument"),
        asked("federal", code("result", "result", of=TEST_RESULTS, required=True)),
        asked("federal", text("leaks_found", "leaks that it showed, and what was done about them", longest=1000)),
        text("remarks", "what else was seen", longest=4000),
    ),
)

REPAIR_REVIEWED = EntryKind(
    name="repair_reviewed",
    says="a repair is accepted or returned",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        entry("attempt", "the attempt", required=True),
        HAPPENED,
        code("outcome", "accepted or returned", of=("accepted", "returned"), required=True),
        text("reason", "why", longest=1000),
    ),
)

KINDS = (REPAIR_ATTEMPTED, TESTED, REPAIR_REVIEWED)
