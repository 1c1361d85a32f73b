"""Two plans compared thing by thing: every change, numbered in the order in which a drawing is read.

Pure and quick: no scene is compiled and nothing is proved here; ``effects`` tells what the changes do.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from shapely.geometry.base import BaseGeometry

from app.plan.devices import DEVICE_KIND
from app.plan.model import Device, Fixture, Level, Opening, Plan, Room, Wall
from app.review.comparison.changes import Change, Move
from app.review.comparison.fields import Setting, field_changes, same_value
from app.review.comparison.job_words import job_changes
from app.review.comparison.numbering import numbered
from app.review.comparison.pairing import Pairs, Placed, pair
from app.review.comparison.references import reference_changes
from app.review.comparison.shapes import moves_between, opening_moves, shape_of


def compare_plans(old: Plan, new: Plan) -> tuple[Change, ...]:
    """Every change from an old plan to a new one; none where they say the same."""
    pairs = pair(old, new)
    riders = _riders(pairs)
    found = [*_levels(pairs, old, new), *_things(pairs, riders, old, new), *job_changes(old, new)]
    return numbered(found, [level.id for level in (*new.levels, *old.levels)])


def name_of(thing: Any) -> str:
    """What people call a thing in a list of changes."""
    match thing:
        case Wall():
            return f"{'wall' if thing.height is None else 'half wall'} {thing.id}"
        case Opening():
            return _with_word(thing.kind, thing.id)
        case Fixture():
            return thing.label or f"{thing.kind.replace('_', ' ')} {thing.id}"
        case Room():
            return thing.name or f"room {thing.id}"
        case Device():
            return thing.label or _with_word(DEVICE_KIND[thing.kind].abbreviation, thing.id)
        case Level():
            return f"level {thing.name}"
        case _:
            return f"riser {thing.id}"


def _with_word(word: str, name: str) -> str:
    return name if name.lower().startswith(word.lower()) else f"{word} {name}"


def _levels(pairs: Pairs, old: Plan, new: Plan) -> Iterator[Change]:
    for level in pairs.levels_old:
        yield Change("removed", "levels", level.id, level.id, name_of(level), None, level.id)
    for level in pairs.levels_new:
        yield Change("added", "levels", level.id, None, name_of(level), level.id)
    for before, after in pairs.levels:
        fields = tuple(field_changes("levels", before, after, (Setting(old, before), Setting(new, after))))
        if before.id != after.id:
            yield Change("renamed", "levels", after.id, before.id, name_of(after), after.id, before.id, fields)
        elif fields:
            yield Change("changed", "levels", after.id, before.id, name_of(after), after.id, before.id, fields)


def _things(pairs: Pairs, riders: Mapping[str, tuple[str, ...]], old: Plan, new: Plan) -> Iterator[Change]:
    for gone in pairs.old:
        shape, name = shape_of(gone.thing, gone.level), name_of(gone.thing)
        yield Change("removed", gone.family, gone.thing.id, gone.thing.id, name, None, _level_of(gone), was_shape=shape)
    for come in pairs.new:
        shape, name = shape_of(come.thing, come.level), name_of(come.thing)
        yield Change("added", come.family, come.thing.id, None, name, _level_of(come), shape=shape)
    riding = {opening for openings in riders.values() for opening in openings}
    for before, after in pairs.both:
        change = _between(pairs, before, after, riding, (old, new))
        if change.family == "walls":
            change = replace(change, carries=riders.get(change.id, ()))
        if change.what != "changed" or change.fields:
            yield change


def _between(pairs: Pairs, before: Placed, after: Placed, riding: set[str], plans: tuple[Plan, Plan]) -> Change:
    """One thing on both sides, "changed" with no fields where it stands as it did."""
    was, now = shape_of(before.thing, before.level), shape_of(after.thing, after.level)
    settings = (Setting(plans[0], before.level), Setting(plans[1], after.level))
    rides = after.family == "openings" and after.thing.id in riding
    change = Change(
        "changed",
        after.family,
        after.thing.id,
        before.thing.id,
        name_of(after.thing),
        _level_of(after),
        _level_of(before),
        (
            *field_changes(before.family, before.thing, after.thing, settings),
            *reference_changes(pairs, before, after, was, now, plans[1].units),
        ),
        () if rides else _moves(before.family, was, now),
        shape=now,
        was_shape=was,
    )
    if change.moves or (before.level and pairs.now("levels", before.level.id) != change.level):
        return replace(change, what="moved")
    return change if before.thing.id == after.thing.id else replace(change, what="renamed")


def _moves(family: str, was: BaseGeometry, now: BaseGeometry) -> tuple[Move, ...]:
    if was.geom_type != now.geom_type:
        return ()
    return opening_moves(was, now) if family == "openings" else moves_between(was, now)


def _riders(pairs: Pairs) -> dict[str, tuple[str, ...]]:
    """The openings that only went along with their wall, by the wall: their own seat in it is as it was."""
    moved = {
        after.thing.id
        for before, after in pairs.both
        if before.family == "walls" and _moves("walls", shape_of(before.thing, None), shape_of(after.thing, None))
    }
    riders: dict[str, list[str]] = defaultdict(list)
    for before, after in pairs.both:
        if before.family != "openings" or after.thing.wall not in moved:
            continue
        same_seat = same_value(before.thing.offset, after.thing.offset)
        went = _moves("openings", shape_of(before.thing, before.level), shape_of(after.thing, after.level))
        if went and same_seat and pairs.now("walls", before.thing.wall) == after.thing.wall:
            riders[after.thing.wall].append(after.thing.id)
    return {wall: tuple(sorted(openings)) for wall, openings in riders.items()}


def _level_of(placed: Placed) -> str:
    """The level that shows a thing: a riser is shown on the one that it leads from."""
    return placed.level.id if placed.level else placed.thing.from_level
