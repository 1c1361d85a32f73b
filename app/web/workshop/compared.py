"""A comparison in each form that the web asks for: how many changes, all of it as JSON, the change sheets, a PDF."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from app.documents.change_pdf import change_pdf
from app.drawing.sheets.changes.change_set import change_context
from app.drawing.sheets.changes.overlay import cloud_values
from app.drawing.sheets.changes.sides import Side
from app.review.comparison.answer import Comparison, summary
from app.review.comparison.wording import count_words
from app.web.json_bytes import as_json


def _count(comparison: Comparison, _choices: dict[str, Any]) -> bytes:
    return as_json(summary(comparison.changes) | {"words": count_words(comparison.changes)})


def _whole(comparison: Comparison, _choices: dict[str, Any]) -> bytes:
    return as_json(comparison.answer | {"clouds": cloud_values(comparison)})


def _context(comparison: Comparison, choices: dict[str, Any]) -> dict[str, Any]:
    old, new = (Side(**choices[side]) for side in ("old", "new"))
    said = {key: choice for key, choice in choices.items() if key not in ("old", "new")}
    return change_context(comparison, old, new, **said)


FORMS_OF_CHANGES: Mapping[str, Callable[[Comparison, dict[str, Any]], bytes]] = {
    "count": _count,
    "json": _whole,
    "sheets": lambda comparison, choices: as_json(_context(comparison, choices)),
    "pdf": lambda comparison, choices: change_pdf(_context(comparison, choices)),
}
