"""The glass of an overlay: each pane with its title, its covered line, its hatched bars and its mark.

The fast path of a drag: a pane's SVG text is kept by what it says, so that only panes that changed are written anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.drawing.course import Course
from app.drawing.maker import SVG, Stencil, as_text
from app.drawing.palette import COVERED, MISSED
from app.drawing.pane_marks import STATUS_WORDS, covered_spans, mark_path
from app.drawing.view import Spot, View
from app.plan.model import Level

_KEPT_PANES = 16_384
_PLAN = View()
_USUAL_HALF = 0.1875  # ft

Answers = Sequence[Mapping[str, Any]]
_Segment = tuple[Spot, Spot]
_Stretches = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class _Drawn:
    """One pane as it was drawn last: the answer and the height of words that it was drawn for, its text, its mark."""

    answer: Mapping[str, Any]
    word: float
    text: str
    mark: str


class GlassDrawer:
    """Draws the glass of one level many times over; what of walls and rooms it needs is looked up once."""

    def __init__(self, level: Level) -> None:
        self._half = {opening.id: level.wall_by_id[opening.wall].thickness / 2 for opening in level.openings}
        self._inside = {room.id: room.at for room in level.rooms}
        self._kept: dict[str, _Drawn] = {}

    def group(self, panes: Answers, word: float) -> str:
        """The group ``glass`` of a level's overlay as SVG text; ``word`` is the height of its words in feet."""
        drawn = self._drawn(panes, word)
        pieces = (*(one.text for one in drawn), *(one.mark for one in drawn))
        return f'<g class="glass" fill="none" stroke-linecap="butt">{"".join(pieces)}</g>'

    def panes(self, panes: Answers, word: float) -> dict[str, str]:
        """The SVG text of each pane by its id."""
        return {pane["id"]: one.text for pane, one in zip(panes, self._drawn(panes, word), strict=True)}

    def marks(self, panes: Answers, word: float) -> dict[str, str]:
        """The SVG text of the mark of each pane by the pane's id."""
        return {pane["id"]: one.mark for pane, one in zip(panes, self._drawn(panes, word), strict=True)}

    def _drawn(self, panes: Answers, word: float) -> list[_Drawn]:
        """The drawing of each pane; the last one where its answer is the very same object."""
        kept = self._kept
        return [
            last
            if (last := kept.get(pane["id"])) is not None and last.answer is pane and last.word == word
            else self._anew(pane, word)
            for pane in panes
        ]

    def _anew(self, pane: Mapping[str, Any], word: float) -> _Drawn:
        drawn = self._kept[pane["id"]] = _Drawn(pane, word, self._pane(pane, word), self._mark(pane, word))
        return drawn

    def _mark(self, pane: Mapping[str, Any], word: float) -> str:
        aside = self._half.get(pane["opening"], _USUAL_HALF) + 0.8 * word
        inside = self._inside.get(pane["room"] or "")
        course = _mark_course(pane["status"], _segment(pane), inside, aside, 0.4 * word)
        return _MARKS[pane["status"]].filled(course=course, pane=pane["id"])

    def _pane(self, pane: Mapping[str, Any], word: float) -> str:
        if pane["status"] == "covered":
            return _covered_text(pane["id"], pane["why"], _segment(pane))
        stretches = tuple((low, high) for low, high in pane["stretches"])
        bar = max(self._half.get(pane["opening"], _USUAL_HALF) + 0.12, 0.42 * word)
        return _missed_text(pane["id"], pane["status"], pane["why"], _segment(pane), stretches, bar)


def _segment(pane: Mapping[str, Any]) -> _Segment:
    (ax, ay), (bx, by) = pane["segment"]
    return (ax, ay), (bx, by)


@lru_cache(_KEPT_PANES)
def _mark_course(status: str, segment: _Segment, inside: Spot | None, aside: float, size: float) -> str:
    line = Course.of(segment)
    side = -1.0 if inside is not None and line.aside(inside) > 0 else 1.0
    return mark_path(status, _PLAN.spot(line.at(line.length / 2, side * aside)), size)


@lru_cache(_KEPT_PANES)
def _covered_text(pane: str, why: str, segment: _Segment) -> str:
    return _COVERED.filled(course=_PLAN.line(segment), pane=pane, why=why)


@lru_cache(_KEPT_PANES)
def _missed_text(pane: str, status: str, why: str, segment: _Segment, stretches: _Stretches, half: float) -> str:
    """A pane that is not covered in full: what of it is covered, and a hatched bar over each stretch that is not."""
    line = Course.of(segment)
    group = _titled(SVG.g(class_=status), pane, status, why)
    kept = "".join(_PLAN.line((line.at(low), line.at(high))) for low, high in covered_spans(stretches, line.length))
    if kept:
        group.add(SVG.path(d=kept, stroke=COVERED, stroke_width=4, vector_effect="non-scaling-stroke"))
    bars = _PLAN.rings(line.bar(span, half, least=half / 2) for span in stretches)
    bar = SVG.path(d=bars, fill="url(#overlay-missed)", stroke=MISSED, stroke_width=2.5, stroke_dasharray="6 2.5")
    bar.attribs.update({"vector-effect": "non-scaling-stroke", "class": "stretch"})
    group.add(bar)
    return as_text(group)


def _titled(part: Any, pane: str, status: str, why: str) -> Any:
    part["data-pane"] = pane
    part.set_desc(title=f"{pane}: {STATUS_WORDS[status]}. {why}")
    return part


def _mark(status: str) -> Stencil:
    mark = SVG.path(d="{course}", class_=f"mark {status}", stroke=COVERED if status == "covered" else MISSED)
    mark.attribs.update({"stroke-width": 2.25, "vector-effect": "non-scaling-stroke", "data-mark": "{pane}"})
    return Stencil(mark)


_MARKS = {status: _mark(status) for status in STATUS_WORDS}
_COVERED = Stencil(
    _titled(
        SVG.path(d="{course}", class_="covered", stroke=COVERED, stroke_width=4, vector_effect="non-scaling-stroke"),
        "{pane}",
        "covered",
        "{why}",
    )
)
