"""Notes.

Revision: 0002
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    op.create_table(
        "note",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what the note is on"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("text", sa.Text(), comment="what is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_note"),
        comment="a note is added",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
