"""Who sent which file.

Revision: 0009
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    op.create_table(
        "blob",
        sa.Column("digest", sa.Text(), nullable=False, comment="SHA-256 of the file, hexadecimal"),
        sa.Column("person_id", ID, nullable=False, comment="who sent it"),
        sa.Column("length", sa.BigInteger(), nullable=False, comment="its bytes"),
        sa.Column("media_type", sa.Text(), nullable=False, comment="what it is, as its content says"),
        sa.Column("came_at", MOMENT, nullable=False, comment="when it came last"),
        sa.PrimaryKeyConstraint("digest", "person_id", name="pk_blob"),
        comment="files that came, by whom: one that no entry names is seen by them alone, and goes after 90 days",
    )
    op.create_index("ix_blob_came_at", "blob", ["came_at"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
