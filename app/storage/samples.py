"""The sample plans that come with the program: files of the folder ``sample_plans`` beside it."""

from __future__ import annotations

import re
from pathlib import Path

from app.plan.faults import PlanRefused
from app.plan.reading import read_plan_file

SAMPLES = Path(__file__).resolve().parents[2] / "sample_plans"
_STEM = re.compile(r"[A-Za-z0-9._-]{1,40}")


def sample_files() -> list[Path]:
    """The sample plan files, by name; none where the program was installed without them."""
    if not SAMPLES.is_dir():
        return []
    return sorted(path for path in SAMPLES.glob("*.json") if _STEM.fullmatch(path.stem))


def sample_file(stem: str) -> Path | None:
    """The file of a sample, found by comparing names, so that no id reaches another file."""
    return next((path for path in sample_files() if path.stem == stem), None)


def sample_names() -> dict[str, str]:
    """The samples: file stem to plan name; a sample that is refused is left out."""
    names = {}
    for path in sample_files():
        try:
            names[path.stem] = read_plan_file(path).name
        except PlanRefused:
            continue
    return names
