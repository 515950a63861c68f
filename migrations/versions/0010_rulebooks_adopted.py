"""Rulebooks adopted and confirmed, their texts kept by digest, and the calendar of an area's working days.

Revision: 0010
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")

ON_SQLITE = (
    """CREATE TRIGGER rulebook_text_no_update BEFORE UPDATE ON rulebook_text
BEGIN SELECT RAISE(ABORT, 'the text of a rulebook stays as it was adopted'); END""",
    """CREATE TRIGGER rulebook_text_no_delete BEFORE DELETE ON rulebook_text
BEGIN SELECT RAISE(ABORT, 'the text of a rulebook stays as it was adopted'); END""",
    """CREATE TRIGGER rulebook_text_once BEFORE INSERT ON rulebook_text
WHEN EXISTS (SELECT 1 FROM rulebook_text WHERE digest = NEW.digest OR rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'the text of a rulebook stays as it was adopted'); END""",
)

ON_POSTGRESQL = (
    """CREATE FUNCTION rulebook_text_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION 'the text of a rulebook stays as it was adopted' USING ERRCODE = 'integrity_constraint_violation'; END $$""",
    """CREATE TRIGGER rulebook_text_no_change BEFORE UPDATE OR DELETE ON rulebook_text
FOR EACH ROW EXECUTE FUNCTION rulebook_text_refuse()""",
    """CREATE TRIGGER rulebook_text_no_truncate BEFORE TRUNCATE ON rulebook_text
FOR EACH STATEMENT EXECUTE FUNCTION rulebook_text_refuse()""",
)


def upgrade() -> None:
    _texts()
    _entries()
    for column in (
        sa.Column("calendar", sa.Text(), comment="calendar of its working days, such as US-NY"),
        sa.Column(
            "adoptions", sa.Text(), comment="rulebooks adopted: list of first day, last day, id, digest, entry; JSON"
        ),
        sa.Column("confirmed", sa.Text(), comment="rules confirmed: by digest, the day of each rule; JSON"),
    ):
        op.add_column("area", column)


def _texts() -> None:
    op.create_table(
        "rulebook_text",
        sa.Column("digest", sa.Text(), nullable=False, comment="digest of the rulebook, SHA-256, hexadecimal"),
        sa.Column("id", sa.Text(), nullable=False, comment="its id"),
        sa.Column("title", sa.Text(), nullable=False, comment="its title"),
        sa.Column("text", sa.Text(), nullable=False, comment="its text, as it was read"),
        sa.Column(
            "extends",
            sa.Text(),
            nullable=False,
            comment="digests of those it extends, in its order, a blank between them",
        ),
        sa.PrimaryKeyConstraint("digest", name="pk_rulebook_text"),
        comment="texts of the rulebooks that entries name, so that they can be opened whatever becomes of the files",
    )
    for statement in ON_SQLITE if op.get_bind().dialect.name == "sqlite" else ON_POSTGRESQL:
        op.execute(statement)


def _entries() -> None:
    op.create_table(
        "rulebook_adopted",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("rulebook", sa.Text(), comment="rulebook, by its id, as typed"),
        sa.Column("digest", sa.Text(), comment="digest of the rulebook that is meant, as typed"),
        sa.Column("from_on", sa.Date(), comment="first day on which it holds in the area"),
        sa.Column(
            "although_proposed", sa.Text(), comment="said where the rulebook is a proposal and not in force, as typed"
        ),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_rulebook_adopted"),
        comment="an area adopts a rulebook",
    )
    op.create_table(
        "rule_confirmed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("rulebook", sa.Text(), comment="rulebook, by its id, as typed"),
        sa.Column("digest", sa.Text(), comment="digest of the rulebook that is meant, as typed"),
        sa.Column("rule", sa.Text(), comment="rule, by its id, as typed"),
        sa.Column(
            "document",
            sa.Text(),
            comment="document that was read, such as the operator's manual and its revision, as typed",
        ),
        sa.Column("page", sa.Text(), comment="page or section, as typed"),
        sa.Column("remark", sa.Text(), comment="remark, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_rule_confirmed"),
        comment="a rule is confirmed with the text in hand",
    )
    op.create_table(
        "working_days_set",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column(
            "calendar",
            sa.Text(),
            comment="country, or country and part of it, whose public holidays count: US, US-NY, as typed",
        ),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_working_days_set"),
        comment="the calendar of an area's working days is set",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
