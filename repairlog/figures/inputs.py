"""Inputs that several figures ask for in the same words."""

from __future__ import annotations

from repairlog.figures.declared import Input
from repairlog.words import _

ATMOSPHERE = Input(
    name="atmosphere",
    kind="atmosphere",
    label=_("Atmosphere"),
    help=_('The local atmosphere, absolute, such as "12.1 psi"; else 101.325 kPa.'),
)
ELEVATION = Input(
    name="elevation",
    kind="elevation",
    label=_("Height above the sea"),
    help=_('The height above the sea, such as "5280 ft", in place of the atmosphere.'),
)
GRAVITY = Input(
    name="gravity",
    kind="number",
    label=_("Gravity of the gas (air 1)"),
    help=_("The gas's gravity against air; 0.6 where nothing is said."),
    default="0.6",
)
METHANE_SHARE = Input(
    name="methane_share",
    kind="share",
    label=_("Share of methane"),
    help=_("How much of the gas is methane, 0 to 1 or in per cent; 1 where nothing is said."),
    default="1",
)
YEAR = Input(
    name="year",
    kind="year",
    label=_("Year reported for"),
    help=_("Takes the global warming potential of that year; else the newest on file."),
)
K_RATIO = Input(
    name="k",
    kind="number",
    label=_("Ratio of specific heats"),
    help=_("Specific heat at constant pressure over that at constant volume."),
    default="1.3",
)
