"""Shelves and what happens to lots in stores.

Revision: 0012
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    _tables()
    _lot()


def _tables() -> None:
    op.create_table(
        "shelf_made",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("name", sa.Text(), comment="what it is called, as typed"),
        sa.Column("what", sa.Text(), comment="where it is, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_shelf_made"),
        comment="a shelf is named where material lies",
    )
    op.create_table(
        "lot_moved",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("shelf_id", ID, comment="to which shelf or truck"),
        sa.Column("named", sa.Text(), comment="to where, where that is not on the books, as typed"),
        sa.Column("amount", sa.Text(), comment="how much, as counted; the whole lot where left out, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_moved"),
        comment="material of a lot is moved",
    )
    op.create_table(
        "lot_counted",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("amount", sa.Text(), comment="how much, as counted, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else was seen, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_counted"),
        comment="a lot is counted",
    )
    op.create_table(
        "lot_used",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("amount", sa.Text(), comment="how much, as counted, as typed"),
        sa.Column("used_for", sa.Text(), comment="what for, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_used"),
        comment="material of a lot is used otherwise than in a repair",
    )
    op.create_table(
        "lot_quarantined",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_quarantined"),
        comment="a lot is quarantined",
    )
    op.create_table(
        "lot_released",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_released"),
        comment="a lot is released from quarantine",
    )
    op.create_table(
        "lot_scrapped",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("amount", sa.Text(), comment="how much, as counted; the whole lot where left out, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_scrapped"),
        comment="material of a lot is scrapped",
    )


def _lot() -> None:
    op.add_column("lot", sa.Column("status", sa.Text(), comment="in_stock, quarantined, used_up, scrapped"))
    op.add_column(
        "lot",
        sa.Column(
            "lies_at", sa.Text(), comment="where the whole of it was last brought, where that is not on the books"
        ),
    )
    op.add_column(
        "lot", sa.Column("shelf_id", ID, comment="the shelf or truck to which the whole of it was last brought")
    )
    op.add_column(
        "lot", sa.Column("quarantined", sa.Text(), comment="from when until when it was quarantined, canonical JSON")
    )
    op.add_column("lot", sa.Column("scrapped_on", sa.Date(), comment="day on which the whole of it was scrapped"))
    op.create_index("ix_lot_area_id_expires_on_id", "lot", ["area_id", "expires_on", "id"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
