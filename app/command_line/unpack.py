"""Bring a pack in beside the kept plans: all of it or nothing, and nothing that is there is changed."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.command_line.data_folder import add_data_argument, opened, store_troubles
from app.command_line.failing import CannotDo
from app.storage.pack.merging import merge_pack
from app.storage.pack.reading import read_pack


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("pack", metavar="FILE.zip", type=Path, help="a file made by studbay pack, or by the page")
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Bring it in, and tell what became of each thing."""
    path: Path = chosen.pack
    try:
        with store_troubles(), path.open("rb") as file:
            pack = read_pack(file)  # judged before a store is opened, or made
            store = opened(chosen.data)
            came = merge_pack(store.engine, pack)
            store.close()
    except OSError as error:
        raise CannotDo(f"{path}: the file cannot be read ({error.strerror}); check its name and place") from None
    for each in came:
        print(each.words)
    count = sum(each.how != "here" for each in came)
    print(f"{path}: {count} of {len(came)} came in; nothing that was here was changed")
    return 0
