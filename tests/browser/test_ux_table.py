"""The developers' table of what a designer expects: every point is there, and every test that it names."""

from __future__ import annotations

import re
from pathlib import Path

TESTS = Path(__file__).parents[1]
_ROW = re.compile(r"^\| (\d+) \| [^|]+ \| (.+) \|$", re.MULTILINE)
_TEST = re.compile(r"`([\w/]+\.py)::(test_\w+)`")
POINTS = 41


def _rows() -> list[tuple[int, list[tuple[str, str]]]]:
    words = (TESTS.parent / "DEVELOPERS.md").read_text("utf-8")
    section = words.split("## What a designer expects", 1)[1].split("\n## ", 1)[0]
    return [(int(number), _TEST.findall(shown)) for number, shown in _ROW.findall(section)]


def test_every_point_is_shown_by_a_test() -> None:
    rows = _rows()
    assert [number for number, _ in rows] == list(range(1, POINTS + 1))
    assert all(tests for _, tests in rows)


def test_every_test_that_is_named_exists() -> None:
    named = {test for _, tests in _rows() for test in tests}
    missing = [
        f"{file}::{test}"
        for file, test in sorted(named)
        if not (TESTS / file).exists() or f"def {test}(" not in (TESTS / file).read_text("utf-8")
    ]
    assert missing == []
