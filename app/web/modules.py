"""Which script modules a page needs at first, read from their own ``import`` lines.

The page names them all at once in its head, so that the browser need not find them one behind the other.
"""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

_IMPORT = re.compile(r'^(?:import|export)\b(?:[^;"]*?\bfrom)?\s*"([^"]+)"', re.MULTILINE)


def needed_by(folder: Path, *entries: str) -> list[str]:
    """Paths under ``folder`` of the modules that the entries import, themselves first, the nearest before the farther.

    What is imported only when it is wanted (``import(…)``) is left out. Raises ``FileNotFoundError`` for a module that
    is not there.
    """
    top = folder.resolve()
    found = [(top / entry).resolve() for entry in entries]
    for module in found:
        found += dict.fromkeys(path for path in _imports(module, module.stat().st_mtime_ns) if path not in found)
    return [module.relative_to(top).as_posix() for module in found]


@lru_cache(maxsize=1024)
def _imports(module: Path, changed: int) -> tuple[Path, ...]:
    """Modules that one imports; kept by its time of change."""
    return tuple((module.parent / name).resolve() for name in _IMPORT.findall(module.read_text("utf-8")))
