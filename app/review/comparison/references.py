"""Fields of a thing that speak of other things or of its own shape: lengths, outlines, hinges, what a contact guards.

Ids are read through the renaming, so that a thing renamed changes nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from app.plan.measures import area_text, length_text
from app.plan.model import Device, Opening, Riser
from app.review.comparison.changes import FieldChange
from app.review.comparison.pairing import Pairs, Placed
from app.review.comparison.shapes import SAME, is_reversed, same_outline

_OTHER_END = {"a": "b", "b": "a"}


def reference_changes(
    pairs: Pairs, before: Placed, after: Placed, was: BaseGeometry, now: BaseGeometry, units: str
) -> Iterator[FieldChange]:
    """The fields of this sort that differ; ``was`` and ``now`` are the thing's shapes."""
    match before.family:
        case "walls" if abs(was.length - now.length) > SAME:
            yield FieldChange("length", "length", length_text(was.length, units), length_text(now.length, units))
        case "fixtures":
            yield from _outline(was, now, units)
        case "openings":
            yield from _seat(pairs, before.thing, after.thing, is_reversed(was, now))
        case "devices":
            yield from _guarded(pairs, before.thing, after.thing)
        case "risers":
            yield from _ends(pairs, before.thing, after.thing)


def _outline(was: BaseGeometry, now: BaseGeometry, units: str) -> Iterator[FieldChange]:
    if isinstance(was, shapely.Polygon) and isinstance(now, shapely.Polygon) and not same_outline(was, now):
        yield FieldChange("polygon", "outline", area_text(was.area, units), area_text(now.area, units))


def _seat(pairs: Pairs, old: Opening, new: Opening, turned: bool) -> Iterator[FieldChange]:
    if pairs.now("walls", old.wall) != new.wall:
        yield FieldChange("wall", "in wall", old.wall, new.wall)
    hinge = _OTHER_END.get(old.hinge or "") if turned else old.hinge
    if hinge != new.hinge:
        ends = [f"at the wall's {end}" if end else "not said" for end in (old.hinge, new.hinge)]
        yield FieldChange("hinge", "hinges", ends[0], ends[1])


def _guarded(pairs: Pairs, old: Device, new: Device) -> Iterator[FieldChange]:
    if {pairs.now("openings", opening) for opening in old.serves} != set(new.serves):
        yield FieldChange("serves", "guards", _listed(old.serves), _listed(new.serves))


def _ends(pairs: Pairs, old: Riser, new: Riser) -> Iterator[FieldChange]:
    for words, before, after in (("from", old.from_level, new.from_level), ("to", old.to_level, new.to_level)):
        if pairs.now("levels", before) != after:
            yield FieldChange(words, words, before, after)


def _listed(ids: Iterable[str]) -> str:
    return ", ".join(sorted(ids)) or "nothing"
