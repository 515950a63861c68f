"""What is owed of leaks and digs by which day.

Revision: 0011
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    _items()
    _missing()


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
