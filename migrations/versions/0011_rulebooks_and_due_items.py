"""Rulebooks adopted and confirmed, their texts kept by digest, working days, and what is owed by which day.

Revision: 0011
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")
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
    _items()
    _missing()
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


def _items() -> None:
    op.create_table(
        "due_item",
        sa.Column("subject_id", ID, nullable=False, comment="the leak or dig that owes it"),
        sa.Column(
            "adopted_id", ID, nullable=False, comment="the adoption by which it is owed; of a restoration, its entry"
        ),
        sa.Column(
            "rule", sa.Text(), nullable=False, comment="id of the rule that asks for it; empty for a restoration"
        ),
        sa.Column("graded_id", ID, nullable=False, comment="the entry that set its grade; else what opened it"),
        sa.Column("counted_id", ID, nullable=False, comment="the entry from which it is counted"),
        sa.Column("leak_id", ID, comment="the leak; of a dig, the first that it serves"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column(
            "task", sa.Text(), nullable=False, comment="what is owed: act, repair, re_evaluate, follow_up, restore ..."
        ),
        sa.Column("grade", sa.Text(), comment="grade for which it is owed"),
        sa.Column("rank", sa.BigInteger(), comment="rank of that grade; 1 is the most hazardous"),
        sa.Column("clause", sa.Text(), comment="clause that asks for it"),
        sa.Column(
            "mark", sa.Text(), comment="how far the clause is known: text_checked, restated, memory, common_practice"
        ),
        sa.Column(
            "firm",
            sa.Boolean(),
            nullable=False,
            comment="whether its day is a limit; else it is proposed, and never late",
        ),
        sa.Column(
            "counted_from",
            sa.Text(),
            nullable=False,
            comment="from what it is counted: reported, graded, looked_at ...",
        ),
        sa.Column("counted_on", sa.Date(), nullable=False, comment="legal day of that"),
        sa.Column("governed_by", sa.Text(), comment="the bound of its interval that decided"),
        sa.Column("due_on", sa.Date(), nullable=False, comment="the last day in time"),
        sa.Column("due_at", MOMENT, comment="the last moment, where it is owed in hours"),
        sa.Column("not_before", sa.Date(), comment="the first day in time, where there is a window"),
        sa.Column("target_on", sa.Date(), comment="the operator's own earlier day"),
        sa.Column(
            "until", sa.Text(), nullable=False, comment="what ends it: made_safe, repaired, no_reading, done_once ..."
        ),
        sa.Column(
            "from_on", sa.Date(), comment="first day on which this is what is owed, where another rulebook holds before"
        ),
        sa.Column("until_on", sa.Date(), comment="last day, where another rulebook follows"),
        sa.Column("settled_on", sa.Date(), comment="day on which it was settled; none while it is owed"),
        sa.Column(
            "settled_by", sa.Text(), comment="by what: repaired, ended, joined, looked_at, done, graded_anew ..."
        ),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("subject_id", "adopted_id", "rule", "graded_id", "counted_id", name="pk_due_item"),
        comment="what is owed of a leak or a dig by which day, and by what it was settled",
    )
    op.create_index("ix_due_item_settled_on_due_on_subject_id", "due_item", ["settled_on", "due_on", "subject_id"])
    op.create_index("ix_due_item_leak_id", "due_item", ["leak_id"])
    op.create_index("ix_due_item_area_id_settled_on_due_on", "due_item", ["area_id", "settled_on", "due_on"])


def _missing() -> None:
    op.create_table(
        "due_missing",
        sa.Column("subject_id", ID, nullable=False, comment="the leak or dig"),
        sa.Column(
            "adopted_id", ID, nullable=False, comment="the adoption by which it is owed; of a restoration, its entry"
        ),
        sa.Column("why", sa.Text(), nullable=False, comment="rule_gap, day_not_known, not_countable, no_day ..."),
        sa.Column(
            "grade", sa.Text(), nullable=False, comment="grade for which it would be owed; empty for a restoration"
        ),
        sa.Column("task", sa.Text(), nullable=False, comment="what would be owed; empty where nothing can be said"),
        sa.Column("rule", sa.Text(), nullable=False, comment="id of the rule or gap; empty where it is none"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("fill_in", sa.Text(), comment="what the operator must fill in"),
        sa.Column("from_on", sa.Date(), comment="first day on which this holds, where another rulebook holds before"),
        sa.Column("until_on", sa.Date(), comment="last day, where another rulebook follows"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("subject_id", "adopted_id", "why", "grade", "task", "rule", name="pk_due_missing"),
        comment="what would be owed of a leak or a dig and has no day, and why",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
