"""Bring a store's tables to what this program expects, step by step, in one transaction.

A store of a newer program is refused and left as it is.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, inspect

from app.storage.tables import plans
from app.storage.troubles import StoreRefused

_STEPS = Path(__file__).with_name("migrations")


def migrate(engine: Engine) -> bool:
    """Take the steps that are still to be taken; True where the store had no plans table before: a first run."""
    settings = _settings()
    with engine.begin() as connection:
        refuse_newer(MigrationContext.configure(connection).get_current_heads())
        first_run = not inspect(connection).has_table(plans.name)
        settings.attributes["connection"] = connection
        command.upgrade(settings, "head")
    return first_run


def refuse_newer(taken: Iterable[str]) -> None:
    """Refuse with ``StoreRefused`` a store that has taken steps that this program does not know."""
    known = {step.revision for step in ScriptDirectory.from_config(_settings()).walk_revisions()}
    if not set(taken) <= known:
        raise StoreRefused("the plans file was written by a newer Studbay; install that one, or give another --data")


def _settings() -> Config:
    settings = Config()
    settings.set_main_option("script_location", str(_STEPS).replace("%", "%%"))
    return settings
