"""Triggers by which the database itself refuses to change the journal: it accepts the next line and nothing else.

SQLite's INSERT OR REPLACE walks past triggers of UPDATE and DELETE, so the trigger of INSERT also refuses an index
that is not the next, an id that is already there, and a rowid that is: SQLite lets anybody name one to replace.
"""

from __future__ import annotations

_ONLY_NEXT = "the journal accepts only the next line"
_HEAD_GROWS = "the head of the journal only grows"
_TEXTS_STAY = "the text of a rulebook stays as it was adopted"

SQLITE = {
    "journal_no_update": f"""CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, '{_ONLY_NEXT}'); END""",
    "journal_no_delete": f"""CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, '{_ONLY_NEXT}'); END""",
    "journal_next": f"""CREATE TRIGGER journal_next BEFORE INSERT ON journal
WHEN NEW.journal_index IS NOT (SELECT coalesce(max(journal_index), -1) + 1 FROM journal)
OR EXISTS (SELECT 1 FROM journal WHERE id = NEW.id OR rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, '{_ONLY_NEXT}'); END""",
    "head_grows": f"""CREATE TRIGGER head_grows BEFORE UPDATE ON head
WHEN NEW.size <= OLD.size OR NEW.only IS NOT OLD.only
BEGIN SELECT RAISE(ABORT, '{_HEAD_GROWS}'); END""",
    "head_no_delete": f"""CREATE TRIGGER head_no_delete BEFORE DELETE ON head
BEGIN SELECT RAISE(ABORT, '{_HEAD_GROWS}'); END""",
    "head_one": f"""CREATE TRIGGER head_one BEFORE INSERT ON head
WHEN EXISTS (SELECT 1 FROM head)
BEGIN SELECT RAISE(ABORT, '{_HEAD_GROWS}'); END""",
    "rulebook_text_no_update": f"""CREATE TRIGGER rulebook_text_no_update BEFORE UPDATE ON rulebook_text
BEGIN SELECT RAISE(ABORT, '{_TEXTS_STAY}'); END""",
    "rulebook_text_no_delete": f"""CREATE TRIGGER rulebook_text_no_delete BEFORE DELETE ON rulebook_text
BEGIN SELECT RAISE(ABORT, '{_TEXTS_STAY}'); END""",
    "rulebook_text_once": f"""CREATE TRIGGER rulebook_text_once BEFORE INSERT ON rulebook_text
WHEN EXISTS (SELECT 1 FROM rulebook_text WHERE digest = NEW.digest OR rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, '{_TEXTS_STAY}'); END""",
}

POSTGRESQL_FUNCTIONS = {
    "journal_refuse": f"""CREATE FUNCTION journal_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '{_ONLY_NEXT}' USING ERRCODE = 'integrity_constraint_violation'; END $$""",
    "journal_accept_next": f"""CREATE FUNCTION journal_accept_next() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
IF NEW.journal_index IS DISTINCT FROM (SELECT coalesce(max(journal_index), -1) + 1 FROM journal) THEN
RAISE EXCEPTION '{_ONLY_NEXT}' USING ERRCODE = 'integrity_constraint_violation'; END IF;
RETURN NEW;
END $$""",
    "head_refuse": f"""CREATE FUNCTION head_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '{_HEAD_GROWS}' USING ERRCODE = 'integrity_constraint_violation'; END $$""",
    "head_accept": f"""CREATE FUNCTION head_accept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
IF TG_OP = 'UPDATE' AND (NEW.size <= OLD.size OR NEW.only <> OLD.only)
OR TG_OP = 'INSERT' AND EXISTS (SELECT 1 FROM head) THEN
RAISE EXCEPTION '{_HEAD_GROWS}' USING ERRCODE = 'integrity_constraint_violation'; END IF;
RETURN NEW;
END $$""",
    "rulebook_text_refuse": f"""CREATE FUNCTION rulebook_text_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '{_TEXTS_STAY}' USING ERRCODE = 'integrity_constraint_violation'; END $$""",
}

POSTGRESQL = {
    "journal_no_change": """CREATE TRIGGER journal_no_change BEFORE UPDATE OR DELETE ON journal
FOR EACH ROW EXECUTE FUNCTION journal_refuse()""",
    "journal_no_truncate": """CREATE TRIGGER journal_no_truncate BEFORE TRUNCATE ON journal
FOR EACH STATEMENT EXECUTE FUNCTION journal_refuse()""",
    "journal_next": """CREATE TRIGGER journal_next BEFORE INSERT ON journal
FOR EACH ROW EXECUTE FUNCTION journal_accept_next()""",
    "head_no_delete": """CREATE TRIGGER head_no_delete BEFORE DELETE ON head
FOR EACH ROW EXECUTE FUNCTION head_refuse()""",
    "head_no_truncate": """CREATE TRIGGER head_no_truncate BEFORE TRUNCATE ON head
FOR EACH STATEMENT EXECUTE FUNCTION head_refuse()""",
    "head_grows": """CREATE TRIGGER head_grows BEFORE INSERT OR UPDATE ON head
FOR EACH ROW EXECUTE FUNCTION head_accept()""",
    "rulebook_text_no_change": """CREATE TRIGGER rulebook_text_no_change BEFORE UPDATE OR DELETE ON rulebook_text
FOR EACH ROW EXECUTE FUNCTION rulebook_text_refuse()""",
    "rulebook_text_no_truncate": """CREATE TRIGGER rulebook_text_no_truncate BEFORE TRUNCATE ON rulebook_text
FOR EACH STATEMENT EXECUTE FUNCTION rulebook_text_refuse()""",
}


def statements(dialect: str) -> list[str]:
    """What makes the triggers on that database, in order. `dialect`: sqlite or postgresql."""
    if dialect == "sqlite":
        return list(SQLITE.values())
    return [*POSTGRESQL_FUNCTIONS.values(), *POSTGRESQL.values()]
