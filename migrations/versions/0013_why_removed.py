"""Why a private value was removed.

Revision: 0013
"""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("private_value", sa.Column("removed_because", sa.Text(), comment="why it was removed"))


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
