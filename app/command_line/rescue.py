"""Write out every plan that a damaged plans file still gives, each by its newest readable revision."""

from __future__ import annotations

import argparse
import re
from pathlib import Path

from app.command_line.data_folder import add_data_argument, database_of, store_troubles
from app.command_line.failing import CannotDo
from app.storage.backup import still_readable

_FIT_FOR_A_NAME = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._-]{0,39}")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="a new or empty folder for the plan files")
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Write them; 1 where a plan is lost."""
    folder: Path = chosen.folder
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CannotDo(f"{folder} is not empty; name a new folder, so that nothing is overwritten")
    lost = 0
    with store_troubles():
        for number, plan in enumerate(still_readable(database_of(chosen.data)), start=1):
            if plan.content is None:
                lost += 1
                print(f"{plan.plan_id}: no revision of it can be read")
                continue
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            stem = plan.plan_id if _FIT_FOR_A_NAME.fullmatch(plan.plan_id) else f"plan-{number}"
            (folder / f"{stem}.json").write_bytes(plan.content)
            print(f"{folder / stem}.json: revision {plan.revision}")
    return 1 if lost else 0
