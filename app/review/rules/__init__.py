"""The rules of the trade, a module for each noun; importing this package registers them all."""

from app.review.rules import (
    cables,
    cans,
    contacts,
    glass,
    glass_breaks,
    keypads,
    labels,
    motions,
    placing,
    shell,
    sirens,
    smokes,
    wires,
)

__all__ = [
    "cables",
    "cans",
    "contacts",
    "glass",
    "glass_breaks",
    "keypads",
    "labels",
    "motions",
    "placing",
    "shell",
    "sirens",
    "smokes",
    "wires",
]
