"""The file that a command writes: refused before the work where it cannot be written, and never left half written."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from app.command_line.failing import CannotDo


def refuse_unwritable(out: Path) -> None:
    """Refuse before the work a file that cannot be written after it; raises ``CannotDo``."""
    if out.is_dir():
        raise CannotDo(f"{out}: is a folder; name the file to write")
    if not out.absolute().parent.is_dir():
        raise CannotDo(f"{out}: there is no such folder; make it first")


def write_whole(out: Path, content: bytes) -> None:
    """Write the whole file beside its place, then put it there in one step; raises ``CannotDo``."""
    try:
        with tempfile.NamedTemporaryFile("wb", dir=out.absolute().parent, prefix=f".{out.name}.", delete=False) as file:
            try:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
                os.chmod(file.name, 0o666 & ~_umask())
                os.replace(file.name, out)
            except BaseException:
                Path(file.name).unlink(missing_ok=True)
                raise
    except OSError as error:
        raise CannotDo(f"{out}: cannot be written ({error.strerror}); check its folder") from None


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
