"""A picture or another file, named by its digest. The file itself lies beside the book and may come later."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Field, ref, text, whole

MOST_BYTES = 2**40

ATTACHED = EntryKind(
    name="attached",
    says="a picture or file is attached",
    folds_in="subject",
    fields=(
        ref("subject", "what it is about", to="", required=True),
        HAPPENED,
        Field(name="digest", kind="digest", says="SHA-256 of the file", required=True, longest=64),
        whole("length", "bytes of the file", most=MOST_BYTES, required=True),
        text("media_type", "what it is, as its content says, such as image/jpeg", longest=100, required=True),
        text("name", "name of the file, as given"),
        Field(name="original", kind="digest", says="SHA-256 of the device's own file, if another", longest=64),
        text("taken", "when it was taken, as the file itself says", longest=40),
        text("caption", "what it shows", longest=300),
    ),
)

KINDS = (ATTACHED,)
