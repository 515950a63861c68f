"""Whether the areas' settings are still those that entries were understood with."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select

from repairlog.entries.entry import Entry
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.worked import AREA

_VERSIONS = select(AREA.c.id, AREA.c.settings_version).where(AREA.c.id.in_(IDS))


class SettingsChanged(Exception):
    """An area's settings, or what puts an entry right, changed between understanding and posting; understand the call
    again and post it again."""

    code = "settings_changed"


def demand_unchanged(tx: Tx, fresh: Sequence[Entry]) -> None:
    """Raise SettingsChanged unless every area has the settings that these entries rest on. The areas are locked."""
    rests = {(area, version) for entry in fresh for area, version in entry.rests_on.items()}
    if not rests:
        return
    areas = tx.connection.execute(_VERSIONS, {"ids": list({area for area, _ in rests})})
    now = {row.id: row.settings_version for row in areas}
    if any(now.get(area) != version for area, version in rests):
        raise SettingsChanged("the settings of an area changed while the call was read; it is read again")
