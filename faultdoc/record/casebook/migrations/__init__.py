"""Alembic's scripts: `env.py` runs them, `versions` holds one step of the layout each."""
