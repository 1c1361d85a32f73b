"""Foreign files made ready, as the bytes that are sent: a survey, and the plan that choices give.

The files asked about last are kept opened by their digest, so that a choice changed is answered at once. It runs in
a process of its own, since a file by others may take any time and memory.
"""

from __future__ import annotations

import sys
from collections import OrderedDict
from typing import Any

from app.intake.choices import Choices
from app.intake.opening import open_foreign
from app.intake.result_picture import result_picture
from app.plan.reading import plan_value
from app.web.json_bytes import as_json
from app.web.workshop.process import serve


class KeptDrawing:
    """One foreign file, opened."""

    def __init__(self, source: bytes) -> None:
        self._opened = open_foreign(source)

    def survey(self) -> bytes:
        """What there is to choose from, as JSON."""
        return as_json(self._opened.survey())

    def drawn_plan(self, **choices: Any) -> bytes:
        """The plan of some choices, its picture and the account of what was read, as JSON."""
        plan, report = self._opened.converted(Choices(**choices))
        return as_json({"plan": plan_value(plan), "report": report.value(), "picture": result_picture(plan)})


class Drawings:
    """The files asked about last."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[str, KeptDrawing] = OrderedDict()

    def put(self, digest: str, content: bytes) -> None:
        """Open a file unless it is open; raises ``DrawingRefused``."""
        if digest not in self._kept:
            while len(self._kept) >= self._most:
                self._kept.popitem(last=False)
            self._kept[digest] = KeptDrawing(content)

    def drop(self, digest: str) -> None:
        """Put a file away."""
        self._kept.pop(digest, None)

    def of(self, digest: str) -> KeptDrawing | None:
        """An opened file, or None."""
        return self._kept.get(digest)


if __name__ == "__main__":
    serve(Drawings(int(sys.argv[1])), float(sys.argv[2]))
