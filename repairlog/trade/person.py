"""A person as they stand: what they may do by date, and what they are qualified for by date."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from repairlog.entries.entry import Row, Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.trade.tied import others_that_are_the_same


@dataclass(frozen=True, slots=True, kw_only=True)
class Role:
    """A role in an area (None: every area) from a day to a day, both counted in; `until_on` empty: open. `entry`,
    `key`: what gave it, and the row there. `company`: whose work alone is seen; `period_from_on`, `period_until_on`:
    the period that an inspector looks at."""

    entry: UUID
    key: str
    role: str
    area: UUID | None
    from_on: str
    until_on: str
    company: str = ""
    period_from_on: str = ""
    period_until_on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Qualification:
    """For a covered task from the day of the evaluation to a last day; empty: open. `ended_on`: the day from which it
    is suspended or withdrawn, `ended_how`; empty where it is not. `entry`: that of the evaluation."""

    entry: UUID
    task: str
    from_on: str
    until_on: str
    ended_on: str = ""
    ended_how: str = ""

    def holds(self, *, on: str) -> bool:
        """Whether it holds on that day. The last day counts; the day on which it is ended does not."""
        begun = self.from_on <= on and (not self.until_on or on <= self.until_on)
        return begun and (not self.ended_on or on < self.ended_on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """A qualification for a task suspended or withdrawn from that day on, whichever record it was entered on."""

    task: str
    on: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Qualified:
    """What leaks rest on of a person. `stops`: what was suspended or withdrawn; `same`: the records that this one is
    kept for; `left_on`: the last day, empty while the person is there."""

    id: UUID
    name: str
    void: bool
    qualifications: tuple[Qualification, ...]
    stops: tuple[Stopped, ...] = ()
    left_on: str = ""
    same: tuple[UUID, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """`left_on`: the last day, empty while the person is there. `company`: empty for the operator's own."""

    id: UUID
    name: str
    company: str
    staff_number: str
    left_on: str
    void: bool
    roles: tuple[Role, ...]
    qualifications: tuple[Qualification, ...]


def person(entries: Sequence[Standing]) -> Person | None:
    """The person that these entries tell of; None if none of them adds one."""
    added = next((entry for entry in entries if entry.kind == "person_added"), None)
    if added is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    left = [entry.text("until_on") for entry in live if entry.kind == "person_left"]
    left_on = left[-1] if left else ""
    return Person(
        id=added.id,
        name=added.text("name"),
        company=added.text("company"),
        staff_number=added.text("staff_number"),
        left_on=left_on,
        void=added.void is not None,
        roles=tuple(_roles(added, live, left_on=left_on)),
        qualifications=tuple(_qualifications(live)),
    )


def qualified(entries: Sequence[Standing]) -> Qualified | None:
    """Of the person that these entries tell of, what leaks rest on."""
    found = person(entries)
    if found is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    return Qualified(
        id=found.id,
        name=found.name,
        void=found.void,
        qualifications=found.qualifications,
        stops=tuple(
            Stopped(task=each.text("task"), on=each.on, how=each.text("how"))
            for each in live
            if each.kind == "qualification_ended"
        ),
        left_on=found.left_on,
        same=tuple(sorted(other for _says_so, other in others_that_are_the_same(entries))),
    )


def left_before(records: Sequence[Qualified], *, on: str) -> str:
    """The last day of somebody who had left before that day, by all their records; empty where they had not. Whoever is
    there by one of them has not left."""
    last = [each.left_on for each in records if not each.void]
    return max(last) if last and all(last) and max(last) < on else ""


def qualifications_as_one(records: Sequence[Qualified]) -> list[Qualification]:
    """The qualifications of somebody who stands under several records. What one record says was suspended or withdrawn
    stops what another has from before that day; an evaluation of the same day is left as it is, since nobody knows
    which of the two came first."""
    return [
        _stopped(each, [stop for other in records if other is not of for stop in other.stops])
        for of in records
        for each in of.qualifications
    ]


def _stopped(qualification: Qualification, stops: Sequence[Stopped]) -> Qualification:
    later = [s for s in stops if same_task(s.task, qualification.task) and s.on > qualification.from_on]
    first = min(later, key=lambda stop: stop.on, default=None)
    if first is None or (qualification.ended_on and qualification.ended_on <= first.on):
        return qualification
    return replace(qualification, ended_on=first.on, ended_how=first.how)


def same_task(one: str, other: str) -> bool:
    """Whether two texts name one covered task: capitals and spaces apart."""
    return plain_task(one) == plain_task(other)


def plain_task(task: str) -> str:
    """A covered task as it is compared: capitals and spaces apart."""
    return " ".join(task.casefold().split())


def _roles(added: Standing, live: Sequence[Standing], *, left_on: str) -> Iterator[Role]:
    """Each role once; an end cuts those that were given before and go on after it, and one that had not begun by the
    last day is none."""
    if added.void is not None:
        return
    given = [_role(added, row, key=row["key"]) for row in added.rows("roles")]
    for entry in live:
        if entry.kind == "role_given":
            given.append(_role(entry, entry.said, key=""))
        elif entry.kind == "role_ended":
            given = [_cut(role, entry.text("until_on")) if _ends(entry, role) else role for role in given]
    for role in given:
        kept = _cut(role, left_on) if left_on else role
        if not kept.until_on or kept.from_on <= kept.until_on:
            yield kept


def _role(entry: Standing, said: Row, *, key: str) -> Role:
    return Role(
        entry=entry.id,
        key=key,
        role=said["role"],
        area=read_id(said["area"]) if "area" in said else None,
        from_on=said["from_on"],
        until_on=said.get("until_on", ""),
        company=said.get("company", ""),
        period_from_on=said.get("period_from_on", ""),
        period_until_on=said.get("period_until_on", ""),
    )


def _ends(ended: Standing, role: Role) -> bool:
    area = ended.text("area")
    return ended.text("role") == role.role and (not area or read_id(area) == role.area)


def _cut(role: Role, until_on: str) -> Role:
    return replace(role, until_on=until_on) if not role.until_on or until_on < role.until_on else role


def _qualifications(live: Sequence[Standing]) -> Iterator[Qualification]:
    for place, entry in enumerate(live):
        if entry.kind != "qualified":
            continue
        task = entry.text("task")
        ends = (each for each in live[place + 1 :] if each.kind == "qualification_ended")
        end = next((each for each in ends if same_task(each.text("task"), task)), None)
        yield Qualification(
            entry=entry.id,
            task=task,
            from_on=entry.on,
            until_on=entry.text("until_on"),
            ended_on=end.on if end else "",
            ended_how=end.text("how") if end else "",
        )
