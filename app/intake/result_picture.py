"""A picture of a plan that was read: walls solid, windows as two lines, doors with their leaf, rooms with their names.

Each kind of opening has its own strokes, so that a grey print says the same.
"""

from __future__ import annotations

from html import escape

from app.geometry.bodies import wall_corners
from app.plan.model import Level, Opening, Plan

_MOST = 4000
_LETTERS = 42  # letters of a name are so small beside the longest wall
_BETWEEN = 6  # ft
_DOOR, _WINDOW, _CASED = "#D55E00", "#0072B2", "#000000"


def result_picture(plan: Plan) -> str:
    """The levels side by side as SVG text in feet, the lowest at the left, each over a ghost of the one below."""
    parts: list[str] = []
    right, top, bottom = 0.0, 0.0, 0.0
    below: Level | None = None
    letters = _letters(plan)
    for level in sorted(plan.levels, key=lambda one: one.elevation):
        if not level.walls:
            continue
        drawn = [*level.walls, *(below.walls if below is not None else ())]
        xs = [x for wall in drawn for x, _ in (wall.a, wall.b)]
        ys = [y for wall in drawn for _, y in (wall.a, wall.b)]
        shift = right - min(xs)
        ghost = "" if below is None else f'<path class="below" d="{_walls(below)}" fill="#b9d3e6"/>'
        title = "" if len(plan.levels) == 1 else _title(level.name, min(xs), -max(ys) - 1.2, letters)
        parts.append(f'<g transform="translate({shift:.3f} 0)">{ghost}{_level(level, letters)}{title}</g>')
        right += max(xs) - min(xs) + _BETWEEN
        below = level
        top, bottom = max(top, max(ys)), min(bottom, min(ys))
    above = 2 if len(plan.levels) == 1 else 2 + 3 * letters
    box = f"-2 {-top - above:.2f} {right - 2:.2f} {top - bottom + above + 2:.2f}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img" '
        f'aria-label="The plan that was read">{"".join(parts)}</svg>'
    )


def _walls(level: Level) -> str:
    return "".join(
        "M" + "L".join(f"{x:.3f} {-y:.3f}" for x, y in wall_corners(wall)) + "Z" for wall in level.walls[:_MOST]
    )


def _letters(plan: Plan) -> float:
    """The height of names: as large beside the whole picture for several levels as for one."""
    longest = max((wall.length for level in plan.levels for wall in level.walls), default=0.0)
    return max(0.9, longest / _LETTERS) * (1.0 if len(plan.levels) == 1 else 1.5)


def _title(name: str, x: float, y: float, letters: float) -> str:
    return f'<text x="{x:.2f}" y="{y:.2f}" font-size="{1.4 * letters:.2f}" font-weight="600">{escape(name)}</text>'


def _level(level: Level, letters: float) -> str:
    walls = _walls(level)
    openings = "".join(_opening(level, opening) for opening in level.openings[:_MOST])
    names = "".join(
        f'<text x="{room.at[0]:.2f}" y="{-room.at[1]:.2f}" font-size="{letters:.2f}" text-anchor="middle">'
        f"{escape(room.name)}</text>"
        for room in level.rooms[:_MOST]
    )
    return f'<path class="walls" d="{walls}" fill="#000"/>{openings}<g class="names" fill="#1a1a1a">{names}</g>'


def _opening(level: Level, opening: Opening) -> str:
    wall = level.wall_by_id[opening.wall]
    ux, uy = (wall.b[0] - wall.a[0]) / wall.length, (wall.b[1] - wall.a[1]) / wall.length
    half = wall.thickness / 2

    def at(u: float, v: float) -> str:
        x, y = wall.along(u)
        return f"{x - v * uy:.3f} {-(y + v * ux):.3f}"

    start, end = opening.offset, opening.end
    corners = (at(start, -half - 0.02), at(end, -half - 0.02), at(end, half + 0.02), at(start, half + 0.02))
    cleared = f'<path d="M{"L".join(corners)}Z" fill="#fff"/>'
    if opening.kind == "window":
        lines = "".join(f"M{at(start, v)}L{at(end, v)}" for v in (-half, 0.0, half))
        return f'{cleared}<path d="{lines}" stroke="{_WINDOW}" stroke-width="0.14" fill="none"/>'
    if opening.kind == "cased":
        lines = f"M{at(start, 0)}L{at(end, 0)}"
        return (
            f'{cleared}<path d="{lines}" stroke="{_CASED}" stroke-width="0.1" stroke-dasharray="0.4 0.3" fill="none"/>'
        )
    if opening.leaf == "swing":
        hinge, latch = (end, start) if opening.hinge == "b" else (start, end)
        turn = 1 if opening.hinge == "b" else 0
        width = f"{opening.width:.3f}"
        lines = f"M{at(hinge, 0)}L{at(hinge, opening.width)}A{width} {width} 0 0 {1 - turn} {at(latch, 0)}"
    elif opening.leaf == "slide":
        third = opening.width / 3
        lines = f"M{at(start, -0.12)}L{at(end - third, -0.12)}M{at(start + third, 0.12)}L{at(end, 0.12)}"
    else:
        lines = f"M{at(start, 0)}L{at(end, 0)}M{at(start, half)}L{at(end, half)}"
    return f'{cleared}<path d="{lines}" stroke="{_DOOR}" stroke-width="0.12" fill="none"/>'
