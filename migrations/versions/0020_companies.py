"""Companies: what is said of them, their names and terms; a role that is given with a person may be bound to one.

Revision: 0020
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0020"
down_revision = "0019"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")


def upgrade() -> None:
    _said()
    _worked()
    whose = "company whose work alone is seen; where left out, all of the area, as typed"
    op.add_column("person_added_roles", sa.Column("company", sa.Text(), comment=whose))


def _said() -> None:
    op.create_table(
        "company_added",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("name", sa.Text(), comment="name of the company, as typed"),
        sa.Column("what", sa.Text(), comment="what it does for the operator, as typed"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("from_on", sa.Date(), comment="first day of its work for the operator, where it is known"),
        sa.Column("until_on", sa.Date(), comment="last day, where one is agreed; open where left out"),
        sa.Column(
            "workplace",
            sa.Text(),
            comment="where it is reached: its office or yard, never a person's own number, as typed",
        ),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_company_added"),
        comment="a company is put on the books",
    )
    op.create_table(
        "company_added_also_named",
        sa.Column("entry_id", ID, nullable=False),
        sa.Column("key", sa.Text(), nullable=False, comment="the row's key"),
        sa.Column("name", sa.Text(), comment="name as written, as typed"),
        sa.PrimaryKeyConstraint("entry_id", "key", name="pk_company_added_also_named"),
        comment="a company is put on the books: names that it is also written as",
    )
    op.create_table(
        "company_back",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="company"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("from_on", sa.Date(), comment="first day of the further term"),
        sa.Column("until_on", sa.Date(), comment="last day, where one is agreed; open where left out"),
        sa.Column("remarks", sa.Text(), comment="what else is to be known, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_company_back"),
        comment="a company works for the operator again, or for longer",
    )
    op.create_table(
        "company_left",
        sa.Column("id", ID, nullable=False, comment="the entry"),
        sa.Column("subject_id", ID, comment="company"),
        sa.Column("happened", sa.Text(), comment="when it happened, as typed"),
        sa.Column("until_on", sa.Date(), comment="last day"),
        sa.Column("reason", sa.Text(), comment="why, as typed"),
        sa.PrimaryKeyConstraint("id", name="pk_company_left"),
        comment="a company's work for the operator ends",
    )


def _worked() -> None:
    op.create_table(
        "company",
        sa.Column("id", ID, nullable=False, comment="the company"),
        sa.Column("name", sa.Text(), nullable=False, comment="its name"),
        sa.Column("what", sa.Text(), nullable=False, comment="what it does: contractor, laboratory, mutual_aid, other"),
        sa.Column("void", sa.Boolean(), nullable=False, comment="put on the books in error"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("id", name="pk_company"),
        comment="a company as it stands",
    )
    op.create_index("ix_company_name_id", "company", ["name", "id"])
    op.create_table(
        "company_name",
        sa.Column("company_id", ID, nullable=False, comment="the company"),
        sa.Column("plain", sa.Text(), nullable=False, comment="the name as it is compared: capitals and spaces apart"),
        sa.Column("name", sa.Text(), nullable=False, comment="the name as written"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("company_id", "plain", name="pk_company_name"),
        comment="every name that a company is written as, its own too",
    )
    op.create_index("ix_company_name_plain", "company_name", ["plain"])
    op.create_table(
        "company_term",
        sa.Column("entry_id", ID, nullable=False, comment="the entry that tells of it"),
        sa.Column("company_id", ID, nullable=False, comment="the company"),
        sa.Column("from_on", sa.Date(), comment="first day; none where it is not known"),
        sa.Column("until_on", sa.Date(), comment="last day; none where it is open"),
        sa.Column("engine", sa.Integer(), nullable=False, comment="version of the engine that worked this row out"),
        sa.PrimaryKeyConstraint("entry_id", name="pk_company_term"),
        comment="from when to when a company works for the operator",
    )
    op.create_index("ix_company_term_company_id", "company_term", ["company_id"])


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
