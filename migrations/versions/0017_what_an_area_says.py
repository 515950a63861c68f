"""How soon an area's entries are to be typed, who accepts whose work there; what was keyed from paper; what was sent
back.

Revision: 0017
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    _tables_1()
    _columns_1()


def _tables_1() -> None:
    op.create_table(
        "own_acceptance_said",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("accepts", sa.Text(), comment="whoever did the work may accept it, too, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_own_acceptance_said"),
        comment="whether somebody accepts their own work here is said once",
    )
    op.create_table(
        "typing_time_set",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("hours", sa.BigInteger(), comment="hours after the work until which nothing is raised"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_typing_time_set"),
        comment="how long after the work an entry may be typed is set",
    )


def _columns_1() -> None:
    op.add_column(
        "area",
        sa.Column("typing_hours", sa.BigInteger(), comment="hours after the work until which an entry may be typed"),
    )
    op.add_column(
        "area",
        sa.Column(
            "own_acceptance", sa.Boolean(), comment="whoever did the work may accept it here; none where nobody said"
        ),
    )
    op.add_column("entry", sa.Column("typed_from", sa.Text(), comment="paper where it was written there first"))
    op.add_column(
        "unfinished", sa.Column("sent_back_by_id", ID, comment="the supervisor who sent it back to whoever typed it")
    )
    op.add_column("unfinished", sa.Column("word", sa.Text(), comment="what the supervisor said about it"))


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
