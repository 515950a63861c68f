"""When a lot came in, beside what else is worked out of it: whether it was used before that.

Revision: 0022
"""

import sqlalchemy as sa
from alembic import op

revision = "0022"
down_revision = "0021"
branch_labels = None
depends_on = None

RECEIVED = "SELECT entry.happened_on FROM entry WHERE entry.id = lot.id AND entry.happened_known IS NULL"


def upgrade() -> None:
    op.add_column("lot", sa.Column("received_on", sa.Date(), comment="day on which it came in, where that is known"))
    op.execute(f"UPDATE lot SET received_on = ({RECEIVED})")


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
