"""Which role may post which kind of entry: the table, its predicates, and the judgement of one call."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from uuid import UUID

from repairlog.access.actor import Actor, Membership
from repairlog.entries.kinds import KINDS, RIGHTING


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """One entry that somebody wants to post, as access sees it.

    `position`: its place in the call. `area`: that of its subject, None for what belongs to every area. `on`: the day
    it was written, by the device's time with its offset taken off, in the area's zone; `received_on`: the server's
    day there. `subject`: the kind of its subject. `areas_since`: those to which the subject answered on that day or
    since: what was written before it moved is not lost. `to_area`: that of the story to which a correction moves an
    entry. `also_in`: of a move, and of what puts one right, the other areas that it touches. `companies`: those of the
    sender's own whose work that story is; None: it is not asked.
    Of the entry that a `corrected` or a `void` speaks about: `target_typed_by`, and `target_received_on`, the day it
    came in; `target_kind`: its kind, or that of what it puts right in the end, where it is itself such an entry;
    `target_accepted`: what that one tells was accepted.
    `on_the_spot`: it puts a person on the books without any role, or says with which evidence somebody or something
    came that the same call puts there.
    """

    position: int
    kind: str
    area: UUID | None
    on: str
    received_on: str
    subject: str = ""
    areas_since: frozenset[UUID] = frozenset()
    also_in: frozenset[UUID] = frozenset()
    to_area: UUID | None = None
    companies: frozenset[str] | None = frozenset()
    target_kind: str = ""
    target_typed_by: UUID | None = None
    target_received_on: str = ""
    target_accepted: bool = False
    on_the_spot: bool = False


class Refused(Exception):
    """The actor may not post this. `position`: of the entry in the call; `code` is stable."""

    code = "refused"

    def __init__(self, kind: str, *, position: int) -> None:
        super().__init__(f"entry {position}: nobody with these roles may post '{kind}' here on that day")
        self.kind = kind
        self.position = position


Predicate = Callable[[Actor, Ask], bool]


def in_area(_actor: Actor, _ask: Ask) -> bool:
    """The role alone is enough, in its areas and days."""
    return True


def on_the_spot(_actor: Actor, ask: Ask) -> bool:
    """Who comes to help, and what they bring along, with the evidence that they show."""
    return ask.on_the_spot


def own_for_a_day(actor: Actor, ask: Ask) -> bool:
    """What the actor typed, until the day after it came in."""
    return ask.target_typed_by == actor.person and _days_between(ask.target_received_on, ask.received_on) <= 1


def of_what_the_role_opens(role: str) -> Predicate:
    """The subject is of a kind that the role may open."""

    def opens(_actor: Actor, ask: Ask) -> bool:
        opening = [name for name, kind in KINDS.items() if kind.opens and kind.opens == ask.subject]
        return any(POSTS[name].get(role) is in_area for name in opening)

    return opens


def of_what_the_role_posts(role: str) -> Predicate:
    """The entry that is put right is of a kind that the role may post."""

    def predicate(actor: Actor, ask: Ask) -> bool:
        rule = POSTS.get(ask.target_kind, {}).get(role)
        moves = MOVES.get(role)
        return rule is in_area or (moves is not None and rule is moves and moves(actor, ask))

    return predicate


def until_accepted(role: str) -> Predicate:
    """The same, until what the entry tells is accepted."""
    of_its_kinds = of_what_the_role_posts(role)

    def unaccepted(actor: Actor, ask: Ask) -> bool:
        return not ask.target_accepted and of_its_kinds(actor, ask)

    return unaccepted


def by_import(actor: Actor, _ask: Ask) -> bool:
    """Only while an old list is taken in."""
    return actor.sure == "import"


def _days_between(first: str, last: str) -> int:
    return (date.fromisoformat(last) - date.fromisoformat(first)).days


_ON_ANYTHING = ("note", "outside_number_added", "attached", "figure_kept")
_IN_A_DIG = ("dig_opened", "dig_found", "pipe_exposed", "dig_backfilled", "restoration_owed", "restored")
_INSTRUMENTS = ("instrument_added", "instrument_calibrated", "instrument_checked", "instrument_retired")
_QUALIFICATIONS = ("qualified", "qualification_ended")
_MAKES_ONE = ("made_one", "streets_made_one")
_CALLS = ("call_received", "call_sent", "call_on_way", "call_on_site", "call_outcome", "told")
_FIRST_HOUR = ("moment_noted", "watch_handed")
_TAKES_MATERIAL = ("lot_moved", "lot_used", "lot_quarantined", "temperature_logged")
_STORES = ("lot_received", "shelf_made", "lot_counted", "lot_released", "lot_scrapped", *_TAKES_MATERIAL)
_CREW = (
    *_TAKES_MATERIAL,
    *_CALLS,
    *_FIRST_HOUR,
    "leak_opened",
    "source_added",
    "source_changed",
    "visit",
    "grade_set",
    "repair_attempted",
    "tested",
    "instrument_checked",
    "work_settled",
    "work_waiting",
    "work_goes_on",
    "briefing_given",
    "place_added",
    "instrument_added",
    "linked",
    *_IN_A_DIG,
    *_ON_ANYTHING,
)
_SUPERVISOR = (
    *_CREW,
    "call_reviewed",
    "emergency_reviewed",
    "decided",
    "repair_reviewed",
    "leak_ended",
    "crew_made",
    *_STORES,
    "leak_reopened",
    "downgrade_reviewed",
    "scheduled_for_repair",
    "work_given",
    "place_retired",
    "crew_changed",
    *_INSTRUMENTS,
    *_MAKES_ONE,
)
_RULES = ("rulebook_adopted", "rule_confirmed", "working_days_set")
_SETTINGS = ("typing_time_set", "own_acceptance_said")
_OFFICER = (*_SUPERVISOR, "gap_set_aside", *_QUALIFICATIONS, *_RULES, *_SETTINGS)
_ADMINISTRATOR = (
    "operator_opened",
    "area_opened",
    "cut_over_set",
    *_RULES,
    *_SETTINGS,
    *("company_added", "company_back", "company_left"),
    *("person_added", "role_given", "role_ended", "person_left"),
    *_QUALIFICATIONS,
    *("crew_made", "crew_changed"),
    *_INSTRUMENTS,
    *_STORES,
    "place_added",
    "place_retired",
    *_MAKES_ONE,
    *_ON_ANYTHING,
)


MAY_POST: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "dispatcher": (*_CALLS, *_FIRST_HOUR, "leak_opened", *_ON_ANYTHING),
        "crew": _CREW,
        "supervisor": _SUPERVISOR,
        "officer": _OFFICER,
        "manager": _ON_ANYTHING,
        "storekeeper": (*_STORES, *_INSTRUMENTS, *_ON_ANYTHING),
        "administrator": _ADMINISTRATOR,
    }
)
"""By role, the kinds that it may post in its areas and days. An inspector posts nothing."""

ON_THE_SPOT: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "crew": ("person_added", "qualified", "instrument_calibrated"),
        "supervisor": ("person_added", "qualified"),
    }
)
"""By role, the kinds that it may post on the spot alone."""

RIGHTS: Mapping[str, Predicate] = MappingProxyType(
    {
        "dispatcher": own_for_a_day,
        "crew": own_for_a_day,
        "supervisor": until_accepted("supervisor"),
        "officer": of_what_the_role_posts("officer"),
        "manager": own_for_a_day,
        "storekeeper": own_for_a_day,
        "administrator": of_what_the_role_posts("administrator"),
    }
)
"""By role, which entries it may correct or make void."""


MOVES: Mapping[str, Predicate] = MappingProxyType(
    {role: of_what_the_role_opens(role) for role in ("supervisor", "officer", "storekeeper", "administrator")}
)
"""By role, which subjects it may move to another area."""


def _row(kind: str) -> Mapping[str, Predicate]:
    if kind in RIGHTING:
        return RIGHTS
    if kind == "subject_moved":
        return MOVES
    row: dict[str, Predicate] = {role: in_area for role, kinds in MAY_POST.items() if kind in kinds}
    row |= {role: on_the_spot for role, kinds in ON_THE_SPOT.items() if kind in kinds and role not in row}
    return {"administrator": by_import} | row


POSTS: Mapping[str, Mapping[str, Predicate]] = MappingProxyType({kind: _row(kind) for kind in KINDS})
"""Kind of entry, role, predicate. A role that is not in a kind's row may not post it."""


