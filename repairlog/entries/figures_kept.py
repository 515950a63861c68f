"""A worked figure is kept: what went into it, what came out, and by which formula. It is worked out, not measured."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Rows, entry, ref, text

MOST_INPUTS = 400

FIGURE_KEPT = EntryKind(
    name="figure_kept",
    says="a worked figure is kept",
    folds_in="subject",
    fields=(
        ref("subject", "what it was worked out for", to="", required=True),
        HAPPENED,
        text("figure", "which figure", longest=40, required=True),
        text("called", "what the figure is called", longest=120, required=True),
        entry("from_entry", "the entry whose values went into it"),
        text("formula", "formula", longest=390, required=True),
        text("formula_source", "source of the formula", longest=390),
        text("figure_version", "version of the arithmetic", longest=40, required=True),
        text("remarks", "what it is kept for", longest=1000),
    ),
    rows=(
        Rows(
            name="inputs",
            says="what went into it",
            most=MOST_INPUTS,
            fields=(
                text("name", "name of the input", longest=60, required=True),
                text("label", "what the input is called", longest=120),
                text("typed", "as it was typed; without it the usual value was taken", longest=2000),
                text("heard", "as it was understood", longest=2000),
            ),
            needs_one_of=("typed", "heard"),
        ),
        Rows(
            name="results",
            says="what came out of it",
            fields=(
                text("name", "name of the result, with its unit", longest=60, required=True),
                text("label", "what the result is called", longest=120),
                text("value", "value, a decimal number or a word", longest=390, required=True),
                text("unit", "unit", longest=120),
                text("shown", "as a person was shown it", longest=390),
            ),
        ),
        Rows(
            name="holds_for",
            says="bounds within which it holds",
            fields=(text("text", "bound", longest=390, required=True),),
        ),
        Rows(
            name="cautions",
            says="cautions that stood under it",
            fields=(text("text", "caution", longest=390, required=True),),
        ),
    ),
)

KINDS = (FIGURE_KEPT,)
