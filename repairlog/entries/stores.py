"""Entries about lots of material, and about the shelves and trucks where they lie."""

from __future__ import annotations

from dataclasses import replace

from repairlog.entries.fields import HAPPENED, EntryKind, code, day, measure, ref, text

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

SHELF_MADE = EntryKind(
    name="shelf_made",
    says="a shelf is named where material lies",
    opens="shelf",
    fields=(
        ref("area", "operating area", to="area", required=True),
        text("name", "what it is called", required=True),
        code("what", "where it is", of=("stockroom", "yard", "truck"), required=True),
        HAPPENED,
    ),
)

TEMPERATURE_LOGGED = EntryKind(
    name="temperature_logged",
    says="the temperature where material lies is logged",
    folds_in="subject",
    fields=(
        ref("subject", "shelf or truck", to="shelf", required=True),
        HAPPENED,
        measure("temperature", "how warm it is", of="temperature", required=True),
        measure("lowest", "coldest since it was last read", of="temperature"),
        measure("highest", "warmest since it was last read", of="temperature"),
        text("instrument", "thermometer, as marked", longest=60),
        ref("instrument_used", "thermometer, where it is on the books", to="instrument"),
        text("remarks", "what else is to be known", longest=1000),
    ),
)

_LOT = ref("lot", "lot", to="lot", required=True)
_HOW_MUCH = text("amount", "how much, as counted", longest=60)

LOT_MOVED = EntryKind(
    name="lot_moved",
    says="material of a lot is moved",
    folds_in="lot",
    fields=(
        _LOT,
        ref("shelf", "to which shelf or truck", to="shelf"),
        text("named", "to where, where that is not on the books", longest=120),
        text("amount", "how much, as counted; the whole lot where left out", longest=60),
        HAPPENED,
    ),
)

LOT_COUNTED = EntryKind(
    name="lot_counted",
    says="a lot is counted",
    folds_in="lot",
    fields=(_LOT, replace(_HOW_MUCH, required=True), text("remarks", "what else was seen", longest=4000), HAPPENED),
)

LOT_USED = EntryKind(
    name="lot_used",
    says="material of a lot is used otherwise than in a repair",
    folds_in="lot",
    fields=(
        _LOT,
        replace(_HOW_MUCH, required=True),
        text("used_for", "what for", longest=400, required=True),
        HAPPENED,
    ),
)

_WHY = text("reason", "why", longest=1000, required=True)

LOT_QUARANTINED = EntryKind(
    name="lot_quarantined", says="a lot is quarantined", folds_in="lot", fields=(_LOT, _WHY, HAPPENED)
)

LOT_RELEASED = EntryKind(
    name="lot_released", says="a lot is released from quarantine", folds_in="lot", fields=(_LOT, _WHY, HAPPENED)
)

LOT_SCRAPPED = EntryKind(
    name="lot_scrapped",
    says="material of a lot is scrapped",
    folds_in="lot",
    fields=(
        _LOT,
        text("amount", "how much, as counted; the whole lot where left out", longest=60),
        _WHY,
        HAPPENED,
    ),
)

KINDS = (
    LOT_RECEIVED,
    SHELF_MADE,
    TEMPERATURE_LOGGED,
    LOT_MOVED,
    LOT_COUNTED,
    LOT_USED,
    LOT_QUARANTINED,
    LOT_RELEASED,
    LOT_SCRAPPED,
)
