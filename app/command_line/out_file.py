"""The file that a command writes: whole or not at all, so that a broken run leaves no half file."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from app.command_line.failing import CannotDo


def add_out_argument(parser: argparse.ArgumentParser, shown: str, words: str) -> None:
    """Let the command take the file to write."""
    parser.add_argument("-o", "--out", metavar=shown, type=Path, required=True, help=words)


def write_out(out: Path, content: bytes) -> None:
    """Write the file, in place of one that is there; raises ``CannotDo``."""
    half = out.with_name(f".{out.name}.part")
    try:
        half.write_bytes(content)
        os.replace(half, out)
    except OSError as error:
        half.unlink(missing_ok=True)
        raise CannotDo(f"{out}: cannot be written ({error.strerror}); name another file") from None
    except ValueError as error:
        raise CannotDo(f"{str(out)!r}: cannot be written ({error}); name another file") from None
