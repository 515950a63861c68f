"""Calls, the first hour at a leak, and whom one tells.

Revision: 0006
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    _calls()
    _first_hour()
    _worked()


def _calls() -> None:
    op.create_table(
        "call_received",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("report", sa.Text(), comment="what is reported, as typed"),
        sa.Column("came_from", sa.Text(), comment="who calls, as typed"),
        sa.Column("inside", sa.Text(), comment="inside or outside, as typed"),
        sa.Column("house_number", sa.Text(), comment="house number, as typed"),
        sa.Column("street", sa.Text(), comment="street, as typed"),
        sa.Column("cross_street", sa.Text(), comment="cross street, as typed"),
        sa.Column("town", sa.Text(), comment="town, as typed"),
        sa.Column("postal_code", sa.Text(), comment="postal code, as typed"),
        sa.Column("location", sa.Text(), comment="where, in words, as typed"),
        sa.Column(
            "caller_name_digest", sa.Text(), comment="name of the caller: salted digest; the value stands beside"
        ),
        sa.Column(
            "caller_phone_digest", sa.Text(), comment="telephone of the caller: salted digest; the value stands beside"
        ),
        sa.Column(
            "caller_story_digest", sa.Text(), comment="what the caller says: salted digest; the value stands beside"
        ),
        sa.Column("number_given", sa.Text(), comment="number given by the door"),
        sa.Column("street_id", ID, comment="the street"),
        sa.PrimaryKeyConstraint("id", name="pk_call_received"),
        comment="a call is received",
    )
    op.create_table(
        "call_sent",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("call_id", ID, comment="call"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("crew_id", ID, comment="crew that is sent"),
        sa.Column("person_id", ID, comment="person that is sent"),
        sa.Column("named", sa.Text(), comment="who is sent, where not on the books, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_call_sent"),
        comment="someone is sent to the call",
    )
    op.create_table(
        "call_on_way",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("call_id", ID, comment="call"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("crew_id", ID, comment="crew that is on the way"),
        sa.Column("person_id", ID, comment="person that is on the way"),
        sa.Column("named", sa.Text(), comment="who is on the way, where not on the books, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_call_on_way"),
        comment="someone is on the way to the call",
    )
    op.create_table(
        "call_on_site",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("call_id", ID, comment="call"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("crew_id", ID, comment="crew that is on site"),
        sa.Column("person_id", ID, comment="person that is on site"),
        sa.Column("named", sa.Text(), comment="who is on site, where not on the books, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_call_on_site"),
        comment="someone is on site at the call",
    )
    op.create_table(
        "call_outcome",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("call_id", ID, comment="call"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("outcome", sa.Text(), comment="how it came out, as typed"),
        sa.Column("found_leak_id", ID, comment="the operator's leak that it opens or joins"),
        sa.Column("same_as_id", ID, comment="the earlier call that it is the same as"),
        sa.Column("made_safe", sa.Text(), comment="how the customer's piping was made safe, as typed"),
        sa.Column("tag", sa.Text(), comment="tag that was left, as marked, as typed"),
        sa.Column("remarks", sa.Text(), comment="what was found and done, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_call_outcome"),
        comment="how the call came out",
    )
    op.create_table(
        "call_reviewed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("call_id", ID, comment="call"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("outcome", sa.Text(), comment="accepted or returned, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_call_reviewed"),
        comment="the call is reviewed",
    )
    op.add_column("leak_opened", sa.Column("from_call_id", ID, comment="the call that it was opened from"))
    op.create_table(
        "call_received_outside_numbers",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("what", sa.Text(), comment="kind of number: work order, call, premise, list, as typed"),
        sa.Column("number", sa.Text(), comment="number, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_call_received_outside_numbers"),
        comment="a call is received: numbers that others know it by",
    )


def _first_hour() -> None:
    op.create_table(
        "moment_noted",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("moment", sa.Text(), comment="which moment, as typed"),
        sa.Column("people_count", sa.BigInteger(), comment="how many people"),
        sa.Column("place", sa.Text(), comment="out of where, or where they are now, as typed"),
        sa.Column("controlled_by", sa.Text(), comment="how the gas was brought under control, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_moment_noted"),
        comment="a moment of the first hour",
    )
    op.create_table(
        "watch_handed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("from_person_id", ID, comment="who hands it over"),
        sa.Column("from_named", sa.Text(), comment="name of that person, where not on the books, as typed"),
        sa.Column("to_person_id", ID, comment="who takes it over"),
        sa.Column("to_named", sa.Text(), comment="name of that person, where not on the books, as typed"),
        sa.Column("valves", sa.Text(), comment="valves: which are shut, which are open, as typed"),
        sa.Column("vents", sa.Text(), comment="vents: which stand open, as typed"),
        sa.Column("last_readings", sa.Text(), comment="last readings: where, what, when, as typed"),
        sa.Column("customers_off", sa.BigInteger(), comment="how many customers are off"),
        sa.Column("next_reading_by", sa.Text(), comment="next reading by, as typed"),
        sa.Column("next_reading_by_on", sa.Date(), comment="next reading by: legal day"),
        sa.Column("next_reading_by_at", MOMENT, comment="next reading by: moment, where the hour is known"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_watch_handed"),
        comment="the watch is handed over",
    )
    op.create_table(
        "told",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what they are told of"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("whom", sa.Text(), comment="who is told, as typed"),
        sa.Column("named", sa.Text(), comment="name or office, as they gave it, as typed"),
        sa.Column("how", sa.Text(), comment="how they are told, as typed"),
        sa.Column("reference", sa.Text(), comment="number or name that they gave for it, as typed"),
        sa.Column("remarks", sa.Text(), comment="what was said, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_told"),
        comment="somebody is told",
    )
    op.create_table(
        "decided",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="what is decided about"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("decision", sa.Text(), comment="to be reported or not, as typed"),
        sa.Column("report_to", sa.Text(), comment="to whom, as typed"),
        sa.Column("facts", sa.Text(), comment="on which facts, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_decided"),
        comment="whether it is to be reported is decided",
    )


def _worked() -> None:
    op.create_table(
        "call_counter",
        sa.Column("area_id", ID, nullable=False, comment="the area"),
        sa.Column("year", sa.Integer(), nullable=False, comment="year of the calls' first day"),
        sa.Column("last", sa.BigInteger(), nullable=False, comment="the highest counter given"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("area_id", "year", name="pk_call_counter"),
        comment="how far an area has counted its calls of a year",
    )
    op.create_table(
        "call",
        sa.Column("id", ID, nullable=False, comment="the call"),
        sa.Column("number", sa.Text(), nullable=False, comment="its number, for people"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column(
            "status", sa.Text(), nullable=False, comment="received, sent, on_way, on_site, ended, received_in_error"
        ),
        sa.Column("report", sa.Text(), nullable=False, comment="what was reported"),
        sa.Column("received_on", sa.Date(), nullable=False, comment="legal day on which it was received"),
        sa.Column("received_at", MOMENT, comment="moment, where the hour is known"),
        sa.Column("sent_at", MOMENT, comment="when the first was sent, on the trip that counts"),
        sa.Column("on_way_at", MOMENT, comment="when the first was on the way"),
        sa.Column("on_site_at", MOMENT, comment="when the first was on site"),
        sa.Column("ended_on", sa.Date(), comment="legal day of the outcome that counts"),
        sa.Column("ended_at", MOMENT, comment="its moment, where the hour is known"),
        sa.Column("outcome", sa.Text(), comment="how it came out"),
        sa.Column("leak_id", ID, comment="the operator's leak that it opened or joined"),
        sa.Column("same_as_id", ID, comment="the earlier call that it is the same as"),
        sa.Column("crew_id", ID, comment="the crew that has it"),
        sa.Column("person_id", ID, comment="the person who has it"),
        sa.Column("named", sa.Text(), comment="who has it, where not on the books"),
        sa.Column("reviewed", sa.Boolean(), nullable=False, comment="its outcome was accepted"),
        sa.Column("house_number", sa.Text(), comment="house number"),
        sa.Column("street_id", ID, comment="street"),
        sa.Column("cross_street", sa.Text(), comment="cross street"),
        sa.Column("postal_code", sa.Text(), comment="postal code"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_call"),
        comment="a call as it stands",
    )
    op.create_index("ix_call_area_id_received_on_id", "call", ["area_id", "received_on", "id"])
    op.create_index("ix_call_area_id_status_received_on_id", "call", ["area_id", "status", "received_on", "id"])
    op.create_index("ix_call_leak_id_received_on_id", "call", ["leak_id", "received_on", "id"])
    op.create_index("ix_call_number", "call", ["number"], unique=True, postgresql_ops={"number": "text_pattern_ops"})
    op.create_index("ix_call_outcome_received_on_id", "call", ["outcome", "received_on", "id"])
    op.create_index("ix_call_received_on_id", "call", ["received_on", "id"])
    op.create_index("ix_call_report_received_on_id", "call", ["report", "received_on", "id"])
    op.create_index("ix_call_status_received_on_id", "call", ["status", "received_on", "id"])
    op.create_index("ix_call_street_id_received_on_id", "call", ["street_id", "received_on", "id"])
    op.create_table(
        "watch",
        sa.Column("leak_id", ID, nullable=False, comment="the leak that is watched"),
        sa.Column("entry_id", ID, nullable=False, comment="the entry that handed the watch over last"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("person_id", ID, comment="who has it"),
        sa.Column("named", sa.Text(), comment="who has it, where not on the books"),
        sa.Column("since_on", sa.Date(), nullable=False, comment="legal day since which"),
        sa.Column("since_at", MOMENT, comment="moment since which, where the hour is known"),
        sa.Column("next_reading_on", sa.Date(), comment="legal day by which the next reading is to be taken"),
        sa.Column("next_reading_at", MOMENT, comment="its moment, where the hour is known"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("leak_id", name="pk_watch"),
        comment="who watches an open leak, as the last handing over says",
    )
    op.create_index("ix_watch_area_id", "watch", ["area_id"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
