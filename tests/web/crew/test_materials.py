"""A number that a crew read off its material becomes a lot where the book leaves no doubt which."""

import pytest

from repairlog.entries.ids import read_id
from repairlog.trade.lot import Lot
from repairlog.web.crew.materials import LotTyped, looked_up, numbers_typed, with_lots, with_numbers
from tests.makers import book as m


def lot(number: str) -> Lot:
    return Lot(id=read_id(m.new_id()), area=m.new_id(), item="filler", lot_number=number, expires_on="", void=False)


def found(number: str, *lots: Lot, chosen: str = "") -> LotTyped:
    (typed,) = looked_up([{"key": "m1", "named": number, "lot": chosen}], lots)
    return typed


SMALL, LARGE, TWIN = lot("f-7"), lot("F-7"), lot("F-7")


@pytest.mark.parametrize(
    ("typed", "meant", "is_open"),
    [
        (found("F-7", LARGE), LARGE, False),
        (found(" f-7 ", LARGE), LARGE, False),
        (found("f-7", LARGE, SMALL), SMALL, False),
        (found("F-7", LARGE, SMALL), LARGE, False),
        (found("F-7", LARGE, TWIN), None, True),
        (found("F-7", LARGE, TWIN, chosen=str(TWIN.id)), TWIN, False),
        (found("F-7", LARGE, TWIN, chosen=str(SMALL.id)), None, True),
        (found("F-7", LARGE, TWIN, chosen="none_of_them"), None, False),
        (found("F-77", LARGE, chosen=str(LARGE.id)), None, False),
        (found("F-7"), None, False),
    ],
)
def test_which_lot_is_meant(typed: LotTyped, meant: Lot | None, is_open: bool) -> None:
    assert (typed.lot, typed.is_open) == (meant, is_open)


def test_rows_without_a_number_are_not_looked_up_and_stay_as_they_are() -> None:
    rows = [{"key": "m1", "used": "2"}, {"key": "m2", "named": "  "}]
    assert (numbers_typed(rows), looked_up(rows, [LARGE])) == ([], [])
    assert with_lots({"materials": rows}, []) == {"materials": rows}
    assert with_lots({"kind": "repair_attempted"}, []) == {"kind": "repair_attempted"}


def test_a_lot_takes_the_place_of_its_number_and_gives_it_back() -> None:
    rows = [{"key": "m1", "named": "f-7", "used": "2"}, {"key": "m2", "named": "X?", "lot": "none_of_them"}]
    meant = with_lots({"materials": rows}, looked_up(rows, [LARGE]))
    assert meant == {
        "materials": [{"key": "m1", "lot": str(LARGE.id), "used": "2"}, {"key": "m2", "named": "X?"}],
    }
    back = with_numbers(meant, [LARGE])["materials"]
    assert back == [{"key": "m1", "lot": str(LARGE.id), "named": "F-7", "used": "2"}, {"key": "m2", "named": "X?"}]
