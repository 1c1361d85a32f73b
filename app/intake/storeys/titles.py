"""Titles of drawings: which words name a storey, which a drawing that is no floor plan, which storey is lowest.

The words are those that offices write under their drawings in several languages; common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from app.intake.tracing.names import cased

Kind = Literal["storey", "plan", "other"]

_FLOOR = r"(?:floor|level|stor(?:e)?y|flr)"
_NUMBERS = {
    number: value
    for value, words in enumerate(
        ("zero", "first 1st one premier 1er", "second 2nd two", "third 3rd three", "fourth 4th four", "fifth 5th five")
    )
    for number in words.split()
}
_NUMBER = "|".join(sorted(_NUMBERS, key=len, reverse=True))

# Each with how high the storey lies; None: as its number says.
_STOREYS: tuple[tuple[float | None, str], ...] = (
    (
        -1.0,
        rf"(?:basement|cellar)(?:\s+{_FLOOR})?|lower\s+(?:ground\s+)?{_FLOOR}|sous-?sol|keller(?:geschoss)?|s[oó]tano",
    ),
    (
        0.0,
        rf"(?:ground|main|entry)\s+{_FLOOR}|erdgeschoss|\beg\b|rez-?de-?chauss[eé]e|\brdc\b|planta\s+baja",
    ),
    (None, rf"\b(?P<ordinal>{_NUMBER})\s+(?:{_FLOOR}|[eé]tage)"),
    (None, r"\b(?P<counted>\d{1,2})\s*\.?\s*(?:og\b|obergeschoss|stock\b|[eé]tage|verdieping)"),
    (None, rf"\b{_FLOOR}\s+(?:no\.?\s*)?(?P<numbered>\d{{1,2}}\b|(?:{_NUMBER})\b)"),
    (40.0, rf"upper\s+{_FLOOR}|upstairs|obergeschoss|\bog\b|planta\s+alta|bovenverdieping"),
    (80.0, rf"top\s+{_FLOOR}"),
    (90.0, rf"(?:attic|loft)(?:\s+{_FLOOR})?|dachgeschoss|\bdg\b|combles"),
)
_KNOWN = tuple((rank, re.compile(words, re.IGNORECASE)) for rank, words in _STOREYS)
_PLAN = re.compile(r"\b(?:floor\s*)?plan\b|grundriss|\bplanta\b|plattegrond", re.IGNORECASE)
_TELLS_PLAN = re.compile(rf"plan|{_FLOOR}|geschoss|[eé]tage|grundriss|rdc|chauss|upstairs|\b[eokd]g\b", re.IGNORECASE)
_NO_FLOOR_PLAN = re.compile(
    r"elevation|section|detail|legend|schedule|perspective|isometric|axonometric|title\s*block|wall\s*types?|"
    r"(?:site|plot|block|roof|foundation|footing|key|location|framing|electrical|lighting|plumbing|mechanical|ceiling|"
    r"demolition|drainage|landscape|furniture|finish(?:es)?)\s+plan|ansicht|schnitt|coupe|fa[cç]ade|alzado|secci[oó]n",
    re.IGNORECASE,
)
_NO_TITLE = re.compile(
    r"\b(?:to|see|from|above|over|refer|per|match|line|area|joists?|f\.?f\.?l\.?|sq|approx)\b|[+±]\s*\d", re.IGNORECASE
)
_LONGEST = 70


@dataclass(frozen=True)
class Title:
    """What a title tells; ``rank`` is how high its storey lies (0 the ground), ``number`` its number if told."""

    text: str
    kind: Kind
    name: str = ""
    rank: float | None = None
    number: int | None = None
    is_plain: bool = False  # whether words such as "plan" or "floor" make it a title wherever it stands


def title_told(text: str) -> Title | None:
    """The title that some words are; None where they are none."""
    if len(text) > _LONGEST or _NO_TITLE.search(text):
        return None
    plain = bool(_TELLS_PLAN.search(text))
    if _NO_FLOOR_PLAN.search(text):
        return Title(text, "other", cased(text), is_plain=plain)
    for rank, words in _KNOWN:
        if found := words.search(text):
            told = next((one for one in found.groupdict().values() if one), None)
            number = None if told is None else _NUMBERS.get(told.lower(), int(told) if told.isdigit() else None)
            return Title(text, "storey", cased(found.group(0).strip()), rank, number, plain)
    return Title(text, "plan", cased(text), is_plain=True) if _PLAN.search(text) else None


def ranks(titles: Mapping[int, Title]) -> dict[int, float]:
    """How high each titled storey lies, the ground at 0: ``first`` is the ground where nothing else is called so."""
    named_ground = any(one.rank == 0 or one.number == 0 for one in titles.values() if one.kind == "storey")
    least = 0 if named_ground else 1
    return {
        key: float(one.number - least) if one.rank is None and one.number is not None else float(one.rank or 0.0)
        for key, one in titles.items()
        if one.kind == "storey" and not (one.rank is None and one.number is None)
    }
