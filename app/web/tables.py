"""The tables that drive the page: design values, device kinds, and the choices of a printed set, as JSON."""

from __future__ import annotations

from typing import Any

from app.drawing.sheets.paper.habits import HABITS
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import SCALES
from app.drawing.sheets.sets import SETS
from app.plan.devices import DEVICE_KINDS, DeviceKind
from app.plan.practice import DESIGN_VALUES, DesignValue, Practice


def tables() -> dict[str, Any]:
    """Every design value, every device kind, and what can be chosen of a printed set."""
    return {
        "practice": [_design_value(value) for value in DESIGN_VALUES],
        "device_kinds": [_device_kind(kind) for kind in DEVICE_KINDS],
        "sheets": {
            "sets": [{"key": key, "words": each.words, "about": each.about} for key, each in SETS.items()],
            "papers": [{"key": each.key, "words": f"{each.name}, {each.sizes}"} for each in PAPERS.values()],
            "scales": [{"key": each.key, "words": each.words} for each in SCALES.values()],
            "habits": [
                {"key": each.key, "words": each.words, "units": each.units, "paper": each.paper}
                for each in HABITS.values()
            ],
        },
    }


def _design_value(value: DesignValue) -> dict[str, Any]:
    names = ("key", "default", "unit", "words", "source", "low", "high", "choices", "kind", "heading")
    return {name: getattr(value, name) for name in names}


def _device_kind(kind: DeviceKind) -> dict[str, Any]:
    usual = Practice()
    return {
        "kind": kind.kind,
        "name": kind.name,
        "abbreviation": kind.abbreviation,
        "words": kind.words,
        "mount": kind.mount,
        "height": None if kind.height_key is None else usual.number(kind.height_key),
        "cable": None if kind.cable_key is None else usual.text(kind.cable_key),
        "symbol": kind.symbol,
        "faces": kind.faces,
        "located_by_others": kind.located_by_others,
    }
