"""Where a device goes, as a crew measures it: in a room from the faces of its walls, in an opening from a jamb.

Distances run along the building's main axes, level, to the room's walls as drawn; site dimensions decide.
"""

from __future__ import annotations

import math

import shapely

from app.drawing.sheets.crew.facing import compass_word
from app.drawing.sheets.order import Order
from app.plan.model import Device, Opening
from app.review.house import Storey
from app.wiring.routes.axes import main_axes

_ON_WALL = 0.25  # ft: nearer than this a device is on the wall
_FAR = 100_000.0  # ft: beyond any wall


def set_out(order: Order, storey: Storey, device: Device) -> str:
    """Where it goes, in words; a dash where no closed room tells it."""
    if device.serves:
        return _in_openings(order, device)
    room = storey.room_of_device[device.id]
    face = -1 if room is None else storey.scene.face_of_room[room.id]
    if face < 0 or storey.scene.faces.floors[face].is_empty:
        return "—"
    floor = storey.scene.faces.floors[face]
    _, spot = shapely.shortest_line(shapely.Point(device.at), floor).coords
    near = [_nearer(spot, angle, floor) for angle in _angles(order)]
    found = [pair for pair in near if pair is not None]
    on = [f"on the {side} wall" for feet, side in found if feet < _ON_WALL]
    away = [f"{order.length(feet)} from the {side} wall" for feet, side in found if feet >= _ON_WALL]
    if len(on) == 2:
        return "in the corner of the {} and {} walls".format(*(side for _, side in found))
    return ", ".join(on + away) or "—"


def _angles(order: Order) -> tuple[float, float]:
    along = math.degrees(math.atan2(*reversed(main_axes(order.house.plan).trunk)))
    return along, along + 90


def _nearer(spot: tuple[float, float], angle: float, floor: shapely.Geometry) -> tuple[float, str] | None:
    """Feet to the nearer of the two walls along an axis, and its side of the compass."""
    found = []
    for turn in (angle, angle + 180):
        dx, dy = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        ray = shapely.LineString([spot, (spot[0] + _FAR * dx, spot[1] + _FAR * dy)])
        # A spot on a wall's face meets that face at once, and no ray's rounding may tell otherwise.
        ends = shapely.get_coordinates(shapely.intersection(ray, floor.boundary))
        away = [float((x - spot[0]) * dx + (y - spot[1]) * dy) for x, y in ends]
        outside = not floor.buffer(1e-6).contains(shapely.Point(spot[0] + 0.05 * dx, spot[1] + 0.05 * dy))
        if outside:
            found.append((0.0, compass_word(turn)))
        elif ahead := [feet for feet in away if feet > 1e-6]:
            found.append((min(ahead), compass_word(turn)))
    return min(found, default=None)


def _in_openings(order: Order, device: Device) -> str:
    """The openings that a contact serves, and how far along the only one from its nearer jamb."""
    names = ", ".join(device.serves)
    if len(device.serves) > 1:
        return f"in {names}"
    storey = next(storey for storey in order.house if device.serves[0] in storey.opening_by_id)
    opening = storey.opening_by_id[device.serves[0]]
    wall = storey.level.wall_by_id[opening.wall]
    (ax, ay), (bx, by) = wall.a, wall.b
    along = ((device.at[0] - ax) * (bx - ax) + (device.at[1] - ay) * (by - ay)) / wall.length - opening.offset
    along = min(max(along, 0.0), opening.width)
    jamb = "a" if along <= opening.width / 2 else "b"
    feet = along if jamb == "a" else opening.width - along
    return f"{names}, {order.length(feet)} from its {_jamb(opening, jamb, (bx - ax, by - ay))}"


def _jamb(opening: Opening, jamb: str, along: tuple[float, float]) -> str:
    if opening.hinge is not None and opening.leaf == "swing":
        return "hinge side" if opening.hinge == jamb else "latch side"
    turn = math.degrees(math.atan2(along[1], along[0])) + (180 if jamb == "a" else 0)
    return f"{compass_word(turn)} jamb"
