"""A place for the can, where the plan has none: an interior wall of a closet, utility or laundry room."""

from __future__ import annotations

from app.plan.model import Device
from app.plan.room_uses import FOR_THE_CAN, KITCHEN_OR_BATH, UNCONDITIONED, use_of
from app.proposal.proposals import Numbering, Proposal, below_ceiling
from app.proposal.wall_sides import Stretch, WallSides
from app.review.house import House, Storey

_LIKED = ("utility", "utility_room", "mechanical", "closet", "storage", "laundry", "walk_in_closet", "pantry")
_LEAST_WALL = 0.6  # ft to either side of the can's middle: a can fits the 14 1/2 in between studs
_BESIDES = ("hall", "hallway", "corridor", "mudroom", "mud_room", "office")

Rank = tuple[bool, bool, bool, int, int, float]


def propose_can(house: House, numbering: Numbering) -> list[Proposal]:
    """One can, unless the plan has one or has no closed room to put it in."""
    if any(storey.devices("can") for storey in house):
        return []
    choices = [choice for storey in house for choice in _choices(house, storey)]
    if not choices:
        return []
    rank, storey, stretch, room = min(choices, key=lambda choice: choice[0])
    device = Device(
        id=numbering.next("can"),
        kind="can",
        at=stretch.spot((stretch.start + stretch.end) / 2),
        facing=stretch.facing,
        height=below_ceiling(storey, house.practice.number("can.height")),
    )
    place = storey.name(room) if room else "the house"
    kind = "an exterior wall, for want of an interior one" if rank[1] else "an interior wall"
    return [Proposal(storey.level.id, device, f"Every home run needs a can to end in: {place}, on {kind}.")]


def _choices(house: House, storey: Storey) -> list[tuple[Rank, Storey, Stretch, str | None]]:
    """Every clear stretch of wall of a level with its rank.

    Conditioned rooms come first, then interior walls, rooms fit for a can, levels with many openings (most of the
    cable), the kind of room, and length.
    """
    scene = storey.scene
    uses = {room.id: use_of(room) for room in storey.level.rooms}
    height = house.practice.number("can.height") + 1
    choices = []
    sides = WallSides(scene)
    for face in range(len(scene.faces)):
        room = scene.room_of_face.get(face)
        use = uses[room] if room else ""
        like, outside = _like(use), use in UNCONDITIONED
        for stretch in sides.stretches(face, height, _LEAST_WALL):
            beyond = scene.room_of_face.get(stretch.beyond)
            cold = stretch.beyond < 0 or (beyond is not None and uses[beyond] in UNCONDITIONED)
            unfit = like > len(_LIKED)
            rank = (outside, cold, unfit, -len(storey.exterior), like, -round(stretch.length, 6))
            choices.append((rank, storey, stretch, room))
    return choices


def _like(use: str) -> int:
    """How much a room of some use suits the can; lower is better."""
    if use in _LIKED:
        return _LIKED.index(use)
    if use in FOR_THE_CAN:
        return len(_LIKED)
    if use in _BESIDES:
        return len(_LIKED) + 1
    if use in UNCONDITIONED:
        return len(_LIKED) + 5
    return len(_LIKED) + (4 if use in KITCHEN_OR_BATH else 2 if use else 3)
