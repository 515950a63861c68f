"""Entries about a call: someone reports something, someone is sent, and how it came out. Most calls are no leak."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Field, Rows, asked, code, ref, text

REPORTS = ("odor", "carbon_monoxide", "fire", "dig_in", "other")
CAME_FROM = (
    "customer",
    "passer_by",
    "nine_one_one",
    "fire_department",
    "police",
    "excavator",
    "other_utility",
    "own_people",
    "other",
)
INSIDE = ("inside", "outside", "inside_and_outside")
OUTCOMES = (
    "nothing_found",
    "customers",
    "adjusted_on_the_spot",
    "operators_leak",
    "other_gas",
    "another_operators",
    "no_access",
    "cancelled",
    "same_call",
)
MADE_SAFE = ("shut_off_and_tagged", "shut_off", "disconnected", "not_made_safe")

_CALL = ref("call", "call", to="call", required=True)


def _who(says: str, *, named: str) -> tuple[Field, ...]:
    """A crew, a person, or a name where neither is on the books."""
    return (
        ref("crew", f"crew {says}", to="crew"),
        ref("person", f"person {says}", to="person"),
        text("named", named, longest=120),
    )


CALL_RECEIVED = EntryKind(
    name="call_received",
    says="a call is received",
    opens="call",
    fields=(
        ref("area", "operating area", to="area", required=True),
        HAPPENED,
        code("report", "what is reported", of=REPORTS, required=True),
        code("came_from", "who calls", of=CAME_FROM),
        code("inside", "inside or outside", of=INSIDE),
        asked("guide ma nh nj ny tn tx wa", text("house_number", "house number", longest=40)),
        asked("guide ma nh nj ny tn tx wa", text("street", "street")),
        text("cross_street", "cross street"),
        asked("guide ma nh nj ny tn tx wa", text("town", "town")),
        asked("nj", text("postal_code", "postal code", longest=20)),
        asked("guide", text("location", "where, in words", longest=1000)),
        asked("guide nh wa", text("caller_name", "name of the caller", private=True)),
        asked("guide nh wa", text("caller_address", "address of the caller, where another", private=True)),
        text("caller_phone", "telephone of the caller", longest=60, private=True),
        text("caller_story", "what the caller says", longest=4000, private=True),
    ),
    rows=(
        Rows(
            name="outside_numbers",
            says="numbers that others know it by",
            fields=(
                text("what", "kind of number: work order, call, premise, list", longest=40, required=True),
                text("number", "number", longest=60, required=True),
            ),
        ),
    ),
)

CALL_SENT = EntryKind(
    name="call_sent",
    says="someone is sent to the call",
    folds_in="call",
    fields=(_CALL, HAPPENED, *_who("that is sent", named="who is sent, where not on the books")),
)

CALL_ON_WAY = EntryKind(
    name="call_on_way",
    says="someone is on the way to the call",
    folds_in="call",
    fields=(_CALL, HAPPENED, *_who("that is on the way", named="who is on the way, where not on the books")),
)

CALL_ON_SITE = EntryKind(
    name="call_on_site",
    says="someone is on site at the call",
    folds_in="call",
    fields=(_CALL, HAPPENED, *_who("that is on site", named="who is on site, where not on the books")),
)

CALL_OUTCOME = EntryKind(
    name="call_outcome",
    says="how the call came out",
    folds_in="call",
    fields=(
        _CALL,
        HAPPENED,
        code("outcome", "how it came out", of=OUTCOMES, required=True),
        ref("found_leak", "the operator's leak that it opens or joins", to="leak"),
        ref("same_as", "the earlier call that it is the same as", to="call"),
        code("made_safe", "how the customer's piping was made safe", of=MADE_SAFE),
        text("tag", "tag that was left, as marked", longest=60),
        asked("tx", text("remarks", "what was found and done", longest=4000)),
    ),
)

CALL_REVIEWED = EntryKind(
    name="call_reviewed",
    says="the call is reviewed",
    folds_in="call",
    fields=(
        _CALL,
        HAPPENED,
        code("outcome", "accepted or returned", of=("accepted", "returned"), required=True),
        text("reason", "why", longest=1000),
    ),
)

KINDS = (CALL_RECEIVED, CALL_SENT, CALL_ON_WAY, CALL_ON_SITE, CALL_OUTCOME, CALL_REVIEWED)
