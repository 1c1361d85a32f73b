"""Bring a store's tables to what this program expects, step by step, in one transaction.

A store of a newer program is refused and left as it is.
"""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, inspect

from app.storage.tables import plans
from app.storage.troubles import StoreRefused

_STEPS = Path(__file__).with_name("migrations")


def migrate(engine: Engine) -> bool:
    """Take the steps that are still to be taken; True where the store had no plans table before: a first run."""
    settings = Config()
    settings.set_main_option("script_location", str(_STEPS).replace("%", "%%"))
    with engine.begin() as connection:
        _refuse_newer(connection, ScriptDirectory.from_config(settings))
        first_run = not inspect(connection).has_table(plans.name)
        settings.attributes["connection"] = connection
        command.upgrade(settings, "head")
    return first_run


def _refuse_newer(connection: Connection, steps: ScriptDirectory) -> None:
    known = {step.revision for step in steps.walk_revisions()}
    found = set(MigrationContext.configure(connection).get_current_heads())
    if not found <= known:
        raise StoreRefused("the plans file was written by a newer Studbay; install that one, or give another --data")
