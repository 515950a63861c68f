"""Beside: what is no entry and never sealed. It comes back from a backup alone; each table has its own life."""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, Date, ForeignKeyConstraint, Index, Integer, LargeBinary, Text

from repairlog.records.columns import Id, Moment
from repairlog.records.tables.metadata import table

PRIVATE_VALUE = table(
    "private_value",
    "beside",
    Column("entry_id", Id, primary_key=True, comment="the entry that gave it"),
    Column("path", Text, primary_key=True, comment="where in the entry"),
    Column("digest", Text, nullable=False, comment="SHA-256(salt || value), as sealed"),
    Column("salt", LargeBinary(32), comment="its salt; none once the value is removed"),
    Column("value", Text, comment="the value; none once it is removed"),
    Column("removed_on", Date, comment="the day on which it was removed"),
    Column("removed_because", Text, comment="why it was removed"),
    Index(None, "digest"),
    comment="personal data that must be able to go",
)

UNFINISHED = table(
    "unfinished",
    "beside",
    Column("id", Id, primary_key=True, comment="the id of the first entry in it"),
    Column("person_id", Id, primary_key=True, comment="whose it is"),
    Column("because", Text, nullable=False, comment="not_understood, refused, waits, conflict, left"),
    Column("form", Text, nullable=False, comment="which form, or entries for a call of the API"),
    Column("raw", Text, nullable=False, comment="what was typed, as JSON"),
    Column("kept_at", Moment, nullable=False, comment="when it was kept"),
    Column("actor", Text, comment="who sent it and how sure, as JSON, where it is tried again by itself"),
    Column("sent_back_by_id", Id, comment="the supervisor who sent it back to whoever typed it"),
    Column("word", Text, comment="what the supervisor said about it"),
    Index(None, "person_id"),
    comment="what is typed and not yet saved, kept 90 days",
)

WAITS_FOR = table(
    "waits_for",
    "beside",
    Column("unfinished_id", Id, primary_key=True, comment="what waits"),
    Column("person_id", Id, primary_key=True, comment="whose it is"),
    Column("id", Id, primary_key=True, comment="the subject or entry it waits for"),
    ForeignKeyConstraint(["unfinished_id", "person_id"], ["unfinished.id", "unfinished.person_id"], ondelete="CASCADE"),
    Index(None, "id"),
    comment="what an unfinished call waits for",
)

STALE = table(
    "stale",
    "beside",
    Column("subject_id", Id, primary_key=True, comment="the subject whose worked rows wait to be worked out again"),
    Column("stale_since", Moment, nullable=False, comment="since when"),
    Column("because_id", Id, nullable=False, comment="the entry that changed what they rest on"),
    comment="subjects whose worked rows are stale: too many for one commit",
)

PREFERRED_UNIT = table(
    "preferred_unit",
    "beside",
    Column("person_id", Id, primary_key=True, comment="who likes it"),
    Column("quantity", Text, primary_key=True, comment="of what: pressure, temperature"),
    Column("unit", Text, nullable=False, comment="the unit, as people write it"),
    comment="the units in which a person likes to see measures beside what was typed",
)

SIGN_IN = table(
    "sign_in",
    "beside",
    Column("person_id", Id, primary_key=True, comment="whose it is; most people have none"),
    Column("name", Text, nullable=False, comment="name as it is shown"),
    Column("search_name", Text, nullable=False, comment="name as it is looked up"),
    Column("password_hash", Text, nullable=False, comment="Argon2id, with its salt and cost"),
    Column("made_at", Moment, nullable=False, comment="when it was made"),
    Column("closed_at", Moment, comment="when it was closed for good"),
    Index(None, "search_name", unique=True),
    comment="who may sign in with a name and a password",
)

SESSION = table(
    "session",
    "beside",
    Column("digest", LargeBinary(32), primary_key=True, comment="SHA-256 of what the browser holds"),
    Column("person_id", Id, nullable=False, comment="whose it is"),
    Column("began_at", Moment, nullable=False, comment="when the person signed in"),
    Column("seen_at", Moment, nullable=False, comment="when it was last used, to some minutes"),
    Column("device", Text, comment="browser and system, as the browser names them"),
    Index(None, "person_id"),
    comment="who is signed in; gone when the person signs out, or after a time",
)

TOKEN = table(
    "token",
    "beside",
    Column("digest", LargeBinary(32), primary_key=True, comment="SHA-256 of what the program holds"),
    Column("person_id", Id, nullable=False, comment="in whose name it sends"),
    Column("what", Text, nullable=False, comment="what it is for"),
    Column("made_at", Moment, nullable=False, comment="when it was made"),
    Column("closed_at", Moment, comment="when it was closed for good"),
    Index(None, "person_id"),
    comment="what programs show when they post entries",
)

FAILED_SIGN_IN = table(
    "failed_sign_in",
    "beside",
    Column("key", Text, primary_key=True, comment="digest of what is counted: a name, an address, or both together"),
    Column("failures", Integer, nullable=False, comment="failures in a row"),
    Column("last_at", Moment, nullable=False, comment="when the last one was"),
    comment="how often signing in failed, so that guessing gets slower; survives a restart",
)

SECRET = table(
    "secret",
    "beside",
    Column("name", Text, primary_key=True, comment="what it is for"),
    Column("value", LargeBinary, nullable=False, comment="chance, never shown"),
    comment="secrets of this book: every process that serves it signs with the same",
)

BLOB = table(
    "blob",
    "beside",
    Column("digest", Text, primary_key=True, comment="SHA-256 of the file, hexadecimal"),
    Column("person_id", Id, primary_key=True, comment="who sent it"),
    Column("length", BigInteger, nullable=False, comment="its bytes"),
    Column("media_type", Text, nullable=False, comment="what it is, as its content says"),
    Column("came_at", Moment, nullable=False, comment="when it came last"),
    Index(None, "came_at"),
    comment="files that came, by whom: one that no entry names is seen by them alone, and goes after 90 days",
)

LOOKED_AT = table(
    "looked_at",
    "beside",
    Column("id", Id, primary_key=True, comment="the line of the list"),
    Column("person_id", Id, nullable=False, comment="who looked"),
    Column("at", Moment, nullable=False, comment="when"),
    Column("page", Text, nullable=False, comment="at which page of ours"),
    Column("address", Text, nullable=False, comment="its whole address, with what was asked for"),
    Column("subject_id", Id, comment="the leak or call that it is about, where it is about one"),
    Index(None, "at", "id"),
    Index(None, "person_id", "at", "id"),
    comment="what inspectors were shown; never taken away",
)
