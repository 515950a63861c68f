"""Signing in that failed: guessing gets slower, and nobody outside can lock a person out.

What is counted is a person's name from one address; the name from wherever; and the address under whatever name. The
first soon waits for long. The other two wait for seconds and only after many failures, since an outsider can bring them
about for others; and a browser in which the person has signed in before is counted by itself, so that it does not stand
behind those who guess elsewhere.
"""

from __future__ import annotations

import hmac
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256

from sqlalchemy import case, delete, select
from sqlalchemy.dialects import postgresql, sqlite

from repairlog.records.beside.secret import secret
from repairlog.records.beside.sign_ins import search_name
from repairlog.records.store import Store, Tx
from repairlog.records.tables.beside import FAILED_SIGN_IN

_KEPT = timedelta(hours=24)
_SOON_FORGOTTEN = timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """From `free` failures in a row on one waits: `first`, twice that after the next, and so on up to `longest`. A row
    ends where nothing failed for as long as `forgotten_after`."""

    free: int
    first: timedelta
    longest: timedelta
    forgotten_after: timedelta

    def wait(self, failures: int) -> timedelta:
        """How long after that many failures."""
        if failures < self.free:
            return timedelta(0)
        doublings = min(failures - self.free, 20)
        return min(self.first * (1 << doublings), self.longest)


_SECONDS = timedelta(seconds=10)
PACES = {
    "pair": Pace(free=5, first=timedelta(seconds=30), longest=timedelta(minutes=15), forgotten_after=_KEPT),
    "name": Pace(free=50, first=_SECONDS, longest=_SECONDS, forgotten_after=_SOON_FORGOTTEN),
    "address": Pace(free=200, first=_SECONDS, longest=_SECONDS, forgotten_after=_SOON_FORGOTTEN),
}
"""By what is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trying:
    """Who tries to sign in: the name as typed, the network address it comes from, and the mark of a browser in which
    that name has signed in before; empty where it has not."""

    name: str
    address: str
    browser: str = ""


def wait_of(store: Store, trying: Trying, *, at: datetime) -> timedelta:
    """How long it is until this may be tried again; zero where it may be now."""
    keys = _keys(store, trying)
    with store.reading() as tx:
        rows = tx.connection.execute(select(FAILED_SIGN_IN).where(FAILED_SIGN_IN.c.key.in_(keys))).all()
    waits = [_wait(PACES[keys[row.key]], row.failures, last_at=row.last_at, at=at) for row in rows]
    return max(waits, default=timedelta(0))


def count_failure(store: Store, trying: Trying, *, at: datetime) -> None:
    """One more failure; counts that are old enough to be forgotten go."""
    keys = _keys(store, trying)
    with store.writing() as tx:
        for key in sorted(keys):  # in one order, so that two who count cannot cross
            _count(tx, key, at=at, since=at - PACES[keys[key]].forgotten_after)
    _forget_before(store, at - _KEPT)


def forget_failures(store: Store, trying: Trying) -> None:
    """The person came in: this name from here begins anew."""
    pairs = [key for key, what in _keys(store, trying).items() if what == "pair"]
    with store.reading() as tx:
        if not tx.connection.execute(select(FAILED_SIGN_IN.c.key).where(FAILED_SIGN_IN.c.key.in_(pairs))).first():
            return
    with store.writing() as tx:
        tx.connection.execute(delete(FAILED_SIGN_IN).where(FAILED_SIGN_IN.c.key.in_(pairs)))


def _wait(pace: Pace, failures: int, *, last_at: datetime, at: datetime) -> timedelta:
    # A clock that was set back makes nobody wait for longer than the wait itself.
    return max(timedelta(0), min(last_at, at) + pace.wait(failures) - at)


def _keys(store: Store, trying: Trying) -> dict[str, str]:
    """Digests of what is counted, each with which of the three it is: the table tells nobody a name or an address."""
    name = search_name(trying.name)
    if trying.browser:
        counted = {"pair": f"browser\0{name}\0{trying.browser}"}
    else:
        counted = {
            "pair": f"pair\0{name}\0{trying.address}",
            "name": f"name\0{name}",
            "address": f"address\0{trying.address}",
        }
    chance = secret(store, "failed_sign_ins")
    return {hmac.new(chance, told.encode(errors="replace"), sha256).hexdigest(): what for what, told in counted.items()}


def _count(tx: Tx, key: str, *, at: datetime, since: datetime) -> None:
    insert = postgresql.insert if tx.dialect == "postgresql" else sqlite.insert
    forgotten = FAILED_SIGN_IN.c.last_at < since
    tx.connection.execute(
        insert(FAILED_SIGN_IN)
        .values(key=key, failures=1, last_at=at)
        .on_conflict_do_update(
            index_elements=["key"],
            set_={"failures": case((forgotten, 1), else_=FAILED_SIGN_IN.c.failures + 1), "last_at": at},
        )
    )


def _forget_before(store: Store, moment: datetime) -> None:
    """Rows that others are counting in just now are left to them."""
    old = select(FAILED_SIGN_IN.c.key).where(FAILED_SIGN_IN.c.last_at < moment)
    with store.reading() as tx:
        if not tx.connection.execute(old.limit(1)).first():
            return
    with store.writing() as tx:
        mine = old.with_for_update(skip_locked=True)
        tx.connection.execute(delete(FAILED_SIGN_IN).where(FAILED_SIGN_IN.c.key.in_(mine)))
