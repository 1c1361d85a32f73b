"""Run by alembic for every command: the connection is given by ``app.storage.migrating``."""

from alembic import context

from app.storage.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
    transactional_ddl=True,
)
context.run_migrations()
