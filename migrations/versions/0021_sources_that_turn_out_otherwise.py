"""What a source turned out to be since it was told first, and every source as it is known now; when a lot came in.

Revision: 0021
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0021"
down_revision = "0020"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    _what_it_turned_out_to_be()
    _as_it_is_known_now()
    _when_a_lot_came_in()


def _as_it_is_known_now() -> None:
    for name, kind, comment in (
        ("part", sa.Text(), "main, service or meter set, as it is known now"),
        ("component", sa.Text(), "what leaks, as it is known now"),
        ("material", sa.Text(), "material of the pipe, as it is known now"),
        ("size", sa.Text(), "nominal size as typed, as it is known now"),
        ("place_id", ID, "place on the books, as it is known now"),
    ):
        op.add_column("source", sa.Column(name, kind, comment=comment))
        told = f"SELECT source_added.{name} FROM source_added WHERE source_added.id = source.id"
        op.execute(f"UPDATE source SET {name} = ({told})")  # nothing was otherwise yet
    op.create_index("ix_source_place_id", "source", ["place_id"])
    op.drop_index("ix_source_added_place_id", "source_added")


def _when_a_lot_came_in() -> None:
    op.add_column("lot", sa.Column("received_on", sa.Date(), comment="day on which it came in, where that is known"))
    known = "SELECT entry.happened_on FROM entry WHERE entry.id = lot.id AND entry.happened_known IS NULL"
    op.execute(f"UPDATE lot SET received_on = ({known})")


def _what_it_turned_out_to_be() -> None:
    op.create_table(
        "source_changed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("source_id", ID, comment="which source"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("part", sa.Text(), comment="main, service or meter set, as typed"),
        sa.Column("component", sa.Text(), comment="what leaks: pipe, tee, coupling, valve, as typed"),
        sa.Column("material", sa.Text(), comment="material of the pipe, as typed"),
        sa.Column("size", sa.Text(), comment="nominal size, as typed"),
        sa.Column("size_mm", sa.Double(), comment="nominal size, in the unit of this column's name"),
        sa.Column("pressure", sa.Text(), comment="normal operating pressure, as typed"),
        sa.Column(
            "pressure_kpa_gauge", sa.Double(), comment="normal operating pressure, in the unit of this column's name"
        ),
        sa.Column("installed_year", sa.BigInteger(), comment="year of installation"),
        sa.Column(
            "installed_decade", sa.Text(), comment="decade of installation, where the year is not known, as typed"
        ),
        sa.Column("coating", sa.Text(), comment="coating, as typed"),
        sa.Column("protection", sa.Text(), comment="cathodic protection, as typed"),
        sa.Column("condition", sa.Text(), comment="condition of the pipe, as typed"),
        sa.Column("defect", sa.Text(), comment="what it is, as typed"),
        sa.Column("location", sa.Text(), comment="where, in words, as typed"),
        sa.Column("place_id", ID, comment="place on the books"),
        sa.Column("how_known", sa.Text(), comment="how it is known, as typed"),
        sa.Column("seen_in_dig_id", ID, comment="the dig in which it was seen"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_source_changed"),
        comment="a source turns out to be otherwise than it was told",
    )
    op.create_table(
        "source_changed_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_source_changed_kept_as_text"),
        comment="a source turns out to be otherwise than it was told: measures that could not be read and that the person wants kept as written",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
