"""The one way in for a foreign file: its kind told, opened, ready for its survey and for the plan that choices give."""

from __future__ import annotations

from typing import Any, Protocol

from app.intake.choices import Choices
from app.intake.kinds import kind_of
from app.intake.report import Report
from app.plan.model import Plan


class Foreign(Protocol):
    """A foreign file, opened."""

    def survey(self) -> dict[str, Any]:
        """What there is to choose from."""

    def converted(self, choices: Choices) -> tuple[Plan, Report]:
        """The plan of some choices and the account of it; raises ``DrawingRefused``."""


def open_foreign(source: bytes) -> Foreign:
    """Open a DXF or IFC file; raises ``DrawingRefused``."""
    if kind_of(source) == "dxf":
        from app.intake.drawing import DxfDrawing  # each library is loaded only for its own files

        return DxfDrawing(source)
    from app.intake.ifc.model import IfcModel

    return IfcModel(source)
