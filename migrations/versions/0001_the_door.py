"""The door: journal, facts, worked rows, and what stands beside them.

Revision: 0001
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(sa.DateTime(timezone=True), "postgresql")

SQLITE_TRIGGERS = (
    """CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal accepts only the next line'); END""",
    """CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal accepts only the next line'); END""",
    """CREATE TRIGGER journal_next BEFORE INSERT ON journal
WHEN NEW.journal_index IS NOT (SELECT coalesce(max(journal_index), -1) + 1 FROM journal)
OR EXISTS (SELECT 1 FROM journal WHERE id = NEW.id OR rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'the journal accepts only the next line'); END""",
    """CREATE TRIGGER head_grows BEFORE UPDATE ON head
WHEN NEW.size <= OLD.size OR NEW.only IS NOT OLD.only
BEGIN SELECT RAISE(ABORT, 'the head of the journal only grows'); END""",
    """CREATE TRIGGER head_no_delete BEFORE DELETE ON head
BEGIN SELECT RAISE(ABORT, 'the head of the journal only grows'); END""",
    """CREATE TRIGGER head_one BEFORE INSERT ON head
WHEN EXISTS (SELECT 1 FROM head)
BEGIN SELECT RAISE(ABORT, 'the head of the journal only grows'); END""",
)

POSTGRESQL_TRIGGERS = (
    """CREATE FUNCTION journal_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION 'the journal accepts only the next line' USING ERRCODE = 'integrity_constraint_violation'; END $$""",
    """CREATE FUNCTION journal_accept_next() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
IF NEW.journal_index IS DISTINCT FROM (SELECT coalesce(max(journal_index), -1) + 1 FROM journal) THEN
RAISE EXCEPTION 'the journal accepts only the next line' USING ERRCODE = 'integrity_constraint_violation'; END IF;
RETURN NEW;
END $$""",
    """CREATE FUNCTION head_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION 'the head of the journal only grows' USING ERRCODE = 'integrity_constraint_violation'; END $$""",
    """CREATE FUNCTION head_accept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
IF TG_OP = 'UPDATE' AND (NEW.size <= OLD.size OR NEW.only <> OLD.only)
OR TG_OP = 'INSERT' AND EXISTS (SELECT 1 FROM head) THEN
RAISE EXCEPTION 'the head of the journal only grows' USING ERRCODE = 'integrity_constraint_violation'; END IF;
RETURN NEW;
END $$""",
    """CREATE TRIGGER journal_no_change BEFORE UPDATE OR DELETE ON journal
FOR EACH ROW EXECUTE FUNCTION journal_refuse()""",
    """CREATE TRIGGER journal_no_truncate BEFORE TRUNCATE ON journal
FOR EACH STATEMENT EXECUTE FUNCTION journal_refuse()""",
    """CREATE TRIGGER journal_next BEFORE INSERT ON journal
FOR EACH ROW EXECUTE FUNCTION journal_accept_next()""",
    """CREATE TRIGGER head_no_delete BEFORE DELETE ON head
FOR EACH ROW EXECUTE FUNCTION head_refuse()""",
    """CREATE TRIGGER head_no_truncate BEFORE TRUNCATE ON head
FOR EACH STATEMENT EXECUTE FUNCTION head_refuse()""",
    """CREATE TRIGGER head_grows BEFORE INSERT OR UPDATE ON head
FOR EACH ROW EXECUTE FUNCTION head_accept()""",
)

EMPTY_ROOT = bytes.fromhex("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")  # RFC 9162 2.1.1


def upgrade() -> None:
    make_tables()
    head = sa.table("head", sa.column("only"), sa.column("size"), sa.column("peaks"), sa.column("root"))
    op.bulk_insert(head, [{"only": 1, "size": 0, "peaks": b"", "root": EMPTY_ROOT}])
    triggers = SQLITE_TRIGGERS if op.get_bind().dialect.name == "sqlite" else POSTGRESQL_TRIGGERS
    for trigger in triggers:
        op.execute(trigger)


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")


