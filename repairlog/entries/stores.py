"""Entries about lots of material."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, day, ref, text

LOT_RECEIVED = EntryKind(
    name="lot_received",
    says="a lot of material is received",
    opens="lot",
    fields=(
        ref("area", "operating area", to="area", required=True),
        text("item", "what it is", required=True),
        text("maker", "maker"),
        text("lot_number", "lot number as printed", longest=60, required=True),
        text("received", "how much came, as counted", longest=60),
        text("shelf", "where it lies"),
        day("expires_on", "last day on which it may be used"),
        HAPPENED,
    ),
)

KINDS = (LOT_RECEIVED,)
