"""Writing every facts and worked table anew from the journal, in one transaction."""

from __future__ import annotations

from collections import defaultdict

from sqlalchemy import Table, delete
from sqlalchemy.exc import DBAPIError

from repairlog.records.rebuild.cells import Cells, encoder
from repairlog.records.rebuild.expected import expected
from repairlog.records.rebuild.plan import demand_tables, plan
from repairlog.records.store import Busy, Store, in_bulk, is_worth_another_turn
from repairlog.records.tables import of_kind
from repairlog.records.tables.beside import STALE
from repairlog.records.tables.bulk import empty_worked_out, put_rows
from repairlog.records.tables.facts import STREET

ROWS_AT_ONCE = 5000


def rebuild(store: Store) -> int:
    """Empty the facts and worked tables and fold the journal into them; how many rows were written.

    Others wait meanwhile. Nothing beside is touched but the marks of what was stale, which is worked out too.
    Raises TablesMissing, JournalAltered, journal.HeadMissing, store.Busy: then nothing was written.
    """
    try:
        return _rebuilt(store)
    except DBAPIError as error:
        if is_worth_another_turn(error):  # another rebuild waits at the same gate
            raise Busy from error
        raise


def _rebuilt(store: Store) -> int:
    with store.writing() as tx, in_bulk():
        demand_tables(tx)
        empty_worked_out(tx)
        encoders = {table: encoder(table, tx.connection.dialect) for table in of_kind("facts", "worked")}
        waiting: dict[Table, list[Cells]] = defaultdict(list)
        streets: set[Cells] = set()
        written = 0
        for picture in expected(tx, plan(tx)):
            for table, rows in picture.items():
                cells = [encoders[table](row) for row in rows.values()]
                if table is STREET:
                    cells = [each for each in cells if each not in streets]
                    streets.update(cells)
                waiting[table] += cells
                if len(waiting[table]) >= ROWS_AT_ONCE:
                    written += len(waiting[table])
                    put_rows(tx, table, rows=waiting.pop(table))
        for table, cells in waiting.items():
            written += len(cells)
            put_rows(tx, table, rows=cells)
        tx.connection.execute(delete(STALE))
        return written
