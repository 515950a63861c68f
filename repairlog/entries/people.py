"""Entries about people and crews after they came: roles by date, qualifications, who is in a crew and whose it is."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Rows, asked, code, day, ref, text
from repairlog.entries.operator import ROLES

# How a person may be evaluated: 49 CFR 192.803.
METHODS = (
    "written_examination",
    "oral_examination",
    "work_performance_history",
    "observation",
    "on_the_job_training",
    "simulation",
    "other_assessment",
)

_PERSON = ref("subject", "person", to="person", required=True)

ROLE_GIVEN = EntryKind(
    name="role_given",
    says="a person is given a role",
    folds_in="subject",
    fields=(
        _PERSON,
        HAPPENED,
        code("role", "role", of=ROLES, required=True),
        ref("area", "operating area; every area where left out", to="area"),
        day("from_on", "first day", required=True),
        day("until_on", "last day; open where left out, but an inspector's never is"),
        text("company", "company whose work alone is seen; where left out, all of the area"),
        day("period_from_on", "first day of the period that an inspector looks at"),
        day("period_until_on", "last day of that period"),
    ),
)

ROLE_ENDED = EntryKind(
    name="role_ended",
    says="a person's role ends",
    folds_in="subject",
    fields=(
        _PERSON,
        HAPPENED,
        code("role", "role", of=ROLES, required=True),
        ref("area", "operating area for which it was given; wherever it was given, where left out", to="area"),
        day("until_on", "last day", required=True),
    ),
)

PERSON_LEFT = EntryKind(
    name="person_left",
    says="a person leaves",
    folds_in="subject",
    fields=(_PERSON, HAPPENED, day("until_on", "last day", required=True), text("reason", "why", longest=1000)),
)

QUALIFIED = EntryKind(
    name="qualified",
    says="a person is qualified for a task",
    folds_in="subject",
    fields=(
        _PERSON,
        HAPPENED,
        text("task", "covered task", longest=120, required=True),
        day("until_on", "last day on which it holds; open where left out"),
        asked("federal", code("method", "how the person was evaluated", of=METHODS)),
        ref("evaluator", "who evaluated", to="person"),
        text("evaluator_named", "name of who evaluated, where not on the books", longest=120),
        text("company", "company of who evaluated"),
        text("document", "document that shows it"),
    ),
)

QUALIFICATION_ENDED = EntryKind(
    name="qualification_ended",
    says="a qualification is suspended or withdrawn",
    folds_in="subject",
    fields=(
        _PERSON,
        HAPPENED,
        text("task", "covered task", longest=120, required=True),
        code("how", "suspended or withdrawn", of=("suspended", "withdrawn"), required=True),
        text("reason", "why", longest=1000, required=True),
    ),
)

CREW_CHANGED = EntryKind(
    name="crew_changed",
    says="a crew changes",
    folds_in="subject",
    fields=(
        ref("subject", "crew", to="crew", required=True),
        HAPPENED,
        text("name", "new name of the crew"),
        text("company", "company that the crew is of, from that day on"),
    ),
    rows=(
        Rows(
            name="joined",
            says="who joins the crew",
            fields=(ref("person", "person", to="person", required=True), day("from_on", "first day")),
        ),
        Rows(
            name="left",
            says="who leaves the crew",
            fields=(ref("person", "person", to="person", required=True), day("until_on", "last day")),
        ),
    ),
)

KINDS = (ROLE_GIVEN, ROLE_ENDED, PERSON_LEFT, QUALIFIED, QUALIFICATION_ENDED, CREW_CHANGED)
