"""What a command prints: lines for people, JSON for programs, always UTF-8."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from pydantic_core import to_json


def print_json(answer: object) -> None:
    """Print one JSON value; a number that is not finite becomes null."""
    sys.stdout.buffer.write(to_json(answer, inf_nan_mode="null") + b"\n")
    sys.stdout.buffer.flush()


def print_lines(lines: Iterable[str]) -> None:
    """Print lines of text."""
    print_text("".join(f"{line}\n" for line in lines))


def print_text(text: str) -> None:
    """Print a text as it is, line ends and all."""
    sys.stdout.buffer.write(text.encode("utf-8", "replace"))
    sys.stdout.buffer.flush()
