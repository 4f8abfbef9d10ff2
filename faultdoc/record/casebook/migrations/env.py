"""Alembic's way in: runs the steps on the connection, and in the transaction, that layout.py gives it."""

from alembic import context

connection = context.config.attributes["connection"]
context.configure(connection=connection)
context.run_migrations()
