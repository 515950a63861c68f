"""Digs, places, outside numbers from anywhere, links, records made one, and what is attached.

Revision: 0005
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    op.add_column("source_added", sa.Column("place_id", ID, comment="place on the books"))
    op.create_index("ix_source_added_place_id", "source_added", ["place_id"])
    op.drop_index("ix_leak_opened_outside_numbers_number", table_name="leak_opened_outside_numbers")
    _digs()
    _exposed()
    _after_digs()
    _places()
    _ties()
    _attached()
    _worked_digs()
    _worked_ties()


def _digs() -> None:
    op.create_table(
        "dig_opened",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("ticket", sa.Text(), comment="locate ticket: its number, as typed"),
        sa.Column("ticket_from", sa.Text(), comment="first moment at which the ticket lets you dig, as typed"),
        sa.Column("ticket_from_on", sa.Date(), comment="first moment at which the ticket lets you dig: legal day"),
        sa.Column(
            "ticket_from_at",
            MOMENT,
            comment="first moment at which the ticket lets you dig: moment, where the hour is known",
        ),
        sa.Column("ticket_until", sa.Text(), comment="last moment at which the ticket lets you dig, as typed"),
        sa.Column("ticket_until_on", sa.Date(), comment="last moment at which the ticket lets you dig: legal day"),
        sa.Column(
            "ticket_until_at",
            MOMENT,
            comment="last moment at which the ticket lets you dig: moment, where the hour is known",
        ),
        sa.Column("permit", sa.Text(), comment="permit: its number, as typed"),
        sa.Column("location", sa.Text(), comment="where, in words, as typed"),
        sa.Column("surface", sa.Text(), comment="what covers the ground, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_dig_opened"),
        comment="a dig is opened",
    )
    op.create_table(
        "dig_opened_leaks",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_dig_opened_leaks"),
        comment="a dig is opened: leaks that it serves",
    )
    op.create_table(
        "dig_opened_ties",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("from_what", sa.Text(), comment="from what: a corner, a pole, a valve, as typed"),
        sa.Column("distance", sa.Text(), comment="distance, as typed"),
        sa.Column("distance_m", sa.Double(), comment="distance, in the unit of this column's name"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_dig_opened_ties"),
        comment="a dig is opened: measured ties: how far from what",
    )
    op.create_table(
        "dig_opened_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_dig_opened_kept_as_text"),
        comment="a dig is opened: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "dig_found",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("dig_id", ID, comment="dig"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("found", sa.Text(), comment="what was found, as typed"),
        sa.Column("source_id", ID, comment="which source"),
        sa.Column("depth", sa.Text(), comment="depth of the dig, as typed"),
        sa.Column("depth_m", sa.Double(), comment="depth of the dig, in the unit of this column's name"),
        sa.Column("cover", sa.Text(), comment="cover over the pipe, as typed"),
        sa.Column("cover_m", sa.Double(), comment="cover over the pipe, in the unit of this column's name"),
        sa.Column("soil", sa.Text(), comment="soil, as typed"),
        sa.Column("water", sa.Text(), comment="water in the dig, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else was seen, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_dig_found"),
        comment="what a dig found is said",
    )
    op.create_table(
        "dig_found_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_dig_found_kept_as_text"),
        comment="what a dig found is said: measures that could not be read and that the person wants kept as written",
    )


def _exposed() -> None:
    op.create_table(
        "pipe_exposed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("dig_id", ID, comment="dig"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("source_id", ID, comment="the pipe of which source"),
        sa.Column("pipe", sa.Text(), comment="which pipe, in words, where it is that of no source, as typed"),
        sa.Column("outside", sa.Text(), comment="bare or coated, as typed"),
        sa.Column("coating", sa.Text(), comment="kind of coating, as typed"),
        sa.Column("coating_state", sa.Text(), comment="coating as found, as typed"),
        sa.Column("corrosion_outside", sa.Text(), comment="corrosion outside, as typed"),
        sa.Column("searched", sa.Text(), comment="how far the search for corrosion went, as typed"),
        sa.Column("cut_out", sa.Text(), comment="was pipe cut out, as typed"),
        sa.Column("corrosion_inside", sa.Text(), comment="corrosion inside, as typed"),
        sa.Column("deepest_pit", sa.Text(), comment="deepest pit, as typed"),
        sa.Column("deepest_pit_mm", sa.Double(), comment="deepest pit, in the unit of this column's name"),
        sa.Column("wall_left", sa.Text(), comment="wall that is left, as typed"),
        sa.Column("wall_left_mm", sa.Double(), comment="wall that is left, in the unit of this column's name"),
        sa.Column("joint_sealed", sa.Text(), comment="was a joint sealed, as typed"),
        sa.Column("anode_installed", sa.Text(), comment="was an anode installed, as typed"),
        sa.Column("potential_before", sa.Text(), comment="pipe-to-soil before, with its unit and reference, as typed"),
        sa.Column("potential_after", sa.Text(), comment="pipe-to-soil after, with its unit and reference, as typed"),
        sa.Column("tracer_wire", sa.Text(), comment="tracer wire, as typed"),
        sa.Column("part_kept", sa.Text(), comment="part kept for the laboratory: its tag, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else was seen, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_pipe_exposed"),
        comment="an exposed pipe is looked at",
    )
    op.create_table(
        "pipe_exposed_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_pipe_exposed_kept_as_text"),
        comment="an exposed pipe is looked at: measures that could not be read and that the person wants kept as written",
    )


def _after_digs() -> None:
    op.create_table(
        "dig_backfilled",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("dig_id", ID, comment="dig"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("material", sa.Text(), comment="with what, as typed"),
        sa.Column("compaction", sa.Text(), comment="how it was compacted, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_dig_backfilled"),
        comment="a dig is backfilled",
    )
    op.create_table(
        "restoration_owed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("dig_id", ID, comment="dig"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("what", sa.Text(), comment="what is to be restored, as typed"),
        sa.Column("by_on", sa.Date(), comment="by which day"),
        sa.Column("owed_by", sa.Text(), comment="who owes it, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_restoration_owed"),
        comment="restoration is owed",
    )
    op.create_table(
        "restored",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("dig_id", ID, comment="dig"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("owed_id", ID, comment="what was owed; all that was owed so far where left out"),
        sa.Column("what", sa.Text(), comment="what was restored, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_restored"),
        comment="a surface is restored",
    )


def _places() -> None:
    op.create_table(
        "place_added",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("what", sa.Text(), comment="what it is, as typed"),
        sa.Column("called", sa.Text(), comment="what it is called, as typed"),
        sa.Column("house_number", sa.Text(), comment="house number, as typed"),
        sa.Column("street", sa.Text(), comment="street, as typed"),
        sa.Column("town", sa.Text(), comment="town, as typed"),
        sa.Column("postal_code", sa.Text(), comment="postal code, as typed"),
        sa.Column("location", sa.Text(), comment="where, in words, as typed"),
        sa.Column("material", sa.Text(), comment="material of the pipe, as typed"),
        sa.Column("size", sa.Text(), comment="nominal size, as typed"),
        sa.Column("size_mm", sa.Double(), comment="nominal size, in the unit of this column's name"),
        sa.Column("installed_year", sa.BigInteger(), comment="year of installation"),
        sa.PrimaryKeyConstraint("id", name="pk_place_added"),
        comment="a place is added",
    )
    op.create_table(
        "place_added_outside_numbers",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("what", sa.Text(), comment="kind of number: premise, meter, pipe id, as typed"),
        sa.Column("number", sa.Text(), comment="number, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_place_added_outside_numbers"),
        comment="a place is added: numbers that others know it by",
    )
    op.create_table(
        "place_added_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_place_added_kept_as_text"),
        comment="a place is added: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "place_retired",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="the place"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_place_retired"),
        comment="a place is retired",
    )


def _ties() -> None:
    op.create_table(
        "outside_number_added",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what bears it"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column(
            "what", sa.Text(), comment="kind of number: work order, call, premise, meter, permit, claim, as typed"
        ),
        sa.Column("number", sa.Text(), comment="number, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_outside_number_added"),
        comment="an outside number is added",
    )
    op.create_table(
        "linked",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what is linked"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("how", sa.Text(), comment="how it hangs together, as typed"),
        sa.Column("to_subject_id", ID, comment="with what"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_linked"),
        comment="a link is made",
    )
    op.create_table(
        "made_one",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="the one that is kept"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("other_id", ID, comment="the other"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_made_one"),
        comment="two records of the same are made one",
    )
    op.create_table(
        "streets_made_one",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("street", sa.Text(), comment="the street as it is kept, as typed"),
        sa.Column("town", sa.Text(), comment="its town, as typed"),
        sa.Column("other_street", sa.Text(), comment="the other name, as it was written, as typed"),
        sa.Column("other_town", sa.Text(), comment="the town written with it, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_streets_made_one"),
        comment="two names of the same street are made one",
    )


def _attached() -> None:
    op.create_table(
        "attached",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what it is about"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("digest", sa.Text(), comment="SHA-256 of the file, as typed"),
        sa.Column("length", sa.BigInteger(), comment="bytes of the file"),
        sa.Column("media_type", sa.Text(), comment="what it is, as its content says, such as image/jpeg, as typed"),
        sa.Column("name", sa.Text(), comment="name of the file, as given, as typed"),
        sa.Column("original", sa.Text(), comment="SHA-256 of the device's own file, if another, as typed"),
        sa.Column("taken", sa.Text(), comment="when it was taken, as the file itself says, as typed"),
        sa.Column("caption", sa.Text(), comment="what it shows, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_attached"),
        comment="a picture or file is attached",
    )
    op.create_index("ix_attached_digest", "attached", ["digest"])


def _worked_digs() -> None:
    op.create_table(
        "dig",
        sa.Column("id", ID, nullable=False, comment="the dig"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("opened_on", sa.Date(), nullable=False, comment="legal day on which it was opened"),
        sa.Column("status", sa.Text(), nullable=False, comment="open, backfilled, restored, opened_in_error"),
        sa.Column("found", sa.Text(), comment="source, nothing (a dry hole) or other_pipe; none where nobody said yet"),
        sa.Column("ticket", sa.Text(), comment="locate ticket"),
        sa.Column("backfilled_on", sa.Date(), comment="legal day on which it was backfilled"),
        sa.Column("owed", sa.Integer(), nullable=False, comment="restorations that are owed and not done"),
        sa.Column("owed_by_on", sa.Date(), comment="the earliest day by which one of them is owed"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_dig"),
        comment="a dig as it stands",
    )
    op.create_index("ix_dig_area_id_status_opened_on_id", "dig", ["area_id", "status", "opened_on", "id"])
    op.create_index("ix_dig_owed_by_on_id", "dig", ["owed_by_on", "id"])
    op.create_table(
        "dig_serves",
        sa.Column("dig_id", ID, nullable=False, comment="the dig"),
        sa.Column("leak_id", ID, nullable=False, comment="a leak that it serves"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("dig_id", "leak_id", name="pk_dig_serves"),
        comment="which leaks a dig serves; a dig opened in error serves none",
    )
    op.create_index("ix_dig_serves_leak_id_dig_id", "dig_serves", ["leak_id", "dig_id"])
    op.create_table(
        "place",
        sa.Column("id", ID, nullable=False, comment="the place"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("what", sa.Text(), nullable=False, comment="service, main_segment, meter_set, structure, building"),
        sa.Column("called", sa.Text(), comment="what it is called"),
        sa.Column("house_number", sa.Text(), comment="house number"),
        sa.Column("street", sa.Text(), comment="street"),
        sa.Column("town", sa.Text(), comment="town"),
        sa.Column("search_key", sa.Text(), nullable=False, comment="its name and address as they are looked up"),
        sa.Column("retired_on", sa.Date(), comment="legal day on which it was retired"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="it was added in error"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_place"),
        comment="a place as it stands",
    )
    op.create_index("ix_place_area_id_search_key", "place", ["area_id", "search_key"])


def _worked_ties() -> None:
    op.create_table(
        "outside_number",
        sa.Column("subject_id", ID, nullable=False, comment="what bears it"),
        sa.Column("entry_id", ID, nullable=False, comment="the entry that gave it"),
        sa.Column(
            "row_key", sa.Text(), nullable=False, comment="list.key of the row, or a field's name; empty for the entry"
        ),
        sa.Column(
            "what", sa.Text(), nullable=False, comment="kind of number: work order, call, premise, one-call ticket"
        ),
        sa.Column("number", sa.Text(), nullable=False, comment="the number as written"),
        sa.Column("search_key", sa.Text(), nullable=False, comment="the number as it is looked up"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("subject_id", "entry_id", "row_key", name="pk_outside_number"),
        comment="numbers that others know a subject by, from whichever entry",
    )
    op.create_index("ix_outside_number_search_key", "outside_number", ["search_key"])
    op.create_table(
        "stands_for",
        sa.Column("kept_id", ID, nullable=False, comment="the person, lot or other subject that is kept"),
        sa.Column("other_id", ID, nullable=False, comment="the other one, which is the same"),
        sa.Column("entry_id", ID, nullable=False, comment="the entry that says so"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("kept_id", "other_id", name="pk_stands_for"),
        comment="records of the same that were made one; facts keep what was said",
    )
    op.create_index("ix_stands_for_other_id", "stands_for", ["other_id"])
    op.create_table(
        "street_stands_for",
        sa.Column("entry_id", ID, nullable=False, comment="the entry that says so"),
        sa.Column("area_id", ID, nullable=False, comment="the area in whose story it stands"),
        sa.Column("kept_id", ID, nullable=False, comment="the street that is kept"),
        sa.Column("kept_name", sa.Text(), nullable=False, comment="its name, and its town where one was said"),
        sa.Column("other_id", ID, nullable=False, comment="the same street under another name"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", name="pk_street_stands_for"),
        comment="streets that are the same under two names",
    )
    op.create_index("ix_street_stands_for_kept_id", "street_stands_for", ["kept_id"])
    op.create_index("ix_street_stands_for_other_id", "street_stands_for", ["other_id"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
