"""Whether the areas' settings are still those that entries were understood with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from uuid import UUID

from repairlog.entries.entry import Entry
from repairlog.trade.area import Area
from repairlog.trade.rests import Rested


class SettingsChanged(Exception):
    """An area's settings, or what puts an entry right, changed between understanding and posting; understand the call
    again and post it again."""

    code = "settings_changed"


def demand_unchanged(rested: Mapping[UUID, Rested], fresh: Sequence[Entry]) -> None:
    """Raise SettingsChanged unless every area has the settings that these entries rest on. `rested`: the areas as they
    stand, locked."""
    now = {id: each.settings_version for id, each in rested.items() if isinstance(each, Area)}
    if any(now.get(area) != version for entry in fresh for area, version in entry.rests_on.items()):
        raise SettingsChanged("the settings of an area changed while the call was read; it is read again")
