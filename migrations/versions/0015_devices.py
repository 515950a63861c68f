"""What a browser says that it is, beside each sign-in.

Revision: 0015
"""

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None


def upgrade() -> None:
    device = sa.Column("device", sa.Text(), comment="browser and system, as the browser names them")
    op.add_column("session", device)


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
