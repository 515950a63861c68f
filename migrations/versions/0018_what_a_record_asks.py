"""How warm it is where material lies; fields of leaks, calls, sources, digs, tests and briefings that somebody asks for.

Revision: 0018
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0018"
down_revision = "0017"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    _tables_1()
    _columns_1()


def _tables_1() -> None:
    op.create_table(
        "temperature_logged",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="shelf or truck"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("temperature", sa.Text(), comment="how warm it is, as typed"),
        sa.Column("temperature_degc", sa.Double(), comment="how warm it is, in the unit of this column's name"),
        sa.Column("lowest", sa.Text(), comment="coldest since it was last read, as typed"),
        sa.Column(
            "lowest_degc", sa.Double(), comment="coldest since it was last read, in the unit of this column's name"
        ),
        sa.Column("highest", sa.Text(), comment="warmest since it was last read, as typed"),
        sa.Column(
            "highest_degc", sa.Double(), comment="warmest since it was last read, in the unit of this column's name"
        ),
        sa.Column("instrument", sa.Text(), comment="thermometer, as marked, as typed"),
        sa.Column("instrument_used_id", ID, comment="thermometer, where it is on the books"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_temperature_logged"),
        comment="the temperature where material lies is logged",
    )
    op.create_table(
        "temperature_logged_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_temperature_logged_kept_as_text"),
        comment="the temperature where material lies is logged: measures that could not be read and that the person "
        "wants kept as written",
    )


def _columns_1() -> None:
    for table, name, comment in (
        ("briefing_given", "atmosphere", "gas or vapor in the excavation, as read before anybody went in, as typed"),
        ("briefing_given", "rescue_gear", "rescue gear at hand, as typed"),
        ("briefing_given", "extinguisher", "fire extinguisher at hand, as typed"),
        ("briefing_given", "ignition_sources_out", "sources of ignition taken away, as typed"),
        (
            "call_received",
            "caller_address_digest",
            "address of the caller, where another: salted digest; the value stands beside",
        ),
        ("leak_opened", "coordinates", "latitude and longitude, as a map or device says them, as typed"),
        (
            "leak_opened",
            "reporter_address_digest",
            "address of that person: salted digest; the value stands beside",
        ),
        ("pipe_exposed", "nominal_wall", "nominal wall of the pipe, as typed"),
        ("place_added", "coordinates", "latitude and longitude, as a map or device says them, as typed"),
        ("source_added", "installed_decade", "decade of installation, where the year is not known, as typed"),
        ("tested", "leaks_found", "leaks that it showed, and what was done about them, as typed"),
    ):
        op.add_column(table, sa.Column(name, sa.Text(), comment=comment))
    op.add_column(
        "pipe_exposed",
        sa.Column(
            "nominal_wall_mm", sa.Double(), comment="nominal wall of the pipe, in the unit of this column's name"
        ),
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
