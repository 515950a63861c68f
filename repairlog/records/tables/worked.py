"""Worked: what a fold over a subject's entries gives. Each row carries the engine's version that worked it out."""

from __future__ import annotations

from typing import Any

from sqlalchemy import BigInteger, Boolean, Column, Date, Double, Index, Integer, Text

from repairlog.records.columns import Id, Moment
from repairlog.records.tables.metadata import table


def engine() -> Column[Any]:
    """The column that says which engine worked a row out."""
    return Column("engine", Integer, nullable=False, comment="version of the engine that worked this row out")


AREA = table(
    "area",
    "worked",
    Column("id", Id, primary_key=True, comment="the area"),
    Column("name", Text, nullable=False, comment="its name"),
    Column("code", Text, nullable=False, comment="what its leaks' numbers start with"),
    Column("zone", Text, nullable=False, comment="its time zone"),
    Column("elevation_m", Double, comment="height above the sea, as a number"),
    Column("elevation", Text, comment="height above the sea, canonical"),
    Column("lel_basis", Text, nullable=False, comment="percent methane that counts as 100 %LEL"),
    Column("settings_version", BigInteger, nullable=False, comment="entries in its story: every change counts one up"),
    Column("cut_over_on", Date, comment="first day on which what is missing in a record is raised"),
    Column("calendar", Text, comment="calendar of its working days, such as US-NY"),
    # beside the settings, in one row: every post of a leak reads them
    Column("adoptions", Text, comment="rulebooks adopted: list of first day, last day, id, digest, entry; JSON"),
    Column("confirmed", Text, comment="rules confirmed: by digest, the day of each rule; JSON"),
    Column("typing_hours", BigInteger, comment="hours after the work until which an entry may be typed"),
    Column("own_acceptance", Boolean, comment="whoever did the work may accept it here; none where nobody said"),
    engine(),
    Index(None, "code"),
    comment="an operating area's settings as they stand",
)

AREA_COUNTER = table(
    "area_counter",
    "worked",
    Column("area_id", Id, primary_key=True, comment="the area"),
    Column("year", Integer, primary_key=True, comment="year of the leaks' first day"),
    Column("last", BigInteger, nullable=False, comment="the highest counter given"),
    engine(),
    comment="how far an area has counted its leaks of a year",
)

CALL_COUNTER = table(
    "call_counter",
    "worked",
    Column("area_id", Id, primary_key=True, comment="the area"),
    Column("year", Integer, primary_key=True, comment="year of the calls' first day"),
    Column("last", BigInteger, nullable=False, comment="the highest counter given"),
    engine(),
    comment="how far an area has counted its calls of a year",
)

COUNTERS = {"leak": AREA_COUNTER, "call": CALL_COUNTER}
"""How far an area has counted, by the kind of subject that it counts."""

