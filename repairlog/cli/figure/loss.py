"""`repairlog figure loss`: gas lost over a leak's life, of segments that are given or of a leak's own history."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any
from zoneinfo import ZoneInfo

import click

from repairlog.access import EVERYTHING
from repairlog.cli import options
from repairlog.cli.figure.asking import command_of, refuse
from repairlog.clock import now
from repairlog.figures.loss import LOSS
from repairlog.figures.lost import Rated, releases, segments_of
from repairlog.records.queries.listed import leaks_numbered
from repairlog.records.queries.settings import areas
from repairlog.records.store import Store, Tx
from repairlog.records.story import Story, story_of
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _

_OF_A_LEAK = (
    click.Option(["--leak"], metavar="NUMBER", help=_("Over that leak's own history, in place of segments.")),
    click.Option(
        ["--rate"],
        multiple=True,
        metavar="RATE",
        help=_('With --leak: its rate, measured or by a factor; of one of several sources, such as "2=30 scfh".'),
    ),
    click.Option(
        ["--rate-at"],
        multiple=True,
        metavar="PRESSURE",
        help=_("With --leak: the line's pressure when it was measured; of a source as --rate."),
    ),
    click.Option(
        ["--hole"],
        multiple=True,
        metavar="SIZE",
        help=_("With --leak: the hole that it blows free of, in place of a rate; of a source as --rate."),
    ),
    click.Option(["--database", "database_url"], metavar="URL", help=_("With --leak: the book's address.")),
)


def _command() -> click.Command:
    made = command_of(LOSS)
    asked = made.callback
    assert asked is not None

    def call(
        *,
        leak: str | None,
        rate: Sequence[str],
        rate_at: Sequence[str],
        hole: Sequence[str],
        database_url: str | None,
        segment: Sequence[str],
        as_json: bool,
        **typed: Any,
    ) -> None:
        of_a_leak = {"rate": rate, "rate_at": rate_at, "hole": hole}
        try:
            if leak is None:
                _alone(of_a_leak)
            elif segment:
                raise Unworkable("not_together", field="segment", other="leak")
            else:
                rated = _rated(of_a_leak, basis=typed["basis"] or "")
                with options.opened(database_url) as store:
                    story = _story(store, leak)
                segment = _segments(story, rated)
        except Unworkable as complaint:
            refuse([_at_its_option(complaint)], as_json=as_json)
            click.get_current_context().exit(2)
        asked(segment=segment, as_json=as_json, **typed)

    return click.Command(
        made.name, callback=call, params=[*_OF_A_LEAK, *made.params], help=made.help, epilog=made.epilog
    )


def _alone(of_a_leak: Mapping[str, Sequence[str]]) -> None:
    for name, texts in of_a_leak.items():
        if texts:
            raise Unworkable("missing", field="leak", other=name)


def _rated(of_a_leak: Mapping[str, Sequence[str]], *, basis: str) -> dict[int, Rated]:
    """By the number of the source; 0 for the whole leak. Raises `given_both` for one that is given twice."""
    found: dict[int, dict[str, str]] = {}
    for name, texts in of_a_leak.items():
        for text in texts:
            number, equals, said = text.partition("=")
            at = int(number) if equals and number.strip().isdecimal() else 0
            if name in found.setdefault(at, {}):
                raise Unworkable("given_both", field=name, other=name.replace("_", "-"))
            found[at][name] = said.strip() if at else text.strip()
    return {at: Rated(basis=basis, **fields) for at, fields in found.items()}


def _at_its_option(complaint: Unworkable) -> Unworkable:
    """The complaint at the option, which bears no number of a source."""
    return Unworkable(complaint.code, field=re.sub(r"_[0-9]+$", "", complaint.field), **complaint.facts)


def _story(store: Store, number: str) -> Story:
    with store.reading() as tx:
        id = _numbered(tx, number)
        found = story_of(EVERYTHING, tx, leak=id) if id else None
    if found is None:
        raise Unworkable("no_such_leak", field="leak", got=number[:80])
    return found


def _numbered(tx: Tx, number: str) -> Any:
    either = {number.strip(), number.strip().upper()}
    found = [leaks_numbered(EVERYTHING, tx, area=area.id, numbers=either) for area in areas(EVERYTHING, tx)]
    return next((id for each in found for id in each.values()), None)


def _segments(story: Story, rated: Mapping[int, Rated]) -> list[str]:
    live = [each.entry for each in story.told if each.entry.void is None]
    zone = ZoneInfo(str(story.leak.opened.understood["zone"]))
    return segments_of(releases(story.leak, live, until=now()), rated, zone=zone)


command = _command()
