"""Work on a leak that is still to be done: given to somebody, done or taken back, waiting, talked over before."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, YES_NO, EntryKind, Rows, asked, code, day, entry, ref, text

WORK = (
    "first_investigation",
    "repair",
    "permanent_repair",
    "re_evaluation",
    "follow_up_inspection",
    "restoration",
    "other_work",
)
WAITS_ON = ("permit", "parts", "weather", "other_operator", "access", "locating", "crew", "project", "other")

WORK_GIVEN = EntryKind(
    name="work_given",
    says="work is given to somebody",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        code("work", "what is to be done", of=WORK, required=True),
        ref("crew", "to which crew", to="crew"),
        ref("person", "to which person", to="person"),
        text("named", "to whom, where they are not on the books", longest=120),
        day("by_on", "to be done by"),
        text("remarks", "what is to be known", longest=1000),
    ),
)

WORK_SETTLED = EntryKind(
    name="work_settled",
    says="work that was given is done, or taken back",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        entry("given", "the work that was given", required=True),
        HAPPENED,
        code("outcome", "done, or taken back", of=("done", "taken_back"), required=True),
        text("reason", "why", longest=1000),
    ),
)

WORK_WAITING = EntryKind(
    name="work_waiting",
    says="the work waits",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        code("waits_on", "what it waits on", of=WAITS_ON, required=True),
        day("until_on", "until when, as far as is known"),
        text("remarks", "what is to be known", longest=1000),
    ),
)

WORK_GOES_ON = EntryKind(
    name="work_goes_on",
    says="the work waits no longer",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        text("remarks", "what is to be known", longest=1000),
    ),
)

BRIEFING_GIVEN = EntryKind(
    name="briefing_given",
    says="the work is talked over before it begins",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        text("topics", "what was talked over: hazards, the way out, who does what", longest=4000, required=True),
        asked("federal", text("atmosphere", "gas or vapor in the excavation, as read before anybody went in")),
        asked("federal", code("rescue_gear", "rescue gear at hand", of=YES_NO)),
        asked("federal", code("extinguisher", "fire extinguisher at hand", of=YES_NO)),
        asked("federal", code("ignition_sources_out", "sources of ignition taken away", of=YES_NO)),
    ),
    rows=(
        Rows(
            name="present",
            says="who was there",
            fields=(
                ref("person", "person", to="person"),
                text("named", "name, where the person is not on the books", longest=120),
            ),
            needs_one_of=("person", "named"),
        ),
    ),
)

KINDS = (WORK_GIVEN, WORK_SETTLED, WORK_WAITING, WORK_GOES_ON, BRIEFING_GIVEN)
