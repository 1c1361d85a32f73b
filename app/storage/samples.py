"""The sample plans that come with the program: files of the folder ``sample_plans`` beside it."""

from __future__ import annotations

import re
from pathlib import Path

SAMPLES = Path(__file__).resolve().parents[2] / "sample_plans"
_STEM = re.compile(r"[A-Za-z0-9._-]{1,40}")


def sample_files() -> list[Path]:
    """The sample plan files, by name; none where the program was installed without them."""
    if not SAMPLES.is_dir():
        return []
    return sorted(path for path in SAMPLES.glob("*.json") if _STEM.fullmatch(path.stem))