def make_tables() -> None:
    op.create_table(
        "private_value",
        sa.Column("entry_id", ID, nullable=False, comment="the entry that gave it"),
        sa.Column("path", sa.Text(), nullable=False, comment="where in the entry"),
        sa.Column("digest", sa.Text(), nullable=False, comment="SHA-256(salt || value), as sealed"),
        sa.Column("salt", sa.LargeBinary(32), comment="its salt; none once the value is removed"),
        sa.Column("value", sa.Text(), comment="the value; none once it is removed"),
        sa.Column("removed_on", sa.Date(), comment="the day on which it was removed"),
        sa.PrimaryKeyConstraint("entry_id", "path", name="pk_private_value"),
        comment="personal data that must be able to go",
    )
    op.create_index("ix_private_value_digest", "private_value", ["digest"], unique=False)
    op.create_table(
        "unfinished",
        sa.Column("id", ID, nullable=False, comment="the id of the first entry in it"),
        sa.Column("person_id", ID, nullable=False, comment="whose it is"),
        sa.Column("because", sa.Text(), nullable=False, comment="not_understood, refused, waits, conflict, left"),
        sa.Column("form", sa.Text(), nullable=False, comment="which form, or entries for a call of the API"),
        sa.Column("raw", sa.Text(), nullable=False, comment="what was typed, as JSON"),
        sa.Column("kept_at", MOMENT, nullable=False, comment="when it was kept"),
        sa.Column("actor", sa.Text(), comment="who sent it and how sure, as JSON, where it is tried again by itself"),
        sa.PrimaryKeyConstraint("id", "person_id", name="pk_unfinished"),
        comment="what is typed and not yet saved, kept 90 days",
    )
    op.create_index("ix_unfinished_person_id", "unfinished", ["person_id"], unique=False)
    op.create_table(
        "waits_for",
        sa.Column("unfinished_id", ID, nullable=False, comment="what waits"),
        sa.Column("person_id", ID, nullable=False, comment="whose it is"),
        sa.Column("id", ID, nullable=False, comment="the subject or entry it waits for"),
        sa.ForeignKeyConstraint(
            ["unfinished_id", "person_id"],
            ["unfinished.id", "unfinished.person_id"],
            name="fk_waits_for_unfinished_id_person_id",
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("unfinished_id", "person_id", "id", name="pk_waits_for"),
        comment="what an unfinished call waits for",
    )
    op.create_index("ix_waits_for_id", "waits_for", ["id"], unique=False)
    op.create_table(
        "stale",
        sa.Column(
            "subject_id", ID, nullable=False, comment="the subject whose worked rows wait to be worked out again"
        ),
        sa.Column("stale_since", MOMENT, nullable=False, comment="since when"),
        sa.Column("because_id", ID, nullable=False, comment="the entry that changed what they rest on"),
        sa.PrimaryKeyConstraint("subject_id", name="pk_stale"),
        comment="subjects whose worked rows are stale: too many for one commit",
    )
    op.create_table(
        "subject",
        sa.Column("id", ID, nullable=False, comment="the id of the entry that opened it"),
        sa.Column("kind", sa.Text(), nullable=False, comment="what it is: leak, lot, person"),
        sa.Column("area_id", ID, comment="the operating area it was opened in; none for the operator and for people"),
        sa.Column("within_id", ID, comment="the leak of a source"),
        sa.PrimaryKeyConstraint("id", name="pk_subject"),
        comment="what records are about; locked by every post that folds or rests on it",
    )
    op.create_index(
        "one_operator",
        "subject",
        ["kind"],
        unique=True,
        sqlite_where=sa.text("kind = 'operator'"),
        postgresql_where=sa.text("kind = 'operator'"),
    )
    op.create_index("ix_subject_kind_area_id", "subject", ["kind", "area_id"], unique=False)
    op.create_table(
        "entry",
        sa.Column("id", ID, nullable=False, comment="the entry's id"),
        sa.Column("journal_index", sa.BigInteger(), nullable=False, comment="its place in the journal"),
        sa.Column("kind", sa.Text(), nullable=False, comment="its kind"),
        sa.Column("subject_id", ID, nullable=False, comment="the subject in whose story it stands"),
        sa.Column("happened_on", sa.Date(), nullable=False, comment="legal day in the area's zone"),
        sa.Column("happened_at", MOMENT, comment="moment; none where only the day is known"),
        sa.Column("happened_known", sa.Text(), comment="on_or_before where an old list gives no day"),
        sa.Column("zone", sa.Text(), nullable=False, comment="zone of the legal day"),
        sa.Column("utc_offset", sa.Text(), comment="offset then in force, where the hour is known"),
        sa.Column("written_at", MOMENT, comment="by the device's clock"),
        sa.Column("received_at", MOMENT, nullable=False, comment="by the server's clock"),
        sa.Column("typed_by", ID, nullable=False, comment="who typed it"),
        sa.Column("sent_by", ID, nullable=False, comment="whose credential sent it"),
        sa.Column(
            "sure", sa.Text(), nullable=False, comment="how sure we are of the sender: password, token, import, system"
        ),
        sa.Column("corrected", sa.Boolean(), nullable=False, comment="some correction of it counts"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="it was made void"),
        sa.PrimaryKeyConstraint("id", name="pk_entry"),
        sa.UniqueConstraint("journal_index", name="uq_entry_journal_index"),
        comment="the index of entries: the Sheet and the lists read it, never the journal's own columns",
    )
    op.create_index("ix_entry_subject_id_happened_on", "entry", ["subject_id", "happened_on"], unique=False)
    op.create_table(
        "about",
        sa.Column("entry_id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, nullable=False, comment="a subject it names"),
        sa.Column("as_what", sa.Text(), nullable=False, comment="as what: opens, leak, materials.lot, rights"),
        sa.PrimaryKeyConstraint("entry_id", "subject_id", "as_what", name="pk_about"),
        comment="ties an entry to every subject it names",
    )
    op.create_index(
        "ix_about_subject_id_as_what_entry_id", "about", ["subject_id", "as_what", "entry_id"], unique=False
    )
    op.create_table(
        "street",
        sa.Column("id", ID, nullable=False, comment="digest of name and town"),
        sa.Column("name", sa.Text(), nullable=False, comment="as first written, by digest the same"),
        sa.Column("town", sa.Text(), nullable=False, comment="town; empty where none was given"),
        sa.Column("search_key", sa.Text(), nullable=False, comment="name and town as they are looked up"),
        sa.PrimaryKeyConstraint("id", name="pk_street"),
        comment="streets that an entry names, so that a part of a name is looked up among thousands, not millions",
    )
    op.create_index("ix_street_search_key", "street", ["search_key"], unique=False)
    op.create_table(
        "operator_opened",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("name", sa.Text(), comment="name of the operator, as typed"),
        sa.Column("zone", sa.Text(), comment="time zone, such as America/New_York, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_operator_opened"),
        comment="the operator's book is opened",
    )
    op.create_table(
        "area_opened",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("name", sa.Text(), comment="name of the area, as typed"),
        sa.Column("code", sa.Text(), comment="short code that leak numbers start with, as typed"),
        sa.Column("zone", sa.Text(), comment="time zone, such as America/New_York, as typed"),
        sa.Column(
            "elevation", sa.Text(), comment="height above the sea; the local atmosphere follows from it, as typed"
        ),
        sa.Column(
            "elevation_m",
            sa.Double(),
            comment="height above the sea; the local atmosphere follows from it, in the unit of this column's name",
        ),
        sa.Column("lel_basis", sa.Text(), comment="percent methane that counts as 100 %LEL, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_area_opened"),
        comment="an operating area is opened",
    )
    op.create_table(
        "person_added",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("name", sa.Text(), comment="name, as typed"),
        sa.Column("company", sa.Text(), comment="company, where not the operator's own, as typed"),
        sa.Column("staff_number", sa.Text(), comment="number that the operator gave the person, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_person_added"),
        comment="a person is added",
    )
    op.create_table(
        "crew_made",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("name", sa.Text(), comment="name of the crew, as typed"),
        sa.Column("company", sa.Text(), comment="company, where not the operator's own, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_crew_made"),
        comment="a crew is made",
    )
    op.create_table(
        "lot_received",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("item", sa.Text(), comment="what it is, as typed"),
        sa.Column("maker", sa.Text(), comment="maker, as typed"),
        sa.Column("lot_number", sa.Text(), comment="lot number as printed, as typed"),
        sa.Column("received", sa.Text(), comment="how much came, as counted, as typed"),
        sa.Column("shelf", sa.Text(), comment="where it lies, as typed"),
        sa.Column("expires_on", sa.Date(), comment="last day on which it may be used"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_lot_received"),
        comment="a lot of material is received",
    )
    op.create_table(
        "leak_opened",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("area_id", ID, comment="operating area"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column(
            "discovered", sa.Text(), comment="when it was discovered, where that differs from the report, as typed"
        ),
        sa.Column(
            "discovered_on", sa.Date(), comment="when it was discovered, where that differs from the report: legal day"
        ),
        sa.Column(
            "discovered_at",
            MOMENT,
            comment="when it was discovered, where that differs from the report: moment, where the hour is known",
        ),
        sa.Column("detected_by", sa.Text(), comment="how it was detected, as typed"),
        sa.Column("number", sa.Text(), comment="number that it bore in an older list, as typed"),
        sa.Column("house_number", sa.Text(), comment="house number, as typed"),
        sa.Column("street", sa.Text(), comment="street, as typed"),
        sa.Column("cross_street", sa.Text(), comment="cross street, as typed"),
        sa.Column("town", sa.Text(), comment="town, as typed"),
        sa.Column("postal_code", sa.Text(), comment="postal code, as typed"),
        sa.Column("location", sa.Text(), comment="where, in words, as typed"),
        sa.Column(
            "reporter_name_digest",
            sa.Text(),
            comment="name of the person who reported it: salted digest; the value stands beside",
        ),
        sa.Column("number_given", sa.Text(), comment="number given by the door"),
        sa.Column("street_id", ID, comment="the street"),
        sa.PrimaryKeyConstraint("id", name="pk_leak_opened"),
        comment="a leak is opened",
    )
    op.create_table(
        "source_added",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
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
        sa.Column("coating", sa.Text(), comment="coating, as typed"),
        sa.Column("defect", sa.Text(), comment="what it is, as typed"),
        sa.Column("location", sa.Text(), comment="where, in words, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_source_added"),
        comment="a source of the leak is found",
    )
    op.create_table(
        "grade_set",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("grade", sa.Text(), comment="grade or class code, as typed"),
        sa.Column(
            "rank", sa.BigInteger(), comment="rank of a grade that no rulebook here knows; 1 is the most hazardous"
        ),
        sa.Column("criterion", sa.Text(), comment="criterion that calls for it, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.Column("rank_understood", sa.BigInteger(), comment="rank of the grade, as understood"),
        sa.PrimaryKeyConstraint("id", name="pk_grade_set"),
        comment="a grade is set",
    )
    op.create_table(
        "leak_ended",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("how", sa.Text(), comment="in which way, as typed"),
        sa.Column("joined_to_id", ID, comment="the leak that it is joined to"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_leak_ended"),
        comment="the leak is ended",
    )
    op.create_table(
        "visit",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("purpose", sa.Text(), comment="what for, as typed"),
        sa.Column("outcome", sa.Text(), comment="looked, or no access, as typed"),
        sa.Column("ground", sa.Text(), comment="condition of the ground, as typed"),
        sa.Column("extent", sa.Text(), comment="area over which gas was read, as typed"),
        sa.Column("extent_m2", sa.Double(), comment="area over which gas was read, in the unit of this column's name"),
        sa.Column("instrument", sa.Text(), comment="instrument, as marked, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else was seen, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_visit"),
        comment="places are looked at",
    )
    op.create_table(
        "repair_attempted",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("source_id", ID, comment="source"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("lasting", sa.Text(), comment="permanent or temporary, as typed"),
        sa.Column("method", sa.Text(), comment="method, as typed"),
        sa.Column("cause", sa.Text(), comment="cause of the leak, as typed"),
        sa.Column("hole_size", sa.Text(), comment="size of the hole, as typed"),
        sa.Column("hole_size_mm", sa.Double(), comment="size of the hole, in the unit of this column's name"),
        sa.Column("pressure_found", sa.Text(), comment="line pressure found, as typed"),
        sa.Column(
            "pressure_found_kpa_gauge", sa.Double(), comment="line pressure found, in the unit of this column's name"
        ),
        sa.Column("pressure_installing", sa.Text(), comment="line pressure while installing, as typed"),
        sa.Column(
            "pressure_installing_kpa_gauge",
            sa.Double(),
            comment="line pressure while installing, in the unit of this column's name",
        ),
        sa.Column("pressure_restored", sa.Text(), comment="line pressure restored, as typed"),
        sa.Column(
            "pressure_restored_kpa_gauge",
            sa.Double(),
            comment="line pressure restored, in the unit of this column's name",
        ),
        sa.Column("authorised_by_id", ID, comment="who authorised a pressure change"),
        sa.Column("authorised_by_named", sa.Text(), comment="name of that person, where not on the books, as typed"),
        sa.Column("pipe_temperature", sa.Text(), comment="temperature of the pipe, as typed"),
        sa.Column(
            "pipe_temperature_degc", sa.Double(), comment="temperature of the pipe, in the unit of this column's name"
        ),
        sa.Column("air_temperature", sa.Text(), comment="temperature of the air, as typed"),
        sa.Column(
            "air_temperature_degc", sa.Double(), comment="temperature of the air, in the unit of this column's name"
        ),
        sa.Column("customers", sa.Text(), comment="customers kept on, or off, as typed"),
        sa.Column("coating", sa.Text(), comment="coating put back, as typed"),
        sa.Column("outcome", sa.Text(), comment="tight or not, in the crew's word, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_repair_attempted"),
        comment="a repair is attempted",
    )
    op.create_table(
        "tested",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("attempt_id", ID, comment="the attempt that is tested"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("kind_of_test", sa.Text(), comment="kind of test, as typed"),
        sa.Column("pressure", sa.Text(), comment="test pressure, as typed"),
        sa.Column("pressure_kpa_gauge", sa.Double(), comment="test pressure, in the unit of this column's name"),
        sa.Column("duration", sa.Text(), comment="how long it was held, as typed"),
        sa.Column("duration_s", sa.Double(), comment="how long it was held, in the unit of this column's name"),
        sa.Column("medium", sa.Text(), comment="medium, as typed"),
        sa.Column("instrument", sa.Text(), comment="instrument, as marked, as typed"),
        sa.Column("result", sa.Text(), comment="result, as typed"),
        sa.Column("remarks", sa.Text(), comment="what else was seen, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_tested"),
        comment="a repair is tested",
    )
    op.create_table(
        "repair_reviewed",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("leak_id", ID, comment="leak"),
        sa.Column("attempt_id", ID, comment="the attempt"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("outcome", sa.Text(), comment="accepted or returned, as typed"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_repair_reviewed"),
        comment="a repair is accepted or returned",
    )
    op.create_table(
        "corrected",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("entry_id", ID, comment="the entry that is put right"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_corrected"),
        comment="an entry is corrected",
    )
    op.create_table(
        "void",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("entry_id", ID, comment="the entry that was made in error"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_void"),
        comment="an entry is made void",
    )
    op.create_table(
        "area_opened_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_area_opened_kept_as_text"),
        comment="an operating area is opened: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "person_added_roles",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("role", sa.Text(), comment="role, as typed"),
        sa.Column("area_id", ID, comment="operating area; every area where left out"),
        sa.Column("from_on", sa.Date(), comment="first day"),
        sa.Column("until_on", sa.Date(), comment="last day; open where left out"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_person_added_roles"),
        comment="a person is added: what the person may do, where and from when",
    )
    op.create_table(
        "crew_made_members",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("person_id", ID, comment="person"),
        sa.Column("from_on", sa.Date(), comment="first day"),
        sa.Column("until_on", sa.Date(), comment="last day"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_crew_made_members"),
        comment="a crew is made: who is in the crew",
    )
    op.create_table(
        "leak_opened_outside_numbers",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("what", sa.Text(), comment="kind of number: work order, call, premise, list, as typed"),
        sa.Column("number", sa.Text(), comment="number, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_leak_opened_outside_numbers"),
        comment="a leak is opened: numbers that others know it by",
    )
    op.create_table(
        "source_added_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_source_added_kept_as_text"),
        comment="a source of the leak is found: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "leak_ended_attempts",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("attempt_id", ID, comment="repair attempt"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_leak_ended_attempts"),
        comment="the leak is ended: the tight attempt on each source",
    )
    op.create_table(
        "visit_places",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("kind", sa.Text(), comment="what kind of place, as typed"),
        sa.Column("owner", sa.Text(), comment="whose, as typed"),
        sa.Column("label", sa.Text(), comment="label or where, as typed"),
        sa.Column("same_as", sa.Text(), comment="the same hole as before, as typed"),
        sa.Column("from_building", sa.Text(), comment="distance from the building, as typed"),
        sa.Column(
            "from_building_m", sa.Double(), comment="distance from the building, in the unit of this column's name"
        ),
        sa.Column("not_entered", sa.Text(), comment="not entered because, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_visit_places"),
        comment="places are looked at: the places looked at",
    )
    op.create_table(
        "visit_readings",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("place", sa.Text(), comment="key of the place, as typed"),
        sa.Column("gas", sa.Text(), comment="gas, as typed"),
        sa.Column("kind", sa.Text(), comment="sustained or peak, as typed"),
        sa.Column("value", sa.Text(), comment="reading, as typed"),
        sa.Column("value_percent_gas", sa.Double(), comment="reading, in the unit of this column's name"),
        sa.Column("value_ppm_co", sa.Double(), comment="reading, in the unit of this column's name"),
        sa.Column("value_ppm_m", sa.Double(), comment="reading, in the unit of this column's name"),
        sa.Column("instrument", sa.Text(), comment="instrument, where another than the visit's, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_visit_readings"),
        comment="places are looked at: readings",
    )
    op.create_table(
        "visit_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_visit_kept_as_text"),
        comment="places are looked at: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "repair_attempted_materials",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("lot_id", ID, comment="lot"),
        sa.Column("named", sa.Text(), comment="lot as read, where it is not on the books, as typed"),
        sa.Column("used", sa.Text(), comment="how much was used, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_repair_attempted_materials"),
        comment="a repair is attempted: materials by lot",
    )
    op.create_table(
        "repair_attempted_people",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("person_id", ID, comment="person"),
        sa.Column("named", sa.Text(), comment="name, where the person is not on the books, as typed"),
        sa.Column("task", sa.Text(), comment="covered task, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_repair_attempted_people"),
        comment="a repair is attempted: who did which covered task",
    )
    op.create_table(
        "repair_attempted_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_repair_attempted_kept_as_text"),
        comment="a repair is attempted: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "tested_kept_as_text",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_tested_kept_as_text"),
        comment="a repair is tested: measures that could not be read and that the person wants kept as written",
    )
    op.create_table(
        "corrected_changes",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("field", sa.Text(), comment="field, or list.key.field, as typed"),
        sa.Column("to", sa.Text(), comment="what it should say; left out, the value is taken away, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_corrected_changes"),
        comment="an entry is corrected: what is changed: a field, and what it should say",
    )
    op.create_table(
        "did",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("person_id", ID, comment="person"),
        sa.Column("named", sa.Text(), comment="name, where the person is not on the books, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_did"),
        comment="who did what an entry says",
    )
    op.create_table(
        "journal",
        sa.Column(
            "journal_index",
            sa.BigInteger(),
            nullable=False,
            autoincrement=False,
            comment="place in the journal, from 0",
        ),
        sa.Column("id", ID, nullable=False, comment="the entry's id, as in its line"),
        sa.Column("line", sa.LargeBinary(), nullable=False, comment="the sealed line, canonical JSON, byte for byte"),
        sa.Column("leaf", sa.LargeBinary(32), nullable=False, comment="SHA-256(00 || line), RFC 9162"),
        sa.PrimaryKeyConstraint("journal_index", name="pk_journal"),
        sa.UniqueConstraint("id", name="uq_journal_id"),
        comment="sealed lines in the order in which they were posted",
    )
    op.create_table(
        "head",
        sa.Column("only", sa.SmallInteger(), nullable=False, autoincrement=False, comment="always 1"),
        sa.Column("size", sa.BigInteger(), nullable=False, comment="lines in the journal"),
        sa.Column("peaks", sa.LargeBinary(), nullable=False, comment="roots of the full subtrees, largest first"),
        sa.Column("root", sa.LargeBinary(32), nullable=False, comment="root of the tree, RFC 9162"),
        sa.CheckConstraint('"only" = 1', name=op.f("ck_head_only")),
        sa.PrimaryKeyConstraint("only", name="pk_head"),
        comment="the head of the tree: one row, locked last by every post",
    )
    op.create_table(
        "area",
        sa.Column("id", ID, nullable=False, comment="the area"),
        sa.Column("name", sa.Text(), nullable=False, comment="its name"),
        sa.Column("code", sa.Text(), nullable=False, comment="what its leaks' numbers start with"),
        sa.Column("zone", sa.Text(), nullable=False, comment="its time zone"),
        sa.Column("elevation_m", sa.Double(), comment="height above the sea, as a number"),
        sa.Column("elevation", sa.Text(), comment="height above the sea, canonical"),
        sa.Column("lel_basis", sa.Text(), nullable=False, comment="percent methane that counts as 100 %LEL"),
        sa.Column(
            "settings_version",
            sa.BigInteger(),
            nullable=False,
            comment="entries in its story: every change counts one up",
        ),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_area"),
        comment="an operating area's settings as they stand",
    )
    op.create_index("ix_area_code", "area", ["code"], unique=False)
    op.create_table(
        "area_counter",
        sa.Column("area_id", ID, nullable=False, comment="the area"),
        sa.Column("year", sa.Integer(), nullable=False, autoincrement=False, comment="year of the leaks' first day"),
        sa.Column("last", sa.BigInteger(), nullable=False, comment="the highest counter given"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("area_id", "year", name="pk_area_counter"),
        comment="how far an area has counted its leaks of a year",
    )
    op.create_table(
        "lot",
        sa.Column("id", ID, nullable=False, comment="the lot"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("item", sa.Text(), nullable=False, comment="what it is"),
        sa.Column("lot_number", sa.Text(), nullable=False, comment="lot number as printed"),
        sa.Column("expires_on", sa.Date(), comment="last day on which it may be used"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="its receipt was made void"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_lot"),
        comment="a lot as it stands",
    )
    op.create_index("ix_lot_lot_number", "lot", ["lot_number"], unique=False)
    op.create_table(
        "leak",
        sa.Column("id", ID, nullable=False, comment="the leak"),
        sa.Column("number", sa.Text(), nullable=False, comment="its number, for people"),
        sa.Column("area_id", ID, nullable=False, comment="its area"),
        sa.Column("status", sa.Text(), nullable=False, comment="open, ended, opened_in_error"),
        sa.Column("reported_on", sa.Date(), nullable=False, comment="legal day of the report"),
        sa.Column("reported_at", MOMENT, comment="moment of the report, where the hour is known"),
        sa.Column("grade_found", sa.Text(), comment="grade as found"),
        sa.Column("rank_found", sa.BigInteger(), comment="its rank; 1 is the most hazardous"),
        sa.Column("grade_now", sa.Text(), comment="grade now"),
        sa.Column("rank_now", sa.BigInteger(), comment="its rank"),
        sa.Column("house_number", sa.Text(), comment="house number"),
        sa.Column("street_id", ID, comment="street"),
        sa.Column("cross_street", sa.Text(), comment="cross street"),
        sa.Column("postal_code", sa.Text(), comment="postal code"),
        sa.Column("sources", sa.Integer(), nullable=False, comment="how many sources were found"),
        sa.Column("attempts", sa.Integer(), nullable=False, comment="how many repairs were attempted"),
        sa.Column("ended_on", sa.Date(), comment="day of the tight repair or other ending"),
        sa.Column("ended_how", sa.Text(), comment="in which way it ended"),
        sa.Column("ended_by_id", ID, comment="the ending that counts"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_leak"),
        comment="a leak as it stands",
    )
    op.create_index(
        "ix_leak_area_id_status_reported_on_id", "leak", ["area_id", "status", "reported_on", "id"], unique=False
    )
    op.create_index("ix_leak_number", "leak", ["number"], unique=True)
    op.create_index("ix_leak_reported_on_id", "leak", ["reported_on", "id"], unique=False)
    op.create_index("ix_leak_street_id_reported_on_id", "leak", ["street_id", "reported_on", "id"], unique=False)
    op.create_table(
        "source",
        sa.Column("id", ID, nullable=False, comment="the source"),
        sa.Column("leak_id", ID, nullable=False, comment="its leak"),
        sa.Column("number", sa.Integer(), nullable=False, comment="its number in the leak, in the order of happening"),
        sa.Column("tight_on", sa.Date(), comment="day of the tight permanent attempt on it, where there is one"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_source"),
        comment="a source of a leak as it stands",
    )
    op.create_index("ix_source_leak_id", "source", ["leak_id"], unique=False)
    op.create_table(
        "attempt",
        sa.Column("id", ID, nullable=False, comment="the entry of the attempt"),
        sa.Column("leak_id", ID, nullable=False, comment="its leak"),
        sa.Column("source_id", ID, comment="its source, where one was named"),
        sa.Column("number", sa.Integer(), nullable=False, comment="its number in the leak, in the order of happening"),
        sa.Column("lasting", sa.Text(), nullable=False, comment="permanent or temporary"),
        sa.Column("attempted_on", sa.Date(), nullable=False, comment="legal day"),
        sa.Column(
            "outcome", sa.Text(), nullable=False, comment="tight, not_tight, not_tested or cannot_say, after its tests"
        ),
        sa.Column("decided_by_id", ID, comment="the test that decides over it, where there is one"),
        sa.Column("review", sa.Text(), nullable=False, comment="waiting, accepted or returned"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_attempt"),
        comment="a repair attempt as it stands",
    )
    op.create_index("ix_attempt_leak_id", "attempt", ["leak_id"], unique=False)
    op.create_table(
        "bar_hole",
        sa.Column("entry_id", ID, nullable=False, comment="the visit that first looked at it"),
        sa.Column("key", sa.Text(), nullable=False, comment="key of its place in that visit"),
        sa.Column("leak_id", ID, nullable=False, comment="its leak"),
        sa.Column("number", sa.Integer(), nullable=False, comment="its number in the leak, kept for good"),
        sa.Column("label", sa.Text(), comment="the person's label"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_bar_hole"),
        comment="a bar hole as numbered",
    )
    op.create_index("ix_bar_hole_leak_id", "bar_hole", ["leak_id"], unique=False)
    op.create_table(
        "gap",
        sa.Column("subject_id", ID, nullable=False, comment="in whose record it is"),
        sa.Column("code", sa.Text(), nullable=False, comment="what does not hold up"),
        sa.Column("entry_id", ID, nullable=False, comment="the entry that it is about"),
        sa.Column(
            "row_key", sa.Text(), nullable=False, comment="list.key of the row, or a field's path; empty for the entry"
        ),
        sa.Column("facts", sa.Text(), nullable=False, comment="the facts it rests on, canonical JSON"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("subject_id", "code", "entry_id", "row_key", name="pk_gap"),
        comment="what in the record does not hold up",
    )
    op.create_index("ix_gap_code", "gap", ["code"], unique=False)
