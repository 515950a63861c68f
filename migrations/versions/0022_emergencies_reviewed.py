"""What people did in an emergency, reviewed afterwards.

Revision: 0022
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0022"
down_revision = "0021"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    op.create_table(
        "emergency_reviewed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column(
            "procedures",
            sa.Text(),
            comment="whether the emergency procedures were effectively followed, as typed",
        ),
        sa.Column("found", sa.Text(), comment="what was found, as typed"),
        sa.Column("changed", sa.Text(), comment="what is changed because of it, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_emergency_reviewed"),
        comment="what people did in the emergency is reviewed",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
