"""Copy all kept plans, with every revision, into one file; the server may go on serving."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.command_line.data_folder import add_data_argument, database_of, store_troubles
from app.storage.backup import back_up


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("out", metavar="OUT", type=Path, help="the file to make")
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Make the backup."""
    with store_troubles():
        size = back_up(database_of(chosen.data), chosen.out)
    print(f"{chosen.out}: {size:,} bytes, every plan with all its revisions; keep it as confidential as the plans")
    return 0
