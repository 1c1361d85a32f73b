"""Risers where levels are not linked to the can yet: at interior walls that stand over each other, near the can."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from app.plan.model import Plan, Riser
from app.proposal.proposals import Numbering
from app.proposal.wall_sides import WallSides
from app.review.house import House, Storey

_STACKED = 0.25  # ft between the centrelines of walls that stand over each other
_STEP = 1.0  # ft between the spots that are tried along a wall


@dataclass(frozen=True)
class RiserProposal:
    """A riser, and why it is proposed."""

    riser: Riser
    reason: str


def propose_risers(plan: Plan, house: House, numbering: Numbering) -> list[RiserProposal]:
    """Risers from level to level, up and down from the can, where none links them and devices need them."""
    cans = [(level, device.at) for level in plan.levels for device in level.devices if device.kind == "can"]
    if not cans or plan.practice_in_force.text("cable.way") != "overhead":
        return []
    linked = _linked_to({level.id for level, _ in cans}, plan)
    order = sorted(plan.levels, key=lambda level: level.elevation)
    home, near = order.index(cans[0][0]), cans[0][1]
    found: list[RiserProposal] = []
    for way in (range(home + 1, len(order)), range(home - 1, -1, -1)):
        behind, spot = order[home], near
        for index in way:
            level = order[index]
            if level.id in linked:
                behind, spot = level, near
            elif level.devices:
                at, words = _place(house.storeys[behind.id], house.storeys[level.id], spot)
                riser = Riser.model_validate(
                    {"id": numbering.next("riser"), "at": at, "from": behind.id, "to": level.id}
                )
                reason = f"No riser links {level.name} to the can: {words}; check that the way is clear."
                found.append(RiserProposal(riser, reason))
                behind, spot = level, at
    return found


def _linked_to(levels: set[str], plan: Plan) -> set[str]:
    """The levels that risers link, in any number of steps, to some levels."""
    linked = set(levels)
    for _ in plan.levels:
        for riser in plan.risers:
            if linked & {riser.from_level, riser.to_level}:
                linked |= {riser.from_level, riser.to_level}
    return linked


def _place(lower: Storey, upper: Storey, near: tuple[float, float]) -> tuple[tuple[float, float], str]:
    """The spot nearest to another where interior walls of both levels stand over each other, else the spot itself."""
    other = _interior_lines(upper)
    spots = [
        spot
        for start, end in _interior_lines(lower)
        for spot in _along(start, end)
        if any(_off(spot, *line) <= _STACKED for line in other)
    ]
    if not spots:
        return near, "no interior walls stand over each other, so it is put at the can"
    spot = min(spots, key=lambda one: (round(math.dist(one, near), 6), one))
    return (round(spot[0], 4), round(spot[1], 4)), "interior walls of both stand over each other here"


def _interior_lines(storey: Storey) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """The centrelines of the clear stretches of wall between two rooms of a level."""
    sides = WallSides(storey.scene)
    return [
        (stretch.wall.along(stretch.start), stretch.wall.along(stretch.end))
        for face in range(len(storey.scene.faces))
        for stretch in sides.stretches(face, storey.level.ceiling, 0.25)
        if stretch.beyond > face
    ]


def _along(start: tuple[float, float], end: tuple[float, float]) -> list[tuple[float, float]]:
    steps = max(1, math.ceil(math.dist(start, end) / _STEP))
    return [
        (start[0] + (end[0] - start[0]) * step / steps, start[1] + (end[1] - start[1]) * step / steps)
        for step in range(steps + 1)
    ]


def _off(spot: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    """Distance from a spot to a line between two others."""
    along = np.subtract(end, start)
    square = float(along @ along)
    share = 0.0 if square == 0 else float(np.clip(np.subtract(spot, start) @ along / square, 0, 1))
    return math.dist(spot, (start[0] + share * along[0], start[1] + share * along[1]))
