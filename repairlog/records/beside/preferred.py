"""The units in which a person likes to see measures beside what was typed. Nothing rests on them but what is shown."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from sqlalchemy import bindparam, delete, insert, select

from repairlog.records.store import Store, Tx
from repairlog.records.tables.beside import PREFERRED_UNIT
from repairlog.units import QUANTITIES

CHOSEN_FOR = ("pressure", "gas", "hole", "distance", "temperature", "area")
"""The quantities of which a reader may choose the unit."""

_OF_PERSON = select(PREFERRED_UNIT.c.quantity, PREFERRED_UNIT.c.unit).where(
    PREFERRED_UNIT.c.person_id == bindparam("person")
)


def preferred_units(tx: Tx, person: UUID) -> dict[str, str]:
    """The unit that this person likes, by quantity; nothing of a quantity where any will do."""
    found = tx.connection.execute(_OF_PERSON, {"person": person})
    return {row.quantity: row.unit for row in found if row.unit in offered(row.quantity)}


def prefer_units(store: Store, *, person: UUID, units: Mapping[str, str]) -> None:
    """From now on these, and no others. Raises ValueError of a unit that its quantity does not offer."""
    for quantity, unit in units.items():
        if unit not in offered(quantity):
            raise ValueError(f"{quantity} is not offered in {unit}")
    with store.writing() as tx:
        tx.connection.execute(delete(PREFERRED_UNIT).where(PREFERRED_UNIT.c.person_id == person))
        if units:
            rows = [{"person_id": person, "quantity": quantity, "unit": unit} for quantity, unit in units.items()]
            tx.connection.execute(insert(PREFERRED_UNIT), rows)


def offered(quantity: str) -> tuple[str, ...]:
    """The units to choose from; none where there is no choice. What is summed along a path is no other unit of a gas
    reading, and cannot be chosen for one."""
    return tuple(unit for unit in QUANTITIES[quantity].offers if unit != "ppm-m") if quantity in CHOSEN_FOR else ()
