"""A rulebook as frozen values: what one authority requires, where each rule is written, how far that is known.

`repairlog.rulebooks` reads them from text; grading and due items are worked out from them. Every rule has an `id`, its
own within the rulebook, and `cited`.
"""

from repairlog.trade.rulebook.book import KINDS, Rule, Rulebook, in_force, rule_named, rules
from repairlog.trade.rulebook.cited import MARKS, STATUSES, Cited, in_force_on
from repairlog.trade.rulebook.due import AT_ONCE, COUNTED_FROM, DUE_WHEN, TASKS, UNTIL, Due
from repairlog.trade.rulebook.grading import (
    ASSUMED,
    CONDITIONS,
    OWNERS,
    PLACES,
    SAID,
    Bound,
    Criterion,
    Grade,
    ReadingBound,
)
from repairlog.trade.rulebook.keeping import (
    FIELDS_ASKED,
    RECORDS,
    REPORTS,
    ROUNDS,
    WEEKENDS,
    Convention,
    RecordAsked,
    Report,
    Retention,
    Round,
)
from repairlog.trade.rulebook.meeting import (
    FIELDS_OF_FORM,
    INSTRUMENTS,
    PRESSURE_FORMS,
    RESPONSE_FORMS,
    TESTED_PARTS,
    InstrumentInterval,
    PressureForm,
    QualificationInterval,
    ResponseTime,
    TestPressure,
)
from repairlog.trade.rulebook.missing import Drop, RuleGap, Target
from repairlog.trade.rulebook.regrading import CLOCKS, RegradeLimit, VentingWait

__all__ = [
    "ASSUMED",
    "AT_ONCE",
    "CLOCKS",
    "CONDITIONS",
    "COUNTED_FROM",
    "DUE_WHEN",
    "FIELDS_ASKED",
    "FIELDS_OF_FORM",
    "INSTRUMENTS",
    "KINDS",
    "MARKS",
    "OWNERS",
    "PLACES",
    "PRESSURE_FORMS",
    "RECORDS",
    "REPORTS",
    "RESPONSE_FORMS",
    "ROUNDS",
    "SAID",
    "STATUSES",
    "TASKS",
    "TESTED_PARTS",
    "UNTIL",
    "WEEKENDS",
    "Bound",
    "Cited",
    "Convention",
    "Criterion",
    "Drop",
    "Due",
    "Grade",
    "InstrumentInterval",
    "PressureForm",
    "QualificationInterval",
    "ReadingBound",
    "RecordAsked",
    "RegradeLimit",
    "Report",
    "ResponseTime",
    "Retention",
    "Round",
    "Rule",
    "RuleGap",
    "Rulebook",
    "Target",
    "TestPressure",
    "VentingWait",
    "in_force",
    "in_force_on",
    "rule_named",
    "rules",
]
