"""Ids of what the examples of entries speak about, the same in every book."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Raw = Mapping[str, Any]
"""An entry as a program sends it."""


def example_id(number: int) -> str:
    """An id of version 7, the same in every book: the moment of 5 October 2026, 12:00 UTC, and a number for chance."""
    return f"01a10bef-6200-7000-8000-{number:012x}"


AREA, CREW_LEADER, LOT = example_id(1), example_id(2), example_id(3)
LEAK, SOURCE, VISIT, NOTE, ATTEMPT, TEST = (example_id(number) for number in range(0x10, 0x16))
"""An open leak with its source; a visit, in which a figure is misread; a note made in error; an attempt that is tight
and waits for the supervisor's word."""

CALL, CALLED_CREW = example_id(0x68), example_id(0x69)
"""A call that is not ended, and a crew to send to it."""

CREW, INSTRUMENT = example_id(4), example_id(5)
"""A crew, and an instrument that reads gas."""

SPARE, OTHER_AREA = example_id(6), example_id(7)
"""An instrument that is given away for good, and the area to which it goes."""

COMPANY = example_id(8)
"""A company that works for the operator."""

LEAK_TO_END, ATTEMPT_ON_IT, TEST_ON_IT = (example_id(number) for number in range(0x20, 0x23))
"""An open leak whose one attempt is tight, so that it can be ended."""
