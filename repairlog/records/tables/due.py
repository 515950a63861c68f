"""Worked: what is owed of leaks and digs by which day, and what would be owed and has no day."""

from __future__ import annotations

from sqlalchemy import BigInteger, Boolean, Column, Date, Index, Text

from repairlog.records.columns import Id, Moment
from repairlog.records.tables.metadata import table
from repairlog.records.tables.worked import engine

DUE_ITEM = table(
    "due_item",
    "worked",
    Column("subject_id", Id, primary_key=True, comment="the leak or dig that owes it"),
    Column("adopted_id", Id, primary_key=True, comment="the adoption by which it is owed; of a restoration, its entry"),
    Column("rule", Text, primary_key=True, comment="id of the rule that asks for it; empty for a restoration"),
    Column("graded_id", Id, primary_key=True, comment="the entry that set its grade; else what opened it"),
    Column("counted_id", Id, primary_key=True, comment="the entry from which it is counted"),
    Column("leak_id", Id, comment="the leak; of a dig, the first that it serves"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("task", Text, nullable=False, comment="what is owed: act, repair, re_evaluate, follow_up, restore ..."),
    Column("grade", Text, comment="grade for which it is owed"),
    Column("rank", BigInteger, comment="rank of that grade; 1 is the most hazardous"),
    Column("clause", Text, comment="clause that asks for it"),
    Column("mark", Text, comment="how far the clause is known: text_checked, restated, memory, common_practice"),
    Column("firm", Boolean, nullable=False, comment="whether its day is a limit; else it is proposed, and never late"),
    Column("counted_from", Text, nullable=False, comment="from what it is counted: reported, graded, looked_at ..."),
    Column("counted_on", Date, nullable=False, comment="legal day of that"),
    Column("governed_by", Text, comment="the bound of its interval that decided"),
    Column("due_on", Date, nullable=False, comment="the last day in time"),
    Column("due_at", Moment, comment="the last moment, where it is owed in hours"),
    Column("not_before", Date, comment="the first day in time, where there is a window"),
    Column("target_on", Date, comment="the operator's own earlier day"),
    Column("until", Text, nullable=False, comment="what ends it: made_safe, repaired, no_reading, done_once ..."),
    Column("from_on", Date, comment="first day on which this is what is owed, where another rulebook holds before"),
    Column("until_on", Date, comment="last day, where another rulebook follows"),
    Column("settled_on", Date, comment="day on which it was settled; none while it is owed"),
    Column("settled_by", Text, comment="by what: repaired, ended, joined, looked_at, done, graded_anew ..."),
    engine(),
    Index(None, "settled_on", "due_on", "subject_id"),
    Index(None, "area_id", "settled_on", "due_on"),
    Index(None, "leak_id"),
    comment="what is owed of a leak or a dig by which day, and by what it was settled",
)

DUE_MISSING = table(
    "due_missing",
    "worked",
    Column("subject_id", Id, primary_key=True, comment="the leak or dig"),
    Column("adopted_id", Id, primary_key=True, comment="the adoption by which it is owed; of a restoration, its entry"),
    Column("why", Text, primary_key=True, comment="rule_gap, day_not_known, not_countable, no_day ..."),
    Column("grade", Text, primary_key=True, comment="grade for which it would be owed; empty for a restoration"),
    Column("task", Text, primary_key=True, comment="what would be owed; empty where nothing can be said"),
    Column("rule", Text, primary_key=True, comment="id of the rule or gap; empty where it is none"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("fill_in", Text, comment="what the operator must fill in"),
    Column("from_on", Date, comment="first day on which this holds, where another rulebook holds before"),
    Column("until_on", Date, comment="last day, where another rulebook follows"),
    engine(),
    comment="what would be owed of a leak or a dig and has no day, and why",
)
