"""Changes as sentences: what happened to which thing, how far and which way it moved, which fields differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from app.plan.measures import length_text
from app.review.comparison.changes import WHATS, Change, Move, What

_WORDS: dict[What, str] = {
    "added": "added",
    "moved": "moved",
    "changed": "changed",
    "renamed": "renamed",
    "removed": "removed",
}
_LEAST = 0.02  # ft, a quarter inch: a shift that is told of neither way


def change_words(change: Change, units: str) -> str:
    """What happened to a thing, without its name: "moved 2'-0" east; height 7'-0" → 8'-0""."""
    parts = [_head(change, units)]
    parts += [f"{field.words} {_short(field.old)} → {_short(field.new)}" for field in change.fields]
    if change.carries:
        count = len(change.carries)
        parts.append(f"with its opening{'s' if count > 1 else ''} {', '.join(change.carries)}")
    return "; ".join(part for part in parts if part)


def count_words(changes: Iterable[Change]) -> str:
    """How many changes of which sort: "2 added, 1 moved"."""
    counts = Counter(change.what for change in changes)
    return ", ".join(f"{counts[what]} {_WORDS[what]}" for what in WHATS if counts[what]) or "no change"


def move_words(move: Move, units: str) -> str:
    """How far and which way: "2'-3" (2'-0" east, 1'-0" south)"."""
    east, north = move.end[0] - move.start[0], move.end[1] - move.start[1]
    ways = [(abs(east), "east" if east > 0 else "west"), (abs(north), "north" if north > 0 else "south")]
    told = [(feet, way) for feet, way in ways if feet >= _LEAST]
    if len(told) < 2:
        way = told[0][1] if told else ""
        return f"{length_text(move.feet, units)} {way}".strip()
    both = ", ".join(f"{length_text(feet, units)} {way}" for feet, way in told)
    return f"{length_text(move.feet, units)} ({both})"


def _head(change: Change, units: str) -> str:
    if change.what == "renamed":
        return f"renamed, was {change.was_id}"
    if change.what == "changed":
        return ""
    if change.what != "moved":
        return _WORDS[change.what]
    renamed = f", was {change.was_id}" if change.was_id not in (None, change.id) else ""
    if not change.moves:
        return f"moved from level {change.was_level}{renamed}"
    level = f" from level {change.was_level}" if change.was_level != change.level else ""
    if len(change.moves) == 1 and change.family == "walls" and any(f.field == "length" for f in change.fields):
        return f"one end moved {move_words(change.moves[0], units)}"
    far = [move_words(move, units) for move in change.moves]
    return f"moved{level} {far[0]}{renamed}" if len(far) == 1 else f"ends moved {' and '.join(far)}{renamed}"


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= 80 else f"{line[:79]}…"
