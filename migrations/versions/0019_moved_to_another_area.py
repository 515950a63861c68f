"""Subjects that move to another area: what was said of it, and the area that each answers to now.

Revision: 0019
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0019"
down_revision = "0018"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    op.create_table(
        "subject_moved",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what is moved"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("to_area_id", ID, comment="the area to which it goes"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_subject_moved"),
        comment="it is moved to another area",
    )
    op.create_table(
        "moved",
        sa.Column("entry_id", ID, nullable=False, comment="the entry that says so"),
        sa.Column("subject_id", ID, nullable=False, comment="what was moved"),
        sa.Column("from_area_id", ID, nullable=False, comment="the area to which it answered before"),
        sa.Column("to_area_id", ID, nullable=False, comment="the area to which it answered then"),
        sa.Column("moved_on", sa.Date(), nullable=False, comment="legal day of the move"),
        sa.Column("number", sa.Integer(), nullable=False, comment="its place among the moves of the subject, from 1"),
        sa.Column("last", sa.Boolean(), nullable=False, comment="no move came after: it answers there now"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", name="pk_moved"),
        comment="moves of subjects from area to area; facts keep where each was opened",
    )
    op.create_index("ix_moved_subject_id_last", "moved", ["subject_id", "last"])
    op.create_index("ix_moved_from_area_id_moved_on", "moved", ["from_area_id", "moved_on"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
