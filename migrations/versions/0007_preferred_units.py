"""The units in which a person likes to see measures.

Revision: 0007
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    op.create_table(
        "preferred_unit",
        sa.Column("person_id", ID, nullable=False, comment="who likes it"),
        sa.Column("quantity", sa.Text(), nullable=False, comment="of what: pressure, temperature"),
        sa.Column("unit", sa.Text(), nullable=False, comment="the unit, as people write it"),
        sa.PrimaryKeyConstraint("person_id", "quantity", name="pk_preferred_unit"),
        comment="the units in which a person likes to see measures beside what was typed",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
