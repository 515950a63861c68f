"""Who may sign in, who is signed in, tokens; and what the list of leaks is read by.

Revision: 0003
"""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

ID = sa.LargeBinary(16).with_variant(postgresql.UUID(), "postgresql")
MOMENT = sa.Text().with_variant(postgresql.TIMESTAMP(timezone=True), "postgresql")


def upgrade() -> None:
    _credentials()
    _guessing_and_secrets()
    for columns in (
        ["area_id", "reported_on", "id"],
        ["status", "reported_on", "id"],
        ["grade_now", "reported_on", "id"],
    ):
        op.create_index("ix_leak_" + "_".join(columns), "leak", columns)
    _numbers()


def _numbers() -> None:
    op.drop_index("ix_leak_number", table_name="leak")
    op.create_index("ix_leak_number", "leak", ["number"], unique=True, postgresql_ops={"number": "text_pattern_ops"})
    op.create_index("ix_leak_opened_outside_numbers_number", "leak_opened_outside_numbers", ["number"])


def _credentials() -> None:
    op.create_table(
        "sign_in",
        sa.Column("person_id", ID, nullable=False, comment="whose it is; most people have none"),
        sa.Column("name", sa.Text(), nullable=False, comment="name as it is shown"),
        sa.Column("search_name", sa.Text(), nullable=False, comment="name as it is looked up"),
        sa.Column("password_hash", sa.Text(), nullable=False, comment="Argon2id, with its salt and cost"),
        sa.Column("made_at", MOMENT, nullable=False, comment="when it was made"),
        sa.Column("closed_at", MOMENT, comment="when it was closed for good"),
        sa.PrimaryKeyConstraint("person_id", name="pk_sign_in"),
        comment="who may sign in with a name and a password",
    )
    op.create_index("ix_sign_in_search_name", "sign_in", ["search_name"], unique=True)
    op.create_table(
        "session",
        sa.Column("digest", sa.LargeBinary(32), nullable=False, comment="SHA-256 of what the browser holds"),
        sa.Column("person_id", ID, nullable=False, comment="whose it is"),
        sa.Column("began_at", MOMENT, nullable=False, comment="when the person signed in"),
        sa.Column("seen_at", MOMENT, nullable=False, comment="when it was last used, to some minutes"),
        sa.PrimaryKeyConstraint("digest", name="pk_session"),
        comment="who is signed in; gone when the person signs out, or after a time",
    )
    op.create_index("ix_session_person_id", "session", ["person_id"])
    op.create_table(
        "token",
        sa.Column("digest", sa.LargeBinary(32), nullable=False, comment="SHA-256 of what the program holds"),
        sa.Column("person_id", ID, nullable=False, comment="in whose name it sends"),
        sa.Column("what", sa.Text(), nullable=False, comment="what it is for"),
        sa.Column("made_at", MOMENT, nullable=False, comment="when it was made"),
        sa.Column("closed_at", MOMENT, comment="when it was closed for good"),
        sa.PrimaryKeyConstraint("digest", name="pk_token"),
        comment="what programs show when they post entries",
    )
    op.create_index("ix_token_person_id", "token", ["person_id"])


def _guessing_and_secrets() -> None:
    op.create_table(
        "failed_sign_in",
        sa.Column(
            "key", sa.Text(), nullable=False, comment="digest of what is counted: a name, an address, or both together"
        ),
        sa.Column("failures", sa.Integer(), nullable=False, comment="failures in a row"),
        sa.Column("last_at", MOMENT, nullable=False, comment="when the last one was"),
        sa.PrimaryKeyConstraint("key", name="pk_failed_sign_in"),
        comment="how often signing in failed, so that guessing gets slower; survives a restart",
    )
    op.create_table(
        "secret",
        sa.Column("name", sa.Text(), nullable=False, comment="what it is for"),
        sa.Column("value", sa.LargeBinary(), nullable=False, comment="chance, never shown"),
        sa.PrimaryKeyConstraint("name", name="pk_secret"),
        comment="secrets of this book: every process that serves it signs with the same",
    )


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
