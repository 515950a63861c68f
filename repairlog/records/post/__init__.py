"""The one door: entries come in here and nowhere else."""

from __future__ import annotations

from repairlog.records.post.content import Conflict
from repairlog.records.post.door import Receipt, post, post_sent
from repairlog.records.post.ground import NotThere
from repairlog.records.post.sent import Sent
from repairlog.records.post.settings import SettingsChanged
from repairlog.records.post.stale import fold_stale, something_waits

__all__ = [
    "Conflict",
    "NotThere",
    "Receipt",
    "Sent",
    "SettingsChanged",
    "fold_stale",
    "post",
    "post_sent",
    "something_waits",
]
