"""Entries about instruments: what reads gas and pressure, its calibrations and its daily checks."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Rows, code, day, measure, ref, text
from repairlog.entries.visit import GASES

_INSTRUMENT = ref("subject", "instrument", to="instrument", required=True)

INSTRUMENT_ADDED = EntryKind(
    name="instrument_added",
    says="an instrument is added",
    opens="instrument",
    fields=(
        ref("area", "operating area", to="area", required=True),
        text("mark", "mark, as on its label", longest=60, required=True),
        text("what", "what it is", longest=120, required=True),
        text("maker", "maker"),
        text("model", "model", longest=120),
        text("serial_number", "serial number", longest=60),
        HAPPENED,
    ),
)

INSTRUMENT_CALIBRATED = EntryKind(
    name="instrument_calibrated",
    says="an instrument is calibrated",
    folds_in="subject",
    fields=(
        _INSTRUMENT,
        HAPPENED,
        code("result", "result", of=("in_tolerance", "adjusted_to", "out_of_tolerance"), required=True),
        day("next_due_on", "last day on which it holds, as on the certificate"),
        text("by_whom", "laboratory or person that calibrated it", longest=120),
        text("certificate_number", "number of the certificate", longest=60),
        text("remarks", "what else is to be known", longest=4000),
    ),
    rows=(
        Rows(
            name="points",
            says="points at which it was read",
            fields=(
                code("gas", "gas", of=GASES),
                measure("expected", "what it should read", of="gas"),
                measure("found", "what it read before", of="gas"),
                measure("left_at", "what it reads now", of="gas"),
            ),
        ),
    ),
)

INSTRUMENT_CHECKED = EntryKind(
    name="instrument_checked",
    says="an instrument is checked with gas",
    folds_in="subject",
    fields=(
        _INSTRUMENT,
        HAPPENED,
        ref("cylinder", "lot of the gas cylinder", to="lot"),
        text("cylinder_named", "gas cylinder as marked, where its lot is not on the books", longest=120),
        measure("expected", "what it should read", of="gas"),
        measure("read", "what it read", of="gas"),
        code("result", "result", of=("good", "not_good"), required=True),
        text("remarks", "what else is to be known", longest=1000),
    ),
)

INSTRUMENT_RETIRED = EntryKind(
    name="instrument_retired",
    says="an instrument is retired",
    folds_in="subject",
    fields=(_INSTRUMENT, HAPPENED, text("reason", "why", longest=1000)),
)

KINDS = (INSTRUMENT_ADDED, INSTRUMENT_CALIBRATED, INSTRUMENT_CHECKED, INSTRUMENT_RETIRED)
