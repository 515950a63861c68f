"""The invented streets with the pipe in them, who works there, and who calls."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Street:
    """`numbers`: the lowest and the highest house number. `worn`: how often a leak comes there. `main`: the fields of a
    source on its main."""

    area: str
    town: str
    name: str
    numbers: tuple[int, int]
    worn: int
    main: Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Staff:
    """People by name: who takes reports, who accepts work, who keeps the stores, the crews, and what their instruments
    are marked."""

    desk: str
    supervisor: str
    storekeeper: str
    crews: Sequence[Sequence[str]]
    instruments: Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """`streets`, `staff`: by the area's code."""

    streets: Mapping[str, Sequence[Street]]
    staff: Mapping[str, Staff]
    callers: Sequence[str]


def network_told(folder: Path) -> Network:
    """The network of the file in that folder."""
    told = tomllib.loads((folder / "network.toml").read_text(encoding="utf-8"))
    every = [Street(**{**each, "numbers": tuple(each["numbers"])}) for each in told["street"]]
    return Network(
        streets={area: [each for each in every if each.area == area] for area in told["staff"]},
        staff={area: Staff(**each) for area, each in told["staff"].items()},
        callers=told["callers"],
    )


def worn_street(chance: Random, streets: Sequence[Street]) -> Street:
    """One of them, the worn ones more often."""
    return chance.choices(streets, [each.worn for each in streets])[0]


def house_on(chance: Random, street: Street) -> str:
    """A house number on that street."""
    return str(chance.randint(*street.numbers))


def caller(chance: Random, network: Network) -> str:
    """Somebody who calls."""
    return f"{chance.choice('ABCDEFGHJKLMNPRSTW')}. {chance.choice(network.callers)}"
