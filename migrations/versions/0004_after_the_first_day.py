"""The leak's life after the first day, work that is given, gaps set aside.

Revision: 0004
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    _tables_1()
    _tables_2()
    _tables_3()
    _columns_1()
    _columns_2()
    _indexes()


def _tables_1() -> None:
    op.create_table(
        "briefing_given",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("topics", sa.Text(), comment="what was talked over: hazards, the way out, who does what, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_briefing_given"),
        comment="the work is talked over before it begins",
    )
    op.create_table(
        "briefing_given_present",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("person_id", ID, comment="person"),
        sa.Column("named", sa.Text(), comment="name, where the person is not on the books, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_briefing_given_present"),
        comment="the work is talked over before it begins: who was there",
    )
    op.create_table(
        "downgrade_reviewed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("grade_set_id", ID, comment="the lower grade"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("outcome", sa.Text(), comment="approved or not, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_downgrade_reviewed"),
        comment="a lower grade is reviewed",
    )
    op.create_table(
        "gap_set_aside",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="in whose record the gap is"),
        sa.Column("about_id", ID, comment="the entry that the gap is about"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("gap", sa.Text(), comment="code of the gap, as typed"),
        sa.Column("row", sa.Text(), comment="row or field that it is about, as typed"),
        sa.Column("reason", sa.Text(), comment="why nobody has to do anything about it, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_gap_set_aside"),
        comment="a gap is set aside",
    )
    op.create_table(
        "leak_reopened",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_leak_reopened"),
        comment="the leak is opened again",
    )


def _tables_2() -> None:
    op.create_table(
        "scheduled_for_repair",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("scheduled", sa.Text(), comment="scheduled for repair, as typed"),
        sa.Column("for_on", sa.Date(), comment="day for which it is scheduled"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_scheduled_for_repair"),
        comment="the repair is scheduled, or not any more",
    )
    op.create_table(
        "work",
        sa.Column("id", ID, nullable=False, comment="the entry by which it was given"),
        sa.Column("leak_id", ID, nullable=False, comment="its leak"),
        sa.Column("work", sa.Text(), nullable=False, comment="what is to be done"),
        sa.Column("crew_id", ID, comment="the crew that has it"),
        sa.Column("person_id", ID, comment="the person who has it"),
        sa.Column("named", sa.Text(), comment="who has it, where they are not on the books"),
        sa.Column("given_on", sa.Date(), nullable=False, comment="legal day on which it was given"),
        sa.Column("by_on", sa.Date(), comment="day by which it is to be done"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_work"),
        comment="work on a leak that was given to somebody and is still to be done",
    )
    op.create_table(
        "work_given",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("work", sa.Text(), comment="what is to be done, as typed"),
        sa.Column("crew_id", ID, comment="to which crew"),
        sa.Column("person_id", ID, comment="to which person"),
        sa.Column("named", sa.Text(), comment="to whom, where they are not on the books, as typed"),
        sa.Column("by_on", sa.Date(), comment="to be done by"),
        sa.Column("remarks", sa.Text(), comment="what is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_work_given"),
        comment="work is given to somebody",
    )
    op.create_table(
        "work_goes_on",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("remarks", sa.Text(), comment="what is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_work_goes_on"),
        comment="the work waits no longer",
    )


def _tables_3() -> None:
    op.create_table(
        "work_settled",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("given_id", ID, comment="the work that was given"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("outcome", sa.Text(), comment="done, or taken back, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_work_settled"),
        comment="work that was given is done, or taken back",
    )
    op.create_table(
        "work_waiting",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("waits_on", sa.Text(), comment="what it waits on, as typed"),
        sa.Column("until_on", sa.Date(), comment="until when, as far as is known"),
        sa.Column("remarks", sa.Text(), comment="what is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_work_waiting"),
        comment="the work waits",
    )


def _columns_1() -> None:
    op.add_column("gap", sa.Column("area_id", ID, comment="the area in whose record it is"))
    op.add_column("gap", sa.Column("happened_on", sa.Date(), comment="legal day of the entry that it is about"))
    op.add_column("gap", sa.Column("set_aside_by_id", ID, comment="the entry by which it was set aside, where it was"))
    op.add_column(
        "grade_set",
        sa.Column(
            "hazardous",
            sa.Text(),
            comment="a hazard to people or property, so that it asks for action at once, as typed",
        ),
    )
    op.add_column("leak", sa.Column("joined_to_id", ID, comment="the leak under which it goes on, where it ended so"))
    op.add_column("leak", sa.Column("reopened_on", sa.Date(), comment="day on which it was last opened again"))
    op.add_column(
        "leak", sa.Column("scheduled_since", sa.Date(), comment="day since which its repair is scheduled, where it is")
    )
    op.add_column(
        "leak",
        sa.Column("scheduled_for", sa.Date(), comment="day for which its repair is scheduled, where one is said"),
    )
    op.add_column("leak", sa.Column("waits_on", sa.Text(), comment="what the work waits on, where it waits"))
    op.add_column("leak", sa.Column("waits_since", sa.Date(), comment="day since which it waits"))
    op.add_column("leak", sa.Column("waits_until", sa.Date(), comment="day until which it waits, where one is said"))
    op.add_column("leak_opened", sa.Column("county", sa.Text(), comment="county, as typed"))
    op.add_column("leak_opened", sa.Column("map_reference", sa.Text(), comment="sheet or square of the map, as typed"))
    op.add_column("leak_opened", sa.Column("on_federal_land", sa.Text(), comment="on federal land, as typed"))
    op.add_column("repair_attempted", sa.Column("cause_detail", sa.Text(), comment="more about the cause, as typed"))
    op.add_column(
        "repair_attempted", sa.Column("mechanical_joint", sa.Text(), comment="a mechanical joint failed, as typed")
    )
    op.add_column("repair_attempted", sa.Column("watched_by_id", ID, comment="who watched the pressure"))
    op.add_column(
        "repair_attempted",
        sa.Column("watched_by_named", sa.Text(), comment="name of that person, where not on the books, as typed"),
    )
    op.add_column("repair_attempted", sa.Column("stopped_by", sa.Text(), comment="how the gas was stopped, as typed"))
    op.add_column("repair_attempted", sa.Column("exposed", sa.Text(), comment="pipe exposed, as typed"))
    op.add_column("repair_attempted", sa.Column("exposed_on", sa.Date(), comment="pipe exposed: legal day"))
    op.add_column(
        "repair_attempted", sa.Column("exposed_at", MOMENT, comment="pipe exposed: moment, where the hour is known")
    )
    op.add_column("repair_attempted", sa.Column("gas_stopped", sa.Text(), comment="gas stopped, as typed"))
    op.add_column("repair_attempted", sa.Column("gas_stopped_on", sa.Date(), comment="gas stopped: legal day"))


def _columns_2() -> None:
    op.add_column(
        "repair_attempted", sa.Column("gas_stopped_at", MOMENT, comment="gas stopped: moment, where the hour is known")
    )
    op.add_column("repair_attempted", sa.Column("fitted", sa.Text(), comment="fitting in place, as typed"))
    op.add_column("repair_attempted", sa.Column("fitted_on", sa.Date(), comment="fitting in place: legal day"))
    op.add_column(
        "repair_attempted", sa.Column("fitted_at", MOMENT, comment="fitting in place: moment, where the hour is known")
    )
    op.add_column("repair_attempted", sa.Column("gas_restored", sa.Text(), comment="gas restored, as typed"))
    op.add_column("repair_attempted", sa.Column("gas_restored_on", sa.Date(), comment="gas restored: legal day"))
    op.add_column(
        "repair_attempted",
        sa.Column("gas_restored_at", MOMENT, comment="gas restored: moment, where the hour is known"),
    )
    op.add_column(
        "repair_attempted",
        sa.Column("surface_ready", sa.Text(), comment="surface of the pipe cleaned and made ready, as typed"),
    )
    op.add_column(
        "repair_attempted", sa.Column("customers_off", sa.BigInteger(), comment="how many customers were off")
    )
    op.add_column(
        "repair_attempted_people", sa.Column("observed_by_id", ID, comment="observed by, where not qualified for it")
    )
    op.add_column(
        "repair_attempted_people",
        sa.Column("observed_by_named", sa.Text(), comment="name of the observer, where not on the books, as typed"),
    )
    op.add_column("source_added", sa.Column("protection", sa.Text(), comment="cathodic protection, as typed"))
    op.add_column("source_added", sa.Column("condition", sa.Text(), comment="condition of the pipe, as typed"))
    op.add_column("visit", sa.Column("paving", sa.Text(), comment="paving, as typed"))
    op.add_column("visit", sa.Column("frost", sa.Text(), comment="frost in the ground, as typed"))
    op.add_column("visit", sa.Column("ignited", sa.Text(), comment="gas was burning, as typed"))
    op.add_column("visit", sa.Column("seen_or_heard", sa.Text(), comment="the leak was seen, heard or felt, as typed"))
    op.add_column("visit", sa.Column("venting_started", sa.Text(), comment="venting started, as typed"))
    op.add_column("visit", sa.Column("venting_started_on", sa.Date(), comment="venting started: legal day"))
    op.add_column(
        "visit", sa.Column("venting_started_at", MOMENT, comment="venting started: moment, where the hour is known")
    )
    op.add_column("visit", sa.Column("venting_stopped", sa.Text(), comment="venting stopped, as typed"))
    op.add_column("visit", sa.Column("venting_stopped_on", sa.Date(), comment="venting stopped: legal day"))
    op.add_column(
        "visit", sa.Column("venting_stopped_at", MOMENT, comment="venting stopped: moment, where the hour is known")
    )


def _indexes() -> None:
    op.drop_index("ix_gap_code", table_name="gap")
    op.create_index("ix_work_crew_id", "work", ["crew_id"])
    op.create_index("ix_work_leak_id", "work", ["leak_id"])
    op.create_index("ix_work_person_id", "work", ["person_id"])
    op.create_index("ix_attempt_review_attempted_on_id", "attempt", ["review", "attempted_on", "id"])
    op.create_index("ix_gap_code_happened_on_entry_id", "gap", ["code", "happened_on", "entry_id"])
    op.create_index("ix_gap_happened_on_entry_id", "gap", ["happened_on", "entry_id"])
    op.create_index("ix_leak_joined_to_id", "leak", ["joined_to_id"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
