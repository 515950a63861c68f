"""What the migrations make is what the package declares, down to constraints, comments and triggers."""

from __future__ import annotations

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from repairlog.records.tables import METADATA, of_kind, trigger_statements

NAMES = {
    "sqlite": {"journal_no_update", "journal_no_delete", "journal_next", "head_grows", "head_no_delete", "head_one"}
    | {"rulebook_text_no_update", "rulebook_text_no_delete", "rulebook_text_once"},
    "postgresql": {
        "journal_no_change",
        "journal_no_truncate",
        "journal_next",
        "head_no_delete",
        "head_no_truncate",
        "head_grows",
        "rulebook_text_no_change",
        "rulebook_text_no_truncate",
    },
}


def triggers(engine):
    """Every trigger by name with its text, and on PostgreSQL every function of ours, spaces made one."""
    listing = (
        "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
        if engine.dialect.name == "sqlite"
        else "SELECT tgname, pg_get_triggerdef(oid) FROM pg_trigger WHERE NOT tgisinternal UNION ALL "
        "SELECT proname, pg_get_functiondef(oid) FROM pg_proc WHERE pronamespace = 'public'::regnamespace"
    )
    with engine.connect() as connection:
        return {name: " ".join(made.split()) for name, made in connection.execute(text(listing))}


def shape(engine):
    """Every table as the database itself tells of it, but for Alembic's own."""
    asked = inspect(engine)
    tables = [name for name in asked.get_table_names() if name != "alembic_version"]
    return {name: _table(asked, name) for name in tables}


def _table(asked, name):
    return {
        # by name: a column that came later stands last where it was added, and nothing reads columns by their place
        "columns": sorted((c["name"], str(c["type"]), c["nullable"], c["default"]) for c in asked.get_columns(name)),
        "key": asked.get_pk_constraint(name),
        "unique": _sorted(asked.get_unique_constraints(name)),
        "checks": _sorted(asked.get_check_constraints(name)),
        "foreign": _sorted(asked.get_foreign_keys(name)),
        "indexes": _sorted(_index(each) for each in asked.get_indexes(name)),
        "comments": _comments(asked, name),
    }


def _sorted(found):
    return sorted(found, key=lambda each: str(each["name"]))


def _index(found):
    """An index with what its WHERE says, as text: two clauses that say the same are not equal as such."""
    options = {option: str(value) for option, value in found.get("dialect_options", {}).items()}
    return {**found, "dialect_options": options}


def _comments(asked, name):
    if asked.dialect.name == "sqlite":
        return None  # SQLite keeps no comments
    return asked.get_table_comment(name), {c["name"]: c["comment"] for c in asked.get_columns(name)}


def test_every_table_is_the_same_by_migration_and_afresh(migrated, made_afresh):
    by_migration, afresh = shape(migrated), shape(made_afresh)
    assert by_migration.keys() == afresh.keys() == METADATA.tables.keys()
    assert {name: each for name, each in by_migration.items() if each != afresh[name]} == {}


def test_alembic_finds_nothing_to_change(migrated):
    with migrated.connect() as connection:
        options = {"compare_type": True, "compare_server_default": True}
        context = MigrationContext.configure(connection, opts=options)
        assert compare_metadata(context, METADATA) == []


def test_the_triggers_are_the_same_by_migration_and_afresh_and_none_is_missing(migrated, made_afresh):
    found = triggers(migrated)
    assert found == triggers(made_afresh)
    assert len(found) == len(trigger_statements(migrated.dialect.name))
    assert found.keys() >= NAMES[migrated.dialect.name]


def test_the_one_check_that_a_table_has_is_there(migrated):
    found = {name: [check["sqltext"] for check in each["checks"]] for name, each in shape(migrated).items()}
    assert {name: checks for name, checks in found.items() if checks} == {"head": ['"only" = 1']}


def test_every_table_and_column_is_commented_and_every_table_of_one_of_the_four_kinds():
    every = of_kind("journal", "facts", "worked", "beside")
    assert len(every) == len(METADATA.tables)
    keys = {"entry_id"}
    silent = [f"{t.name}.{c.name}" for t in every for c in t.columns if not c.comment and c.name not in keys]
    assert (silent, [t.name for t in every if not t.comment]) == ([], [])
