"""Where plans are kept on this machine, open to their owner only: a plan tells where a home's detectors are.

``--data`` names a folder; without it the user's own data folder is taken, never the program's.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from app.storage.troubles import StoreRefused

DATABASE_NAME = "plans.sqlite3"
_OWNER_ONLY_FOLDER = 0o700
_OWNER_ONLY_FILE = 0o600


def usual_folder() -> Path:
    """The data folder of this user by the custom of the operating system."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", Path.home() / "AppData" / "Local")) / "Studbay"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Studbay"
    named = os.environ.get("XDG_DATA_HOME", "")
    return (Path(named) if Path(named).is_absolute() else Path.home() / ".local" / "share") / "studbay"


def ready_folder(folder: Path) -> Path:
    """Make the folder if it is not there, and close it to others; raises ``StoreRefused`` where that fails."""
    try:
        if not folder.exists():
            folder.mkdir(parents=True, mode=_OWNER_ONLY_FOLDER)
        if not folder.is_dir():
            raise StoreRefused(f"{folder} is no folder; give --data a folder")
        if folder.stat().st_mode & 0o077 and next(folder.iterdir(), None) is None:
            folder.chmod(_OWNER_ONLY_FOLDER)
    except OSError as error:
        raise StoreRefused(f"{folder}: it cannot keep plans ({error.strerror}); give --data another folder") from None
    return folder


def ready_file(path: Path) -> Path:
    """Make the file if it is not there, readable by its owner only (SQLite gives its own side files the same mode)."""
    try:
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, _OWNER_ONLY_FILE))
        if path.stat().st_mode & 0o077:
            path.chmod(_OWNER_ONLY_FILE)
    except OSError as error:
        raise StoreRefused(f"{path}: the plans file cannot be opened ({error.strerror}); check who owns it") from None
    return path
