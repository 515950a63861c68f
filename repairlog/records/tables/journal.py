"""The journal: sealed lines and the head of their tree. Nothing here is ever changed; triggers see to it."""

from __future__ import annotations

from sqlalchemy import BigInteger, CheckConstraint, Column, LargeBinary, SmallInteger, Text, UniqueConstraint

from repairlog.records.columns import Id
from repairlog.records.tables.metadata import table

JOURNAL = table(
    "journal",
    "journal",
    Column("journal_index", BigInteger, primary_key=True, autoincrement=False, comment="place in the journal, from 0"),
    Column("id", Id, nullable=False, comment="the entry's id, as in its line"),
    Column("line", LargeBinary, nullable=False, comment="the sealed line, canonical JSON, byte for byte"),
    Column("leaf", LargeBinary(32), nullable=False, comment="SHA-256(00 || line), RFC 9162"),
    UniqueConstraint("id"),
    comment="sealed lines in the order in which they were posted",
)

HEAD = table(
    "head",
    "journal",
    Column("only", SmallInteger, primary_key=True, autoincrement=False, comment="always 1"),
    Column("size", BigInteger, nullable=False, comment="lines in the journal"),
    Column("peaks", LargeBinary, nullable=False, comment="roots of the full subtrees, largest first"),
    Column("root", LargeBinary(32), nullable=False, comment="root of the tree, RFC 9162"),
    CheckConstraint('"only" = 1', name="only"),  # a reserved word on PostgreSQL
    comment="the head of the tree: one row, locked last by every post",
)

RULEBOOK_TEXT = table(
    "rulebook_text",
    "journal",
    Column("digest", Text, primary_key=True, comment="digest of the rulebook, SHA-256, hexadecimal"),
    Column("id", Text, nullable=False, comment="its id"),
    Column("title", Text, nullable=False, comment="its title"),
    Column("text", Text, nullable=False, comment="its text, as it was read"),
    Column("extends", Text, nullable=False, comment="digests of those it extends, in its order, a blank between them"),
    comment="texts of the rulebooks that entries name, so that they can be opened whatever becomes of the files",
)