LOT = table(
    "lot",
    "worked",
    Column("id", Id, primary_key=True, comment="the lot"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("item", Text, nullable=False, comment="what it is"),
    Column("lot_number", Text, nullable=False, comment="lot number as printed"),
    Column("expires_on", Date, comment="last day on which it may be used"),
    Column("void", Boolean, nullable=False, comment="its receipt was made void"),
    Column("status", Text, comment="in_stock, quarantined, used_up, scrapped"),
    Column("lies_at", Text, comment="where the whole of it was last brought, where that is not on the books"),
    Column("shelf_id", Id, comment="the shelf or truck to which the whole of it was last brought"),
    Column("quarantined", Text, comment="from when until when it was quarantined, canonical JSON"),
    Column("scrapped_on", Date, comment="day on which the whole of it was scrapped"),
    Column("received_on", Date, comment="day on which it came in, where that is known"),
    engine(),
    Index(None, "lot_number"),
    Index(None, "area_id", "expires_on", "id"),
    comment="a lot as it stands",
)

LEAK = table(
    "leak",
    "worked",
    Column("id", Id, primary_key=True, comment="the leak"),
    Column("number", Text, nullable=False, comment="its number, for people"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("status", Text, nullable=False, comment="open, ended, opened_in_error"),
    Column("reported_on", Date, nullable=False, comment="legal day of the report"),
    Column("reported_at", Moment, comment="moment of the report, where the hour is known"),
    Column("grade_found", Text, comment="grade as found"),
    Column("rank_found", BigInteger, comment="its rank; 1 is the most hazardous"),
    Column("grade_now", Text, comment="grade now"),
    Column("rank_now", BigInteger, comment="its rank"),
    Column("house_number", Text, comment="house number"),
    Column("street_id", Id, comment="street"),
    Column("cross_street", Text, comment="cross street"),
    Column("postal_code", Text, comment="postal code"),
    Column("sources", Integer, nullable=False, comment="how many sources were found"),
    Column("attempts", Integer, nullable=False, comment="how many repairs were attempted"),
    Column("ended_on", Date, comment="day of the tight repair or other ending"),
    Column("ended_how", Text, comment="in which way it ended"),
    Column("ended_by_id", Id, comment="the ending that counts"),
    Column("joined_to_id", Id, comment="the leak under which it goes on, where it ended so"),
    Column("reopened_on", Date, comment="day on which it was last opened again"),
    Column("scheduled_since", Date, comment="day since which its repair is scheduled, where it is"),
    Column("scheduled_for", Date, comment="day for which its repair is scheduled, where one is said"),
    Column("waits_on", Text, comment="what the work waits on, where it waits"),
    Column("waits_since", Date, comment="day since which it waits"),
    Column("waits_until", Date, comment="day until which it waits, where one is said"),
    engine(),
    # a pattern's index, so that the beginning of a number is looked up in any database's order of texts
    Index(None, "number", unique=True, postgresql_ops={"number": "text_pattern_ops"}),
    Index(None, "reported_on", "id"),
    Index(None, "area_id", "reported_on", "id"),
    Index(None, "area_id", "status", "reported_on", "id"),
    Index(None, "status", "reported_on", "id"),
    Index(None, "grade_now", "reported_on", "id"),
    Index(None, "street_id", "reported_on", "id"),
    Index(None, "joined_to_id"),
    comment="a leak as it stands",
)

WORK = table(
    "work",
    "worked",
    Column("id", Id, primary_key=True, comment="the entry by which it was given"),
    Column("leak_id", Id, nullable=False, comment="its leak"),
    Column("work", Text, nullable=False, comment="what is to be done"),
    Column("crew_id", Id, comment="the crew that has it"),
    Column("person_id", Id, comment="the person who has it"),
    Column("named", Text, comment="who has it, where they are not on the books"),
    Column("given_on", Date, nullable=False, comment="legal day on which it was given"),
    Column("by_on", Date, comment="day by which it is to be done"),
    engine(),
    Index(None, "leak_id"),
    Index(None, "crew_id"),
    Index(None, "person_id"),
    comment="work on a leak that was given to somebody and is still to be done",
)

CALL = table(
    "call",
    "worked",
    Column("id", Id, primary_key=True, comment="the call"),
    Column("number", Text, nullable=False, comment="its number, for people"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("status", Text, nullable=False, comment="received, sent, on_way, on_site, ended, received_in_error"),
    Column("report", Text, nullable=False, comment="what was reported"),
    Column("received_on", Date, nullable=False, comment="legal day on which it was received"),
    Column("received_at", Moment, comment="moment, where the hour is known"),
    Column("sent_at", Moment, comment="when the first was sent, on the trip that counts"),
    Column("on_way_at", Moment, comment="when the first was on the way"),
    Column("on_site_at", Moment, comment="when the first was on site"),
    Column("ended_on", Date, comment="legal day of the outcome that counts"),
    Column("ended_at", Moment, comment="its moment, where the hour is known"),
    Column("outcome", Text, comment="how it came out"),
    Column("leak_id", Id, comment="the operator's leak that it opened or joined"),
    Column("same_as_id", Id, comment="the earlier call that it is the same as"),
    Column("crew_id", Id, comment="the crew that has it"),
    Column("person_id", Id, comment="the person who has it"),
    Column("named", Text, comment="who has it, where not on the books"),
    Column("reviewed", Boolean, nullable=False, comment="its outcome was accepted"),
    Column("house_number", Text, comment="house number"),
    Column("street_id", Id, comment="street"),
    Column("cross_street", Text, comment="cross street"),
    Column("postal_code", Text, comment="postal code"),
    engine(),
    Index(None, "number", unique=True, postgresql_ops={"number": "text_pattern_ops"}),
    Index(None, "received_on", "id"),
    Index(None, "area_id", "received_on", "id"),
    Index(None, "area_id", "status", "received_on", "id"),
    Index(None, "status", "received_on", "id"),
    Index(None, "report", "received_on", "id"),
    Index(None, "outcome", "received_on", "id"),
    Index(None, "street_id", "received_on", "id"),
    Index(None, "leak_id", "received_on", "id"),
    comment="a call as it stands",
)

WATCH = table(
    "watch",
    "worked",
    Column("leak_id", Id, primary_key=True, comment="the leak that is watched"),
    Column("entry_id", Id, nullable=False, comment="the entry that handed the watch over last"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("person_id", Id, comment="who has it"),
    Column("named", Text, comment="who has it, where not on the books"),
    Column("since_on", Date, nullable=False, comment="legal day since which"),
    Column("since_at", Moment, comment="moment since which, where the hour is known"),
    Column("next_reading_on", Date, comment="legal day by which the next reading is to be taken"),
    Column("next_reading_at", Moment, comment="its moment, where the hour is known"),
    engine(),
    Index(None, "area_id"),
    comment="who watches an open leak, as the last handing over says",
)

SOURCE = table(
    "source",
    "worked",
    Column("id", Id, primary_key=True, comment="the source"),
    Column("leak_id", Id, nullable=False, comment="its leak"),
    Column("number", Integer, nullable=False, comment="its number in the leak, in the order of happening"),
    Column("tight_on", Date, comment="day of the tight permanent attempt on it, where there is one"),
    Column("part", Text, comment="main, service or meter set, as it is known now"),
    Column("component", Text, comment="what leaks, as it is known now"),
    Column("material", Text, comment="material of the pipe, as it is known now"),
    Column("size", Text, comment="nominal size as typed, as it is known now"),
    Column("place_id", Id, comment="place on the books, as it is known now"),
    engine(),
    Index(None, "leak_id"),
    Index(None, "place_id"),
    comment="a source of a leak as it stands",
)

ATTEMPT = table(
    "attempt",
    "worked",
    Column("id", Id, primary_key=True, comment="the entry of the attempt"),
    Column("leak_id", Id, nullable=False, comment="its leak"),
    Column("source_id", Id, comment="its source, where one was named"),
    Column("number", Integer, nullable=False, comment="its number in the leak, in the order of happening"),
    Column("lasting", Text, nullable=False, comment="permanent or temporary"),
    Column("attempted_on", Date, nullable=False, comment="legal day"),
    Column("outcome", Text, nullable=False, comment="tight, not_tight, not_tested or cannot_say, after its tests"),
    Column("decided_by_id", Id, comment="the test that decides over it, where there is one"),
    Column("review", Text, nullable=False, comment="waiting, accepted or returned"),
    engine(),
    Index(None, "leak_id"),
    Index(None, "review", "attempted_on", "id"),
    comment="a repair attempt as it stands",
)

BAR_HOLE = table(
    "bar_hole",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the visit that first looked at it"),
    Column("key", Text, primary_key=True, comment="key of its place in that visit"),
    Column("leak_id", Id, nullable=False, comment="its leak"),
    Column("number", Integer, nullable=False, comment="its number in the leak, kept for good"),
    Column("label", Text, comment="the person's label"),
    engine(),
    Index(None, "leak_id"),
    comment="a bar hole as numbered",
)

GAP = table(
    "gap",
    "worked",
    Column("subject_id", Id, primary_key=True, comment="in whose record it is"),
    Column("code", Text, primary_key=True, comment="what does not hold up"),
    Column("entry_id", Id, primary_key=True, comment="the entry that it is about"),
    Column("row_key", Text, primary_key=True, comment="list.key of the row, or a field's path; empty for the entry"),
    Column("facts", Text, nullable=False, comment="the facts it rests on, canonical JSON"),
    Column("area_id", Id, comment="the area in whose record it is"),
    Column("happened_on", Date, comment="legal day of the entry that it is about"),
    Column("set_aside_by_id", Id, comment="the entry by which it was set aside, where it was"),
    engine(),
    Index(None, "code", "happened_on", "entry_id"),
    Index(None, "happened_on", "entry_id"),
    comment="what in the record does not hold up",
)

DIG = table(
    "dig",
    "worked",
    Column("id", Id, primary_key=True, comment="the dig"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("opened_on", Date, nullable=False, comment="legal day on which it was opened"),
    Column("status", Text, nullable=False, comment="open, backfilled, restored, opened_in_error"),
    Column("found", Text, comment="source, nothing (a dry hole) or other_pipe; none where nobody said yet"),
    Column("ticket", Text, comment="locate ticket"),
    Column("backfilled_on", Date, comment="legal day on which it was backfilled"),
    Column("owed", Integer, nullable=False, comment="restorations that are owed and not done"),
    Column("owed_by_on", Date, comment="the earliest day by which one of them is owed"),
    engine(),
    Index(None, "area_id", "status", "opened_on", "id"),
    Index(None, "owed_by_on", "id"),
    comment="a dig as it stands",
)

DIG_SERVES = table(
    "dig_serves",
    "worked",
    Column("dig_id", Id, primary_key=True, comment="the dig"),
    Column("leak_id", Id, primary_key=True, comment="a leak that it serves"),
    engine(),
    Index(None, "leak_id", "dig_id"),
    comment="which leaks a dig serves; a dig opened in error serves none",
)

PLACE = table(
    "place",
    "worked",
    Column("id", Id, primary_key=True, comment="the place"),
    Column("area_id", Id, nullable=False, comment="its area"),
    Column("what", Text, nullable=False, comment="service, main_segment, meter_set, structure, building"),
    Column("called", Text, comment="what it is called"),
    Column("house_number", Text, comment="house number"),
    Column("street", Text, comment="street"),
    Column("town", Text, comment="town"),
    Column("search_key", Text, nullable=False, comment="its name and address as they are looked up"),
    Column("retired_on", Date, comment="legal day on which it was retired"),
    Column("void", Boolean, nullable=False, comment="it was added in error"),
    engine(),
    Index(None, "area_id", "search_key"),
    comment="a place as it stands",
)

OUTSIDE_NUMBER = table(
    "outside_number",
    "worked",
    Column("subject_id", Id, primary_key=True, comment="what bears it"),
    Column("entry_id", Id, primary_key=True, comment="the entry that gave it"),
    Column("row_key", Text, primary_key=True, comment="list.key of the row, or a field's name; empty for the entry"),
    Column("what", Text, nullable=False, comment="kind of number: work order, call, premise, one-call ticket"),
    Column("number", Text, nullable=False, comment="the number as written"),
    Column("search_key", Text, nullable=False, comment="the number as it is looked up"),
    engine(),
    Index(None, "search_key"),
    comment="numbers that others know a subject by, from whichever entry",
)

MOVED = table(
    "moved",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the entry that says so"),
    Column("subject_id", Id, nullable=False, comment="what was moved"),
    Column("from_area_id", Id, nullable=False, comment="the area to which it answered before"),
    Column("to_area_id", Id, nullable=False, comment="the area to which it answered then"),
    Column("moved_on", Date, nullable=False, comment="legal day of the move"),
    Column("number", Integer, nullable=False, comment="its place among the moves of the subject, from 1"),
    Column("last", Boolean, nullable=False, comment="no move came after: it answers there now"),
    engine(),
    Index(None, "subject_id", "last"),
    Index(None, "from_area_id", "moved_on"),
    comment="moves of subjects from area to area; facts keep where each was opened",
)

STANDS_FOR = table(
    "stands_for",
    "worked",
    Column("kept_id", Id, primary_key=True, comment="the person, lot or other subject that is kept"),
    Column("other_id", Id, primary_key=True, comment="the other one, which is the same"),
    Column("entry_id", Id, nullable=False, comment="the entry that says so"),
    engine(),
    Index(None, "other_id"),
    comment="records of the same that were made one; facts keep what was said",
)

STREET_STANDS_FOR = table(
    "street_stands_for",
    "worked",
    Column("entry_id", Id, primary_key=True, comment="the entry that says so"),
    Column("area_id", Id, nullable=False, comment="the area in whose story it stands"),
    Column("kept_id", Id, nullable=False, comment="the street that is kept"),
    Column("kept_name", Text, nullable=False, comment="its name, and its town where one was said"),
    Column("other_id", Id, nullable=False, comment="the same street under another name"),
    engine(),
    Index(None, "kept_id"),
    Index(None, "other_id"),
    comment="streets that are the same under two names",
)
