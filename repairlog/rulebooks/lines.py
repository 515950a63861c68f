"""On which line of a rulebook's text something stands."""

from __future__ import annotations

import re
from dataclasses import dataclass

_HEADER = re.compile(r"\s*\[\[?\s*([A-Za-z0-9_-]+)(?:\s*\.[^\]]*)?\s*\]\]?\s*(?:#.*)?")
_KEY = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|([A-Za-z0-9_-]+))\s*(?:\.[^=]*)?=""")
_TRIPLE = re.compile(r'"""|' + r"'''")


@dataclass(frozen=True, slots=True)
class Lines:
    """Line of each header and key: by kind, the how manieth table of that kind (from 1; 0 for what stands before any
    table) and key, empty for the header itself."""

    places: dict[tuple[str, int, str], int]

    def of(self, kind: str, *, place: int, key: str) -> int:
        """The line of that key; else of its table's header; of a key that is itself a table, of its header; else 1."""
        wanted = ((kind, place, key), (kind, place, ""), (key, 1, ""))
        return next((self.places[each] for each in wanted if each in self.places), 1)


def lines_of(text: str) -> Lines:
    """Where the tables and keys of a text stand. It is read line by line, text over several lines passed over; for a
    text that is no TOML, what can be made out."""
    places: dict[tuple[str, int, str], int] = {}
    counted: dict[str, int] = {}
    kind, place, inside = "", 0, ""
    for number, line in enumerate(text.split("\n"), start=1):
        header = None if inside else _HEADER.fullmatch(line)
        key = None if inside or header else _KEY.match(line)
        if header:
            kind = header[1]
            if "." not in line.partition("#")[0]:
                counted[kind] = counted.get(kind, 0) + 1
                place = counted[kind]
                places[kind, place, ""] = number
        elif key:
            places.setdefault((kind, place, key[1] or key[2] or key[3]), number)
        inside = _inside(line, inside)
    return Lines(places)


def _inside(line: str, inside: str) -> str:
    """Which mark of a text over several lines is open after this line; empty where none is."""
    for found in _TRIPLE.finditer(line):
        if not inside:
            inside = found[0]
        elif inside == found[0]:
            inside = ""
    return inside
