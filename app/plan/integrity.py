"""What the parts of a plan say of each other: ids met once, references that lead somewhere, openings on their walls.

Works on a plan whose parts already have the right shape, and returns every fault at once.
"""

from __future__ import annotations

from collections.abc import Iterator

from shapely import Polygon
from shapely.validation import explain_validity

from app.plan.faults import Fault
from app.plan.measures import length_text
from app.plan.model import SHORTEST_WALL, Fixture, Level, Opening, Plan
from app.plan.practice import practice_faults

MOST_THINGS = 50_000
ON_WALL = 1e-3  # ft: what a file written to three decimals may be off by
ROUNDING = 1e-9  # ft: 3.01 − 3 is a hair less than 0.01


def integrity_faults(plan: Plan) -> list[Fault]:
    """Every fault that takes more than one part of the plan to see."""
    count = plan.count_of_things()
    if count > MOST_THINGS:
        return [Fault("levels", f"{count:,} things; a plan holds at most {MOST_THINGS:,}: split it in several plans")]
    faults = list(_ids(plan))
    openings = {opening.id for level in plan.levels for opening in level.openings}
    for index, level in enumerate(plan.levels):
        at = f"levels[{index}]"
        faults += _walls(level, at)
        faults += _openings(level, at, plan.units)
        faults += _obstructions(level, at)
        for position, device in enumerate(level.devices):
            faults += [
                Fault(
                    f"{at}.devices[{position}].serves[{place}]", f"there is no opening {served}; name one of the plan's"
                )
                for place, served in enumerate(device.serves)
                if served not in openings
            ]
    faults += _risers(plan)
    faults += practice_faults(plan.practice)
    return faults


def _ids(plan: Plan) -> Iterator[Fault]:
    seen: dict[str, str] = {}
    for at, thing_id in _all_ids(plan):
        if thing_id in seen:
            yield Fault(f"{at}.id", f"the id {thing_id} stands already at {seen[thing_id]}; give each thing its own")
        else:
            seen[thing_id] = at


def _all_ids(plan: Plan) -> Iterator[tuple[str, str]]:
    for index, level in enumerate(plan.levels):
        yield f"levels[{index}]", level.id
        for place, thing in level.things():
            yield f"levels[{index}].{place}", thing.id
    for index, riser in enumerate(plan.risers):
        yield f"risers[{index}]", riser.id


def _walls(level: Level, at: str) -> Iterator[Fault]:
    for index, wall in enumerate(level.walls):
        if wall.length < SHORTEST_WALL - ROUNDING:
            yield Fault(
                f"{at}.walls[{index}].b",
                f"the wall is {wall.length:.4f} ft long; one is at least {SHORTEST_WALL} ft: move b or take it out",
            )


def _openings(level: Level, at: str, units: str) -> Iterator[Fault]:
    on_wall: dict[str, list[tuple[int, Opening]]] = {}
    for index, opening in enumerate(level.openings):
        place = f"{at}.openings[{index}]"
        wall = level.wall_by_id.get(opening.wall)
        if wall is None:
            yield Fault(f"{place}.wall", f"there is no wall {opening.wall} on this level; name one of its walls")
            continue
        if opening.end > wall.length + ON_WALL:
            reach, length = length_text(opening.end, units), length_text(wall.length, units)
            yield Fault(
                f"{place}.offset",
                f"{opening.id} runs to {reach} along wall {wall.id}, which is {length} long; lower offset or width",
            )
        if opening.head <= opening.sill:
            yield Fault(f"{place}.head", f"head {opening.head:g} must be above sill {opening.sill:g}")
        on_wall.setdefault(wall.id, []).append((index, opening))
    for together in on_wall.values():
        together.sort(key=lambda entry: entry[1].offset)
        yield from _overlaps(together, at)


def _overlaps(together: list[tuple[int, Opening]], at: str) -> Iterator[Fault]:
    """Openings of one wall, sorted by offset, that share a part of its face (a transom above a door shares none)."""
    standing: list[tuple[int, Opening]] = []
    for index, opening in together:
        standing = [entry for entry in standing if entry[1].end > opening.offset + ON_WALL]
        for _, other in standing:
            if min(opening.head, other.head) > max(opening.sill, other.sill):
                yield Fault(
                    f"{at}.openings[{index}].offset",
                    f"{opening.id} overlaps {other.id} in wall {opening.wall}; move one of them or make it narrower",
                )
                break
        standing.append((index, opening))


def _obstructions(level: Level, at: str) -> Iterator[Fault]:
    for index, fixture in enumerate(level.fixtures):
        if fixture.polygon is not None and (message := _polygon_fault(fixture, level)) is not None:
            yield Fault(f"{at}.fixtures[{index}].{message[0]}", message[1])


def _polygon_fault(fixture: Fixture, level: Level) -> tuple[str, str] | None:
    assert fixture.polygon is not None
    outline = Polygon(fixture.polygon)
    if not outline.is_valid:
        return (
            "polygon",
            f"the outline is not a simple polygon ({explain_validity(outline)}); redraw it without crossings",
        )
    if outline.area < 1e-6:
        return "polygon", "the outline has no area; give at least three corners that do not lie on one line"
    if fixture.top is None and fixture.base >= level.ceiling:
        return "base", f"base {fixture.base:g} must be below the ceiling at {level.ceiling:g}, or give a top above it"
    return None


def _risers(plan: Plan) -> Iterator[Fault]:
    levels = {level.id for level in plan.levels}
    for index, riser in enumerate(plan.risers):
        for key, named in (("from", riser.from_level), ("to", riser.to_level)):
            if named not in levels:
                yield Fault(
                    f"risers[{index}].{key}", f"there is no level {named}; name one of {', '.join(sorted(levels))}"
                )
        if riser.from_level == riser.to_level:
            yield Fault(f"risers[{index}].to", "a riser links two different levels; name another level")
