"""Who can sign in to a demo, with what, and where they may do what; with a token each for programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from uuid import UUID

from repairlog.access import EVERYTHING, Membership
from repairlog.cli.demo.told import SIGN_INS, BookUnclear, read_file
from repairlog.records.beside.passwords import fits
from repairlog.records.beside.sign_ins import make_sign_in, sign_in_named
from repairlog.records.beside.tokens import make_token
from repairlog.records.queries.people import memberships
from repairlog.records.queries.settings import areas
from repairlog.records.store import Store
from repairlog.trade.area import Area
from repairlog.words import _

LABEL = "demo"
"""What the tokens are for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SignIn:
    """`name`, `password`: as they are typed. `areas`: codes; every area's where the role holds everywhere."""

    role: str
    name: str
    password: str
    token: str
    areas: tuple[str, ...]


def passwords_told(folder: Path) -> dict[str, str]:
    """The password of each person who signs in, by name. Raises BookUnclear."""
    faults: list[str] = []
    told = read_file(folder / SIGN_INS, SIGN_INS, faults=faults)
    found: dict[str, str] = {}
    for number, row in enumerate(told.get("sign_in", ()), start=1):
        if {"name", "password"} == row.keys():
            found[row["name"]] = row["password"]
        else:
            faults.append(
                _("{file}, sign_in {number}: it has “name” and “password”").format(file=SIGN_INS, number=number)
            )
    if faults:
        raise BookUnclear(faults)
    return found


def let_in(store: Store, people: dict[str, UUID], *, passwords: dict[str, str], at: datetime) -> None:
    """Make the sign-ins. `people`: by name. Raises BookUnclear where somebody signs in who is not on the books."""
    for name, password in passwords.items():
        if name not in people:
            raise BookUnclear([_("{file}: nobody on the books is named “{name}”").format(file=SIGN_INS, name=name)])
        make_sign_in(store, person=people[name], name=name, password=password, at=at)


def sign_ins(store: Store, passwords: dict[str, str], *, at: datetime) -> list[SignIn]:
    """Those of the sign-ins that still let somebody in, with a new token each."""
    with store.reading() as tx:
        everywhere = areas(EVERYTHING, tx)
    found = []
    for name, password in passwords.items():
        kept = sign_in_named(store, name)
        if kept is None or kept.closed or not fits(password, kept.password_hash):
            continue  # a visitor has closed it, or has given it a password of their own
        with store.reading() as tx:
            held = memberships(EVERYTHING, tx, ids=[kept.person]).get(kept.person, ())
        found.append(
            SignIn(
                role=next((each.role for each in held), ""),
                name=kept.name,
                password=password,
                token=make_token(store, person=kept.person, what=LABEL, at=at),
                areas=tuple(_codes(held, everywhere)),
            )
        )
    return found


def _codes(held: Sequence[Membership], everywhere: Sequence[Area]) -> Iterator[str]:
    return (area.code for area in everywhere if any(each.area in (None, area.id) for each in held))
