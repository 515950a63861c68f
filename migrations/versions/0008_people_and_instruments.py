"""People with roles and qualifications by date, crews that change, instruments, and an area's cut-over day.

Revision: 0008
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")

PEOPLE = """
INSERT INTO person (id, name, company, staff_number, left_on, void, engine)
SELECT added.id, added.name, coalesce(added.company, ''), coalesce(added.staff_number, ''), NULL, entry.void, 1
FROM person_added AS added JOIN entry ON entry.id = added.id
"""

ROLES = """
INSERT INTO role (entry_id, key, person_id, role, area_id, from_on, until_on, company, engine)
SELECT roles.entry_id, roles.key, roles.entry_id, roles.role, roles.area_id, roles.from_on, roles.until_on,
       '', 1
FROM person_added_roles AS roles
JOIN entry ON entry.id = roles.entry_id
WHERE NOT entry.void AND (roles.until_on IS NULL OR roles.from_on <= roles.until_on)
"""

CREWS = """
INSERT INTO crew (id, area_id, name, void, engine)
SELECT made.id, made.area_id, made.name, entry.void, 1
FROM crew_made AS made JOIN entry ON entry.id = made.id
"""


def upgrade() -> None:
    _fields()
    _roles()
    _qualifications()
    _crews()
    _instruments()
    _calibrations()
    _people_as_they_stand()
    _crews_as_they_stand()
    _instruments_as_they_stand()
    op.execute(PEOPLE)  # so that nobody loses what they may do before the book is rebuilt
    op.execute(ROLES)
    op.execute(CREWS)


def _fields() -> None:
    op.add_column(
        "area", sa.Column("cut_over_on", sa.Date(), comment="first day on which what is missing in a record is raised")
    )
    op.add_column("tested", sa.Column("instrument_used_id", ID, comment="instrument, where it is on the books"))
    op.add_column("visit", sa.Column("instrument_used_id", ID, comment="instrument, where it is on the books"))
    op.add_column(
        "visit_readings", sa.Column("instrument_used_id", ID, comment="that instrument, where it is on the books")
    )


def _roles() -> None:
    op.create_table(
        "cut_over_set",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("cut_over_on", sa.Date(), comment="first day on which what is missing in a record is raised"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_cut_over_set"),
        comment="the cut-over day of an area is set",
    )
    op.create_table(
        "person_left",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="person"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("until_on", sa.Date(), comment="last day"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_person_left"),
        comment="a person leaves",
    )
    op.create_table(
        "role_ended",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="person"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("role", sa.Text(), comment="role, as typed"),
        sa.Column(
            "area_id", ID, comment="operating area for which it was given; wherever it was given, where left out"
        ),
        sa.Column("until_on", sa.Date(), comment="last day"),
        sa.PrimaryKeyConstraint("id", name="pk_role_ended"),
        comment="a person's role ends",
    )
    op.create_table(
        "role_given",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="person"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("role", sa.Text(), comment="role, as typed"),
        sa.Column("area_id", ID, comment="operating area; every area where left out"),
        sa.Column("from_on", sa.Date(), comment="first day"),
        sa.Column("until_on", sa.Date(), comment="last day; open where left out, but an inspector's never is"),
        sa.Column(
            "company", sa.Text(), comment="company whose work alone is seen; where left out, all of the area, as typed"
        ),
        sa.Column("period_from_on", sa.Date(), comment="first day of the period that an inspector looks at"),
        sa.Column("period_until_on", sa.Date(), comment="last day of that period"),
        sa.PrimaryKeyConstraint("id", name="pk_role_given"),
        comment="a person is given a role",
    )


def _qualifications() -> None:
    op.create_table(
        "qualification_ended",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="person"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("task", sa.Text(), comment="covered task, as typed"),
        sa.Column("how", sa.Text(), comment="suspended or withdrawn, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_qualification_ended"),
        comment="a qualification is suspended or withdrawn",
    )
    op.create_table(
        "qualified",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="person"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("task", sa.Text(), comment="covered task, as typed"),
        sa.Column("until_on", sa.Date(), comment="last day on which it holds; open where left out"),
        sa.Column("method", sa.Text(), comment="how the person was evaluated, as typed"),
        sa.Column("evaluator_id", ID, comment="who evaluated"),
        sa.Column("evaluator_named", sa.Text(), comment="name of who evaluated, where not on the books, as typed"),
        sa.Column("company", sa.Text(), comment="company of who evaluated, as typed"),
        sa.Column("document", sa.Text(), comment="document that shows it, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_qualified"),
        comment="a person is qualified for a task",
    )


def _crews() -> None:
    op.create_table(
        "crew_changed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="crew"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("name", sa.Text(), comment="new name of the crew, as typed"),
        sa.Column("company", sa.Text(), comment="company that the crew is of, from that day on, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_crew_changed"),
        comment="a crew changes",
    )
    op.create_table(
        "crew_changed_joined",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("person_id", ID, comment="person"),
        sa.Column("from_on", sa.Date(), comment="first day"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_crew_changed_joined"),
        comment="a crew changes: who joins the crew",
    )
    op.create_table(
        "crew_changed_left",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("person_id", ID, comment="person"),
        sa.Column("until_on", sa.Date(), comment="last day"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_crew_changed_left"),
        comment="a crew changes: who leaves the crew",
    )


def _instruments() -> None:
    op.create_table(
        "instrument_added",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("mark", sa.Text(), comment="mark, as on its label, as typed"),
        sa.Column("what", sa.Text(), comment="what it is, as typed"),
        sa.Column("maker", sa.Text(), comment="maker, as typed"),
        sa.Column("model", sa.Text(), comment="model, as typed"),
        sa.Column("serial_number", sa.Text(), comment="serial number, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_instrument_added"),
        comment="an instrument is added",
    )
    op.create_table(
        "instrument_retired",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="instrument"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_instrument_retired"),
        comment="an instrument is retired",
    )


def _calibrations() -> None:
    op.create_table(
        "instrument_calibrated",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="instrument"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("result", sa.Text(), comment="result, as typed"),
        sa.Column("next_due_on", sa.Date(), comment="last day on which it holds, as on the certificate"),
        sa.Column("by_whom", sa.Text(), comment="laboratory or person that calibrated it, as typed"),
        sa.Column("certificate_number", sa.Text(), comment="number of the certificate, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_instrument_calibrated"),
        comment="an instrument is calibrated",
    )
    op.create_table(
        "instrument_calibrated_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_instrument_calibrated_kept_as_text"),
        comment="an instrument is calibrated: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "instrument_calibrated_points",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("gas", sa.Text(), comment="gas, as typed"),
        sa.Column("expected", sa.Text(), comment="what it should read, as typed"),
        sa.Column(
            "expected_percent_gas", sa.Double(), comment="what it should read, in the unit of this column's name"
        ),
        sa.Column("expected_ppm_co", sa.Double(), comment="what it should read, in the unit of this column's name"),
        sa.Column("expected_ppm_m", sa.Double(), comment="what it should read, in the unit of this column's name"),
        sa.Column("found", sa.Text(), comment="what it read before, as typed"),
        sa.Column("found_percent_gas", sa.Double(), comment="what it read before, in the unit of this column's name"),
        sa.Column("found_ppm_co", sa.Double(), comment="what it read before, in the unit of this column's name"),
        sa.Column("found_ppm_m", sa.Double(), comment="what it read before, in the unit of this column's name"),
        sa.Column("left_at", sa.Text(), comment="what it reads now, as typed"),
        sa.Column("left_at_percent_gas", sa.Double(), comment="what it reads now, in the unit of this column's name"),
        sa.Column("left_at_ppm_co", sa.Double(), comment="what it reads now, in the unit of this column's name"),
        sa.Column("left_at_ppm_m", sa.Double(), comment="what it reads now, in the unit of this column's name"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_instrument_calibrated_points"),
        comment="an instrument is calibrated: points at which it was read",
    )
    op.create_table(
        "instrument_checked",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="instrument"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("cylinder_id", ID, comment="lot of the gas cylinder"),
        sa.Column(
            "cylinder_named", sa.Text(), comment="gas cylinder as marked, where its lot is not on the books, as typed"
        ),
        sa.Column("expected", sa.Text(), comment="what it should read, as typed"),
        sa.Column(
            "expected_percent_gas", sa.Double(), comment="what it should read, in the unit of this column's name"
        ),
        sa.Column("expected_ppm_co", sa.Double(), comment="what it should read, in the unit of this column's name"),
        sa.Column("expected_ppm_m", sa.Double(), comment="what it should read, in the unit of this column's name"),
        sa.Column("read", sa.Text(), comment="what it read, as typed"),
        sa.Column("read_percent_gas", sa.Double(), comment="what it read, in the unit of this column's name"),
        sa.Column("read_ppm_co", sa.Double(), comment="what it read, in the unit of this column's name"),
        sa.Column("read_ppm_m", sa.Double(), comment="what it read, in the unit of this column's name"),
        sa.Column("result", sa.Text(), comment="result, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_instrument_checked"),
        comment="an instrument is checked with gas",
    )
    op.create_table(
        "instrument_checked_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_instrument_checked_kept_as_text"),
        comment="an instrument is checked with gas: measures that could not be read and that the person wants kept as written",
    )


def _people_as_they_stand() -> None:
    op.create_table(
        "person",
        sa.Column("id", ID, nullable=False, comment="the person"),
        sa.Column("name", sa.Text(), nullable=False, comment="name"),
        sa.Column("company", sa.Text(), nullable=False, comment="company; empty for the operator's own"),
        sa.Column("staff_number", sa.Text(), nullable=False, comment="number that the operator gave; empty where none"),
        sa.Column("left_on", sa.Date(), comment="last day, of who left"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="added in error"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_person"),
        comment="a person as they stand",
    )
    op.create_index("ix_person_company", "person", ["company"])
    op.create_index("ix_person_name_id", "person", ["name", "id"])
    op.create_table(
        "qualification",
        sa.Column("entry_id", ID, nullable=False, comment="the evaluation"),
        sa.Column("person_id", ID, nullable=False, comment="whose it is"),
        sa.Column("task", sa.Text(), nullable=False, comment="covered task"),
        sa.Column("from_on", sa.Date(), nullable=False, comment="day of the evaluation"),
        sa.Column("until_on", sa.Date(), comment="last day on which it holds; none where it is open"),
        sa.Column("ended_on", sa.Date(), comment="day from which it is suspended or withdrawn"),
        sa.Column("ended_how", sa.Text(), comment="suspended or withdrawn"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", name="pk_qualification"),
        comment="what a person is or was qualified for",
    )
    op.create_index("ix_qualification_person_id", "qualification", ["person_id"])
    op.create_table(
        "role",
        sa.Column("entry_id", ID, nullable=False, comment="the entry that gave it"),
        sa.Column(
            "key",
            sa.Text(),
            nullable=False,
            comment="key of its row there; empty where the entry is of that role alone",
        ),
        sa.Column("person_id", ID, nullable=False, comment="whose it is"),
        sa.Column("role", sa.Text(), nullable=False, comment="role"),
        sa.Column("area_id", ID, comment="operating area; none for every area"),
        sa.Column("from_on", sa.Date(), nullable=False, comment="first day"),
        sa.Column("until_on", sa.Date(), comment="last day; none where it is open"),
        sa.Column("company", sa.Text(), nullable=False, comment="company whose work alone is seen; empty for all"),
        sa.Column("period_from_on", sa.Date(), comment="first day of the period that an inspector looks at"),
        sa.Column("period_until_on", sa.Date(), comment="last day of that period"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_role"),
        comment="what a person may do where and when, ended roles too",
    )
    op.create_index("ix_role_person_id", "role", ["person_id"])


def _crews_as_they_stand() -> None:
    op.create_table(
        "crew",
        sa.Column("id", ID, nullable=False, comment="the crew"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("name", sa.Text(), nullable=False, comment="its name"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="made in error"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_crew"),
        comment="a crew as it stands",
    )
    op.create_index("ix_crew_area_id_name", "crew", ["area_id", "name"])
    op.create_table(
        "crew_company",
        sa.Column("crew_id", ID, nullable=False, comment="the crew"),
        sa.Column("from_on", sa.Date(), nullable=False, comment="first day"),
        sa.Column("until_on", sa.Date(), comment="last day; none where it is open"),
        sa.Column("company", sa.Text(), nullable=False, comment="whose it is; empty for the operator's own"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("crew_id", "from_on", name="pk_crew_company"),
        comment="whose a crew is or was",
    )
    op.create_index("ix_crew_company_company", "crew_company", ["company"])
    op.create_table(
        "crew_member",
        sa.Column("crew_id", ID, nullable=False, comment="the crew"),
        sa.Column("person_id", ID, nullable=False, comment="who is in it"),
        sa.Column("from_on", sa.Date(), nullable=False, comment="first day"),
        sa.Column("until_on", sa.Date(), comment="last day; none where it is open"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("crew_id", "person_id", "from_on", name="pk_crew_member"),
        comment="who is or was in a crew",
    )
    op.create_index("ix_crew_member_person_id", "crew_member", ["person_id"])


def _instruments_as_they_stand() -> None:
    op.create_table(
        "calibration",
        sa.Column("entry_id", ID, nullable=False, comment="the entry"),
        sa.Column("instrument_id", ID, nullable=False, comment="its instrument"),
        sa.Column("number", sa.Integer(), nullable=False, comment="its number among them, in the order of happening"),
        sa.Column("calibrated_on", sa.Date(), nullable=False, comment="its day"),
        sa.Column("result", sa.Text(), nullable=False, comment="in_tolerance, adjusted_to, out_of_tolerance"),
        sa.Column("next_due_on", sa.Date(), comment="last day on which it holds, as on the certificate"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", name="pk_calibration"),
        comment="the calibrations of an instrument",
    )
    op.create_index("ix_calibration_instrument_id", "calibration", ["instrument_id"])
    op.create_table(
        "instrument",
        sa.Column("id", ID, nullable=False, comment="the instrument"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("mark", sa.Text(), nullable=False, comment="mark, as on its label"),
        sa.Column("what", sa.Text(), nullable=False, comment="what it is"),
        sa.Column("retired_on", sa.Date(), comment="day on which it was retired"),
        sa.Column("calibrated_on", sa.Date(), comment="day of the last calibration"),
        sa.Column("result", sa.Text(), comment="its result: in_tolerance, adjusted_to, out_of_tolerance"),
        sa.Column("next_due_on", sa.Date(), comment="last day on which it holds, as on the certificate"),
        sa.Column("checked_on", sa.Date(), comment="day of the last check with gas"),
        sa.Column("check_result", sa.Text(), comment="what came of it: good, not_good"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="added in error"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_instrument"),
        comment="an instrument as it stands",
    )
    op.create_index("ix_instrument_area_id_mark", "instrument", ["area_id", "mark"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
