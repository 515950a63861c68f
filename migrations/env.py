"""What Alembic runs: the engine comes from the caller, and nothing of the program is imported here."""

from alembic import context

engine = context.config.attributes["engine"]

with engine.connect() as connection:
    context.configure(connection=connection, render_as_batch=connection.dialect.name == "sqlite")
    with context.begin_transaction():
        context.run_migrations()
    connection.commit()
