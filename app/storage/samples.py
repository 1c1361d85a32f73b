"""Plans that come with the program, as files of folders beside it: samples to look at, bare shells to begin with."""

from __future__ import annotations

import re
from pathlib import Path

from app.plan.faults import PlanRefused
from app.plan.reading import read_plan_file

_TOP = Path(__file__).resolve().parents[2]
SAMPLES = _TOP / "sample_plans"
SHELLS = _TOP / "plan_shells"
_STEM = re.compile(r"[A-Za-z0-9._-]{1,40}")


def sample_files(folder: Path = SAMPLES) -> list[Path]:
    """The plan files of a folder, by name; none where the program was installed without them."""
    if not folder.is_dir():
        return []
    return sorted(path for path in folder.glob("*.json") if _STEM.fullmatch(path.stem))


def sample_file(stem: str, folder: Path = SAMPLES) -> Path | None:
    """The file of a sample, found by comparing names, so that no id reaches another file."""
    return next((path for path in sample_files(folder) if path.stem == stem), None)


def sample_names(folder: Path = SAMPLES) -> dict[str, str]:
    """The samples: file stem to plan name; a sample that is refused is left out."""
    names = {}
    for path in sample_files(folder):
        try:
            names[path.stem] = read_plan_file(path).name
        except PlanRefused:
            continue
    return names
