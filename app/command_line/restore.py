"""Put a backup back in place of the kept plans, which are kept aside."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.command_line.data_folder import add_data_argument, database_of, store_troubles
from app.storage.backup import put_back
from app.storage.place import ready_folder


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("backup", metavar="FILE", type=Path, help="a file made by studbay backup")
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Put it back."""
    with store_troubles():
        database = database_of(chosen.data)
        ready_folder(database.parent)
        aside = put_back(chosen.backup, database)
    print(f"{database}: the plans of {chosen.backup} are in place")
    if aside is not None:
        print(f"{aside}: what was there before; start a server that was running again")
    return 0
