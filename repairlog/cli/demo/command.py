"""`repairlog demo`: a book of an invented operator, filled and served, with the sign-ins to try it by."""

from __future__ import annotations

import dataclasses
import json
import socket
import sys
from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager, nullcontext
from datetime import UTC, date, datetime, time
from pathlib import Path

import click

from repairlog import shipped
from repairlog.access import EVERYTHING
from repairlog.cli.demo import place
from repairlog.cli.demo.files import put_files
from repairlog.cli.demo.player import Save, TooEarly, people, play, roles_in, saves
from repairlog.cli.demo.sign_ins import SignIn, let_in, passwords_told, sign_ins
from repairlog.cli.demo.told import BookUnclear
from repairlog.cli.init import demand_no_book
from repairlog.cli.options import as_json, files_of, opened
from repairlog.cli.serve import serve
from repairlog.cli.upgrade import brought_up
from repairlog.clock import now
from repairlog.records.post import fold_stale
from repairlog.records.queries.settings import areas
from repairlog.records.store.migrate import migrate
from repairlog.settings import usual_file
from repairlog.trade.area import Area
from repairlog.words import _
from repairlog.words.codes import word

HERE = "127.0.0.1"
YEARS = 3
"""What a demo tells of, unless somebody wants less."""

FIRST_PORT, LAST_PORT = 8765, 8864
"""Where a demo is served unless somebody says otherwise: on the first of these that is free."""


@click.command(
    "demo",
    help=_("Fill a demo's book with the leaks of an operator that does not exist, and serve it to this machine."),
)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    help=_("The port to listen on; 0 takes any free one. Else 8765, or the next that is free."),
)
@click.option("--no-serve", is_flag=True, help=_("Only fill it, and say where it is and who can sign in."))
@click.option("--at", "folder", metavar="DIR", help=_("The folder for demo.db; else your data folder."))
@click.option("--database", "database_url", metavar="URL", help=_("Fill this database instead, which holds no book."))
@click.option("--fresh", is_flag=True, help=_("Make it anew; a demo.db that is there is moved aside first."))
@click.option(
    "--years",
    type=click.IntRange(0, YEARS),
    default=YEARS,
    show_default=True,
    help=_("How many years of calls and leaks; 0 is filled at once, with some fifty leaks."),
)
@click.option(
    "--on",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DAY",
    help=_("The day on which the demo plays, such as 2026-11-20, for the same pages again; else today."),
)
@as_json
def demo(
    *,
    port: int | None,
    no_serve: bool,
    folder: str | None,
    database_url: str | None,
    fresh: bool,
    years: int,
    on: datetime | None,
    as_json: bool,
) -> None:
    if database_url is not None and (folder is not None or fresh):
        raise click.UsageError(_("--at and --fresh are about the file demo.db; leave them out with --database"))
    at = _its_moment(on.date() if on else None)
    try:
        if database_url is not None:
            url = _filled_database(database_url, at=at, years=years)
        else:
            where = Path(folder) if folder is not None else usual_file().parent
            url = _filled_file(where, at=at, years=years, fresh=fresh, keep=not no_serve and on is None)
        _tell(url, as_json=as_json)
    except BookUnclear as unclear:
        raise click.UsageError("\n".join(unclear.faults)) from unclear
    except TooEarly as early:
        told = _("the demo's fixed days run until {day}; give a later one with --on, or set the clock of this machine")
        raise click.UsageError(told.format(day=early.until)) from early
    if not no_serve:
        serve(url, port=free_port() if port is None else port, on_ready=_say_it_answers)


def _its_moment(on: date | None) -> datetime:
    """When the demo plays: now, or in the evening of that day, which is not to come."""
    at = now()
    if on is None:
        return at
    if on > at.date():
        raise click.UsageError(_("{day} has not come yet; a demo plays today or before").format(day=on))
    return min(at, datetime.combine(on, time(23), UTC))


def _filled_database(url: str, *, at: datetime, years: int) -> str:
    demand_no_book(url)
    _fill(url, _ready(at, years))
    return url


def _filled_file(folder: Path, *, at: datetime, years: int, fresh: bool, keep: bool) -> str:
    """The address of the folder's demo; one that is there is taken as it stands, where it may be kept."""
    file = folder / place.NAME
    with place.alone_in(folder):
        if file.exists() and not fresh:
            if not keep:
                told = _("{file} is there already; --fresh moves it aside and makes a new one")
                raise click.UsageError(told.format(file=file))
            brought_up(place.url_of(file))
        else:
            ready = _ready(at, years)
            aside = place.make(folder, fill=lambda url: _fill(url, ready), on=now().date())
            if aside is not None:
                click.echo(_("The demo that was there is now {file}.").format(file=aside), err=True)
    return place.url_of(file)


def _ready(at: datetime, years: int) -> list[Save]:
    return saves(shipped.demo(), now=at, years=years)


def _fill(url: str, ready: Sequence[Save]) -> None:
    migrate(url)
    with opened(url) as store:
        with _shown(ready) as saves_shown:
            play(store, saves_shown, roles=roles_in(ready))
        fold_stale(store)
        put_files(store, files_of(url), of=ready)
        let_in(store, people(ready), passwords=passwords_told(shipped.demo()), at=now())


def _shown(ready: Sequence[Save]) -> AbstractContextManager[Iterable[Save]]:
    """The same, with how far it has come for whoever looks on."""
    if not sys.stderr.isatty():
        return nullcontext(ready)
    return click.progressbar(ready, label=_("Filling the book"), file=sys.stderr)


def _tell(url: str, *, as_json: bool) -> None:
    with opened(url) as store:
        with store.reading() as tx:
            where = areas(EVERYTHING, tx)
        who = sign_ins(store, passwords_told(shipped.demo()), at=now())
    click.echo(_as_json(url, where, who) if as_json else _in_words(url, where, who))


def _as_json(url: str, where: Sequence[Area], who: Sequence[SignIn]) -> str:
    told = {
        "database": url,
        "areas": [{"name": area.name, "code": area.code, "zone": area.zone, "id": str(area.id)} for area in where],
        "sign_ins": [dataclasses.asdict(each) for each in who],
    }
    return json.dumps(told, ensure_ascii=False)


def _in_words(url: str, where: Sequence[Area], who: Sequence[SignIn]) -> str:
    rows = [(_("name"), _("password"), _("role"), _("areas"))]
    rows += [(each.name, each.password, word(each.role), " ".join(each.areas)) for each in who]
    tokens = [(_("name"), _("token, for programs"))] + [(each.name, each.token) for each in who]
    told = ", ".join(f"{area.name} ({area.code}, {area.zone})" for area in where)
    return "\n".join(
        (
            _("A demo's book: its operator, people, makers and leaks are invented."),
            _("Database: {url}").format(url=url),
            _("Areas: {areas}").format(areas=told),
            "",
            *_lined_up(rows),
            "",
            *_lined_up(tokens),
            "",
        )
    )


def _lined_up(rows: Sequence[tuple[str, ...]]) -> list[str]:
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]


def free_port() -> int:
    """The first of the demo's ports on which nobody listens; any other where all are taken."""
    for port in range(FIRST_PORT, LAST_PORT + 1):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((HERE, port))
            except OSError:
                continue
            return port
    return 0


def _say_it_answers(address: str) -> None:
    click.echo(_("{address} answers. Ctrl-C ends it; what you typed stays.").format(address=address))
