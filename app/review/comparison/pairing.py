"""Which thing of the new plan is which of the old: by id, whatever the order of the file.

A thing that is left over on both sides is taken for renamed where its kind and place point to one other and no more.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from app.plan.model import Level, Plan
from app.review.comparison.shapes import place_key, shape_of

FAMILIES = ("walls", "openings", "fixtures", "rooms", "devices")

Key = tuple[str, str]
_K = TypeVar("_K", bound=Hashable)
_T = TypeVar("_T")


@dataclass(frozen=True)
class Placed:
    """A thing of a plan with its family and its level (None for a riser)."""

    family: str
    thing: Any
    level: Level | None

    @property
    def key(self) -> Key:
        """Family and id: an id that passed to a thing of another family is another thing."""
        return (self.family, self.thing.id)


@dataclass(frozen=True)
class Pairs:
    """``both`` pairs old with new; ``old`` and ``new`` are left over. ``renamed`` gives new ids by old, by family."""

    both: tuple[tuple[Placed, Placed], ...]
    old: tuple[Placed, ...]
    new: tuple[Placed, ...]
    levels: tuple[tuple[Level, Level], ...]
    levels_old: tuple[Level, ...]
    levels_new: tuple[Level, ...]
    renamed: Mapping[Key, str]

    def now(self, family: str, old_id: str) -> str:
        """What a thing of the old plan is called in the new one."""
        return self.renamed.get((family, old_id), old_id)


def pair(old: Plan, new: Plan) -> Pairs:
    """Pair the levels and the things of two plans."""
    level_pairs, levels_old, levels_new = _paired(
        {level.id: level for level in old.levels},
        {level.id: level for level in new.levels},
        lambda level: (round(level.elevation, 4), round(level.ceiling, 4), level.name),
        lambda level: (round(level.elevation, 4), round(level.ceiling, 4), level.name),
    )
    level_now = {before.id: after.id for before, after in level_pairs}
    both, gone, come = _paired(
        _things(old),
        _things(new),
        lambda placed: _signature(placed, level_now),
        lambda placed: _signature(placed, {}),
    )
    renamed = {before.key: after.thing.id for before, after in both if before.key != after.key}
    renamed |= {("levels", before.id): after.id for before, after in level_pairs if before.id != after.id}
    return Pairs(
        tuple(both), tuple(gone), tuple(come), tuple(level_pairs), tuple(levels_old), tuple(levels_new), renamed
    )


def _things(plan: Plan) -> dict[Hashable, Placed]:
    placed = [
        Placed(family, thing, level) for level in plan.levels for family in FAMILIES for thing in getattr(level, family)
    ]
    placed += [Placed("risers", riser, None) for riser in plan.risers]
    return {one.key: one for one in placed}


def _signature(placed: Placed, level_now: Mapping[str, str]) -> Hashable:
    """Kind and place of a thing, by which it is known under another id."""
    thing = placed.thing
    if placed.level is None:
        ends = tuple(level_now.get(level, level) for level in (thing.from_level, thing.to_level))
        return ("risers", ends, place_key(shape_of(thing, None)))
    level = level_now.get(placed.level.id, placed.level.id)
    kind = getattr(thing, "kind", "") if placed.family != "rooms" else thing.use
    return (placed.family, kind, level, place_key(shape_of(thing, placed.level)))


def _paired(
    old: Mapping[_K, _T], new: Mapping[_K, _T], old_sign: Any, new_sign: Any
) -> tuple[list[tuple[_T, _T]], list[_T], list[_T]]:
    """Pairs by key, then, of what is left over, by a sign that one on each side bears; and what is left over still."""
    both = [(thing, new[key]) for key, thing in old.items() if key in new]
    gone = _by_sign((thing for key, thing in old.items() if key not in new), old_sign)
    come = _by_sign((thing for key, thing in new.items() if key not in old), new_sign)
    renamed = [sign for sign, things in gone.items() if len(things) == 1 and len(come.get(sign, ())) == 1]
    both += [(gone.pop(sign)[0], come.pop(sign)[0]) for sign in renamed]
    return (
        both,
        [thing for things in gone.values() for thing in things],
        [thing for things in come.values() for thing in things],
    )


def _by_sign(things: Iterable[_T], sign: Any) -> dict[Hashable, list[_T]]:
    found: dict[Hashable, list[_T]] = defaultdict(list)
    for thing in things:
        found[sign(thing)].append(thing)
    return found
