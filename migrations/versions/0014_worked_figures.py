"""Worked figures that are kept.

Revision: 0014
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    op.create_table(
        "figure_kept",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what it was worked out for"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("figure", sa.Text(), comment="which figure, as typed"),
        sa.Column("called", sa.Text(), comment="what the figure is called, as typed"),
        sa.Column("from_entry_id", ID, comment="the entry whose values went into it"),
        sa.Column("formula", sa.Text(), comment="formula, as typed"),
        sa.Column("formula_source", sa.Text(), comment="source of the formula, as typed"),
        sa.Column("figure_version", sa.Text(), comment="version of the arithmetic, as typed"),
        sa.Column("remarks", sa.Text(), comment="what it is kept for, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_figure_kept"),
        comment="a worked figure is kept",
    )
    op.create_table(
        "figure_kept_inputs",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("name", sa.Text(), comment="name of the input, as typed"),
        sa.Column("label", sa.Text(), comment="what the input is called, as typed"),
        sa.Column("typed", sa.Text(), comment="as it was typed; without it the usual value was taken, as typed"),
        sa.Column("heard", sa.Text(), comment="as it was understood, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_figure_kept_inputs"),
        comment="a worked figure is kept: what went into it",
    )
    op.create_table(
        "figure_kept_results",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("name", sa.Text(), comment="name of the result, with its unit, as typed"),
        sa.Column("label", sa.Text(), comment="what the result is called, as typed"),
        sa.Column("value", sa.Text(), comment="value, a decimal number or a word, as typed"),
        sa.Column("unit", sa.Text(), comment="unit, as typed"),
        sa.Column("shown", sa.Text(), comment="as a person was shown it, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_figure_kept_results"),
        comment="a worked figure is kept: what came out of it",
    )
    op.create_table(
        "figure_kept_holds_for",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("text", sa.Text(), comment="bound, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_figure_kept_holds_for"),
        comment="a worked figure is kept: bounds within which it holds",
    )
    op.create_table(
        "figure_kept_cautions",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("text", sa.Text(), comment="caution, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_figure_kept_cautions"),
        comment="a worked figure is kept: cautions that stood under it",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