ACTS: Mapping[str, Mapping[str, Predicate]] = MappingProxyType(
    {
        "looks_read": {"officer": in_area, "administrator": in_area},
        "lets_in": {"administrator": in_area},
    }
)
"""What is done beside the journal, and by which roles: read what inspectors looked at; give and end the ways by which
somebody comes in."""

RULES: Mapping[str, Mapping[str, Predicate]] = MappingProxyType({**POSTS, **ACTS})
"""The one table: kind of entry or act, role, predicate."""


def require(actor: Actor, asks: Sequence[Ask]) -> None:
    """Raise Refused for the first entry that the actor may not post; a call stands or falls as one."""
    if actor.sure == "system":
        return  # the command line of the machine that holds the book
    for ask in asks:
        if not _granted(actor, ask):
            raise Refused(ask.kind, position=ask.position)


def may_post(actor: Actor, kind: str, *, area: UUID | None, on: str, subject: str = "", here: bool = False) -> bool:
    """Whether the actor may post an entry of that kind, of a subject in that area, on that day (`YYYY-MM-DD`), or do
    that act there: what a page offers. `subject`: its kind, which a move is judged by. `here`: on the spot. Whose work
    the subject is, is asked when it comes; of what puts another entry right this tells nothing: that hangs on the
    entry."""
    companies = None if kind in POSTS else frozenset[str]()  # an act beside the journal is nobody's company's work
    ask = Ask(
        position=0,
        kind=kind,
        area=area,
        on=on,
        received_on=on,
        subject=subject,
        companies=companies,
        on_the_spot=here,
    )
    return actor.sure == "system" or _granted(actor, ask)


