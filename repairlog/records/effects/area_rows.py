"""The worked rows of an area: its settings, the rulebooks it adopted, what was confirmed of them, its gaps."""

from __future__ import annotations

from collections.abc import Sequence

import orjson

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.records.effects.rows import as_day, put_row
from repairlog.records.tables import worked
from repairlog.records.tables.picture import Picture
from repairlog.records.tables.read_back import adoptions_text, confirmed_text
from repairlog.trade.adopted import adoption_gaps
from repairlog.trade.area import area
from repairlog.trade.rests import Rests
from repairlog.units import split_canonical


def area_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    """`entries`: the whole story of the area as it stands."""
    picture: Picture = {}
    if (as_is := area(entries)) is None:
        return picture
    put_row(
        picture,
        worked.AREA,
        id=as_is.id,
        name=as_is.name,
        code=as_is.code,
        zone=as_is.zone,
        elevation_m=float(split_canonical(as_is.elevation).value) if as_is.elevation else None,
        elevation=as_is.elevation or None,
        lel_basis=as_is.lel_basis,
        settings_version=as_is.settings_version,
        cut_over_on=as_day(as_is.cut_over_on),
        typing_hours=as_is.typing_hours,
        own_acceptance=as_is.own_acceptance,
        calendar=as_is.calendar or None,
        adoptions=adoptions_text(as_is.adoptions),
        confirmed=confirmed_text(as_is.confirmed),
    )
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    on = {entry.id: entry.on for entry in live}
    for gap in adoption_gaps(live):
        put_row(
            picture,
            worked.GAP,
            subject_id=as_is.id,
            code=gap.code,
            entry_id=gap.entry,
            row_key=gap.row,
            facts=orjson.dumps(dict(gap.facts), option=orjson.OPT_SORT_KEYS).decode(),
            area_id=as_is.id,
            happened_on=as_day(on[gap.entry]),
            set_aside_by_id=None,
        )
    return picture
