"""Worked: companies, people, crews and instruments on the books, day by day."""

from __future__ import annotations

from sqlalchemy import Boolean, Column, Date, Index, Integer, Text

from repairlog.records.columns import Id
from repairlog.records.tables.metadata import table
from repairlog.records.tables.worked import engine

COMPANY = table(
    "company",
    "worked",
    Column("id", Id, primary_key=True, comment="the company"),
    Column("name", Text, nullable=False, comment="its name"),
    Column("what", Text, nullable=False, comment="what it does: contractor, laboratory, mutual_aid, other"),
    Column("void", Boolean, nullable=False, comment="put on the books in error"),
    engine(),
    Index(None, "name", "id"),
    comment="a company as it stands",
)

COMPANY_NAME = table(
    "company_name",
    "worked",
    Column("company_id", Id, primary_key=True, comment="the company"),
    Column("plain", Text, primary_key=True, comment="the name as it is compared: capitals and spaces apart"),
    Column("name", Text, nullable=False, comment="the name as written"),
    engine(),
    Index(None, "plain"),
    comment="every name that a company is written as, its own too",
)

COMPANY_TERM = table(
    "company_term",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the entry that tells of it"),
    Column("company_id", Id, nullable=False, comment="the company"),
    Column("from_on", Date, comment="first day; none where it is not known"),
    Column("until_on", Date, comment="last day; none where it is open"),
    engine(),
    Index(None, "company_id"),
    comment="from when to when a company works for the operator",
)

PERSON = table(
    "person",
    "worked",
    Column("id", Id, primary_key=True, comment="the person"),
    Column("name", Text, nullable=False, comment="name"),
    Column("company", Text, nullable=False, comment="company; empty for the operator's own"),
    Column("staff_number", Text, nullable=False, comment="number that the operator gave; empty where none"),
    Column("left_on", Date, comment="last day, of who left"),
    Column("void", Boolean, nullable=False, comment="added in error"),
    engine(),
    Index(None, "name", "id"),
    Index(None, "company"),
    comment="a person as they stand",
)

ROLE = table(
    "role",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the entry that gave it"),
    Column("key", Text, primary_key=True, comment="key of its row there; empty where the entry is of that role alone"),
    Column("person_id", Id, nullable=False, comment="whose it is"),
    Column("role", Text, nullable=False, comment="role"),
    Column("area_id", Id, comment="operating area; none for every area"),
    Column("from_on", Date, nullable=False, comment="first day"),
    Column("until_on", Date, comment="last day; none where it is open"),
    Column("company", Text, nullable=False, comment="company whose work alone is seen; empty for all"),
    Column("period_from_on", Date, comment="first day of the period that an inspector looks at"),
    Column("period_until_on", Date, comment="last day of that period"),
    engine(),
    Index(None, "person_id"),
    comment="what a person may do where and when, ended roles too",
)

QUALIFICATION = table(
    "qualification",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the evaluation"),
    Column("person_id", Id, nullable=False, comment="whose it is"),
    Column("task", Text, nullable=False, comment="covered task"),
    Column("from_on", Date, nullable=False, comment="day of the evaluation"),
    Column("until_on", Date, comment="last day on which it holds; none where it is open"),
    Column("ended_on", Date, comment="day from which it is suspended or withdrawn"),
    Column("ended_how", Text, comment="suspended or withdrawn"),
    engine(),
    Index(None, "person_id"),
    comment="what a person is or was qualified for",
)

CREW = table(
    "crew",
    "worked",
    Column("id", Id, primary_key=True, comment="the crew"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("name", Text, nullable=False, comment="its name"),
    Column("void", Boolean, nullable=False, comment="made in error"),
    engine(),
    Index(None, "area_id", "name"),
    comment="a crew as it stands",
)

CREW_MEMBER = table(
    "crew_member",
    "worked",
    Column("crew_id", Id, primary_key=True, comment="the crew"),
    Column("person_id", Id, primary_key=True, comment="who is in it"),
    Column("from_on", Date, primary_key=True, comment="first day"),
    Column("until_on", Date, comment="last day; none where it is open"),
    engine(),
    Index(None, "person_id"),
    comment="who is or was in a crew",
)

CREW_COMPANY = table(
    "crew_company",
    "worked",
    Column("crew_id", Id, primary_key=True, comment="the crew"),
    Column("from_on", Date, primary_key=True, comment="first day"),
    Column("until_on", Date, comment="last day; none where it is open"),
    Column("company", Text, nullable=False, comment="whose it is; empty for the operator's own"),
    engine(),
    Index(None, "company"),
    comment="whose a crew is or was",
)

INSTRUMENT = table(
    "instrument",
    "worked",
    Column("id", Id, primary_key=True, comment="the instrument"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("mark", Text, nullable=False, comment="mark, as on its label"),
    Column("what", Text, nullable=False, comment="what it is"),
    Column("retired_on", Date, comment="day on which it was retired"),
    Column("calibrated_on", Date, comment="day of the last calibration"),
    Column("result", Text, comment="its result: in_tolerance, adjusted_to, out_of_tolerance"),
    Column("next_due_on", Date, comment="last day on which it holds, as on the certificate"),
    Column("checked_on", Date, comment="day of the last check with gas"),
    Column("check_result", Text, comment="what came of it: good, not_good"),
    Column("void", Boolean, nullable=False, comment="added in error"),
    engine(),
    Index(None, "area_id", "mark"),
    comment="an instrument as it stands",
)

CALIBRATION = table(
    "calibration",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the entry"),
    Column("instrument_id", Id, nullable=False, comment="its instrument"),
    Column("number", Integer, nullable=False, comment="its number among them, in the order of happening"),
    Column("calibrated_on", Date, nullable=False, comment="its day"),
    Column("result", Text, nullable=False, comment="in_tolerance, adjusted_to, out_of_tolerance"),
    Column("next_due_on", Date, comment="last day on which it holds, as on the certificate"),
    engine(),
    Index(None, "instrument_id"),
    comment="the calibrations of an instrument",
)