def may_put_right(actor: Actor, ask: Ask) -> bool:
    """Whether the actor may post what that asks, which speaks about another entry."""
    return actor.sure == "system" or _granted(actor, ask)


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """A membership that is used for what is asked. `since`: the day from which the sign-in dates; empty where there is
    none."""

    membership: Membership
    ask: Ask
    since: str


def in_its_area_and_days(use: Use) -> bool:
    """It was written on a day of the membership, about a subject of its area, or of one that was of it then; whoever
    comes to help is of any area."""
    area = use.membership.area if use.ask.on_the_spot and use.ask.area is None else use.ask.area
    return any(use.membership.covers(area=each, on=use.ask.on) for each in (area, *use.ask.areas_since))


def in_the_area_it_goes_to(use: Use) -> bool:
    """The story to which it moves an entry is of the membership's area too."""
    return use.ask.to_area is None or use.membership.covers(area=use.ask.to_area, on=use.ask.on)


def signed_in_within(use: Use) -> bool:
    """The sign-in dates from the membership that it is used for."""
    return not use.since or use.membership.covers(area=use.membership.area, on=use.since)


def of_its_company(use: Use) -> bool:
    """The story is the work of the company to which the membership is bounded; who comes to help is nobody's work."""
    company, companies = use.membership.company, use.ask.companies
    return not company or companies is None or use.ask.on_the_spot or company in companies


BOUNDS: tuple[Callable[[Use], bool], ...] = (
    in_its_area_and_days,
    in_the_area_it_goes_to,
    signed_in_within,
    of_its_company,
)
"""What bounds every membership, whatever its role may post."""


def _granted(actor: Actor, ask: Ask) -> bool:
    """Some membership grants it here, and some membership grants it in every other area that it touches."""
    there = [replace(ask, area=area, areas_since=frozenset()) for area in ask.also_in]
    return all(any(_grants(actor, m, each) for m in actor.memberships) for each in (ask, *there))


def _grants(actor: Actor, membership: Membership, ask: Ask) -> bool:
    predicate = RULES[ask.kind].get(membership.role)
    use = Use(membership=membership, ask=ask, since=actor.signed_in_on)
    return predicate is not None and all(bound(use) for bound in BOUNDS) and predicate(actor, ask)


def left_on(actor: Actor, ask: Ask) -> str:
    """The last day of the membership that grants the entry, where it was sent after that day; empty otherwise."""
    granting = [m for m in actor.memberships if _grants(actor, m, ask)]
    if not granting or any(not m.until_on or ask.received_on <= m.until_on for m in granting):
        return ""
    return max(m.until_on for m in granting)
