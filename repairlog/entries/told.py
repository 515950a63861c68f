"""Entries on any subject: somebody outside is told of it; whether it is to be reported is decided."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, asked, code, ref, text

WHOM = (
    "fire_department",
    "police",
    "nine_one_one",
    "electric_company",
    "gas_control",
    "owner",
    "city",
    "state_commission",
    "federal_response_center",
    "other",
)
HOW = ("telephone", "radio", "in_person", "email", "web_form")
REPORT_TO = ("federal_response_center", "state_commission", "city", "other")

TOLD = EntryKind(
    name="told",
    says="somebody is told",
    folds_in="subject",
    fields=(
        ref("subject", "what they are told of", to="", required=True),
        HAPPENED,
        code("whom", "who is told", of=WHOM, required=True),
        asked("federal guide nh", text("named", "name or office, as they gave it", longest=120)),
        code("how", "how they are told", of=HOW),
        text("reference", "number or name that they gave for it", longest=60),
        text("remarks", "what was said", longest=4000),
    ),
)

DECIDED = EntryKind(
    name="decided",
    says="whether it is to be reported is decided",
    folds_in="subject",
    fields=(
        ref("subject", "what is decided about", to="", required=True),
        HAPPENED,
        code("decision", "to be reported or not", of=("reportable", "not_reportable"), required=True),
        code("report_to", "to whom", of=REPORT_TO),
        text("facts", "on which facts", longest=4000),
        text("reason", "why", longest=1000),
    ),
)

KINDS = (TOLD, DECIDED)
