"""What inspectors look at.

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
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    op.create_table(
        "looked_at",
        sa.Column("id", ID, nullable=False, comment="the line of the list"),
        sa.Column("person_id", ID, nullable=False, comment="who looked"),
        sa.Column("at", MOMENT, nullable=False, comment="when"),
        sa.Column("page", sa.Text(), nullable=False, comment="at which page of ours"),
        sa.Column("address", sa.Text(), nullable=False, comment="its whole address, with what was asked for"),
        sa.Column("subject_id", ID, comment="the leak or call that it is about, where it is about one"),
        sa.PrimaryKeyConstraint("id", name="pk_looked_at"),
        comment="what inspectors were shown; never taken away",
    )
    op.create_index("ix_looked_at_at_id", "looked_at", ["at", "id"])
    op.create_index("ix_looked_at_person_id_at_id", "looked_at", ["person_id", "at", "id"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
