"""What is weighed at a visit, and the stress and class of the line.

Revision: 0016
"""

import sqlalchemy as sa
from alembic import op

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None

WEIGHED = {
    "likely_to_reach_outside_wall": "gas is likely to reach the outside wall of a building",
    "significant_migration": "gas spreads far through the ground",
    "probable_future_hazard": "it is likely to become a hazard",
    "public_or_property_endangered": "people or property may be endangered",
    "excavation_damage": "somebody dug into the pipe",
}


def upgrade() -> None:
    for name, comment in WEIGHED.items():
        op.add_column("visit", sa.Column(name, sa.Text(), comment=f"{comment}, as typed"))
    op.add_column(
        "visit",
        sa.Column(
            "percent_smys",
            sa.BigInteger(),
            comment="stress of the line at operating pressure, in % of SMYS, rounded up",
        ),
    )
    op.add_column("visit", sa.Column("class_location", sa.Text(), comment="class location of the line, as typed"))


def downgrade() -> None:
    raise RuntimeError("the tables only go forward; the way back is a backup")
