"""Write every plan, with all that is kept beside it, and every template into one zip file for another Studbay."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from app.command_line.data_folder import add_data_argument, opened, store_troubles
from app.command_line.failing import CannotDo
from app.storage.pack.writing import PackWritten, write_pack
from app.storage.place import ready_file


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("out", metavar="OUT.zip", type=Path, help="the file to make")
    parser.add_argument("--no-removed", action="store_true", help="leave removed plans out")
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Write it; 1 where something damaged was left out."""
    out: Path = chosen.out
    if out.exists():
        raise CannotDo(f"{out} is there already; name a new file, so that no pack is lost")
    if not out.absolute().parent.is_dir():
        raise CannotDo(f"{out.parent}: there is no such folder; make it first")
    told = _written(out, chosen.data, removed=not chosen.no_removed)
    for line in told.left_out:
        print(line)
    counts = f"{told.plans} plans, {told.revisions} revisions, {told.pictures} underlays, {told.templates} templates"
    print(f"{out}: {counts}; keep it as confidential as the plans")
    return 1 if told.left_out else 0


def _written(out: Path, data: Path | None, *, removed: bool) -> PackWritten:
    half = out.with_name(out.name + ".part")
    store = opened(data)
    try:
        with store_troubles(), ready_file(half).open("wb") as file:
            told = write_pack(store.engine, file, removed=removed)
            file.flush()
            os.fsync(file.fileno())
        os.replace(half, out)
    except OSError as error:
        raise CannotDo(f"{out}: cannot be written ({error.strerror}); make room and try again") from None
    finally:
        half.unlink(missing_ok=True)
        store.close()
    return told
