"""Materials of a repair by the numbers that a crew reads off them: a number on the books becomes its lot, any other is
kept as it was read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from repairlog.intake.complaint import Complaint
from repairlog.trade.lot import Lot, is_expired
from repairlog.words import lots as words

Row = Mapping[str, str]

NONE_OF_THEM = "none_of_them"
"""Chosen where several lots bear the number and nobody knows which it was: it is kept as it was read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotTyped:
    """A row of materials whose number was looked up. `lots`: those on the books that bear it. `lot`: the one that is
    meant, None where none is, or nobody has said which."""

    key: str
    number: str
    lots: tuple[Lot, ...]
    lot: Lot | None
    is_open: bool

    def heard(self, *, on: str) -> str:
        """What is said back of it, for work on that day."""
        if self.lot is None:
            return words.several() if self.lots else words.not_on_the_books()
        return words.on_the_books(self.lot, expired=is_expired(self.lot, on=on))


def numbers_typed(rows: Sequence[Row]) -> list[str]:
    """The numbers that were typed, to be looked up."""
    return [row["named"].strip() for row in rows if row.get("named", "").strip()]


def looked_up(rows: Sequence[Row], found: Sequence[Lot]) -> list[LotTyped]:
    """Each row that names a number with the lots that bear it. `found`: lots on the books, at least those."""
    return [_looked_up(row, found) for row in rows if row.get("named", "").strip()]


def _looked_up(row: Row, found: Sequence[Lot]) -> LotTyped:
    number, chosen = row["named"].strip(), row.get("lot", "")
    bearing = [lot for lot in found if lot.lot_number.casefold() == number.casefold()]
    exactly = [lot for lot in bearing if lot.lot_number == number]
    lots = tuple(exactly or bearing)
    lot = lots[0] if len(lots) == 1 else next((each for each in lots if str(each.id) == chosen), None)
    is_open = len(lots) > 1 and lot is None and chosen != NONE_OF_THEM
    return LotTyped(key=row["key"], number=number, lots=lots, lot=lot, is_open=is_open)


def with_lots(raw: Mapping[str, Any], typed: Sequence[LotTyped]) -> dict[str, Any]:
    """The raw entry with its materials as the door takes them: the lot's id where a lot is meant, else the number."""
    by_key = {each.key: each for each in typed}
    rows = [_with_lot(row, by_key.get(row["key"])) for row in raw.get("materials", ())]
    return {**raw, "materials": rows} if rows else dict(raw)


def _with_lot(row: Row, typed: LotTyped | None) -> dict[str, str]:
    if typed is None or typed.lot is None:
        return {name: value for name, value in row.items() if name != "lot"}
    return {name: value for name, value in row.items() if name != "named"} | {"lot": str(typed.lot.id)}


def open_choices(typed: Sequence[LotTyped], *, entry: int) -> Iterator[Complaint]:
    """A complaint for each row of which nobody said which of several lots it is. `entry`: its place in the call."""
    for each in typed:
        if each.is_open:
            facts = {"got": each.number}
            yield Complaint(entry=entry, field=f"materials.{each.key}.lot", code="several_lots", facts=facts)


def with_numbers(raw: Mapping[str, Any], lots: Sequence[Lot]) -> dict[str, Any]:
    """The raw entry as its form shows it: beside a lot's id stands the number that it bears. `lots`: those it names."""
    number_of = {str(lot.id): lot.lot_number for lot in lots}
    rows = raw.get("materials")
    if not isinstance(rows, list):
        return dict(raw)
    return {**raw, "materials": [_with_number(row, number_of) for row in rows]}


def _with_number(row: Any, number_of: Mapping[str, str]) -> Any:
    number = number_of.get(str(row.get("lot", ""))) if isinstance(row, Mapping) else None
    return {"named": number, **row} if number else row
