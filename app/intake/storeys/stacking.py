"""Storeys laid on each other and given their heights; how each is moved is told, so that it can be checked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.intake.choices import Choices
from app.intake.house import lowest_corner
from app.intake.refused import DrawingRefused
from app.intake.storeys.aligning import Lie, lie_by_walls, lines_of, main_turn
from app.intake.strokes import Sheet, Spot, Stroke
from app.intake.tracing.floor import Floor
from app.intake.wording import way_told
from app.plan.measures import length_text

FLOOR_DEPTH = 1.0
"""ft from a ceiling to the floor above, where no floor-to-floor height is given; common practice, no source."""

_STAIR = ("stair", "treppe", "escal", "trap")
_MOST_STAIRS = 400


@dataclass(frozen=True)
class Traced:
    """A level to be: its name, its drawings' numbers, its part of the sheet in feet, the floor traced of it."""

    name: str
    drawings: tuple[int, ...]
    rank: float | None
    sheet: Sheet
    floor: Floor


def stairs_on(sheet: Sheet) -> list[Stroke]:
    """The strokes of the layers that are named for stairs."""
    on = [one for one in sheet.strokes if any(word in one.layer.lower() for word in _STAIR)]
    return on[:_MOST_STAIRS]


def lies_of(levels: Sequence[Traced], points: Mapping[int, Spot]) -> list[Lie]:
    """How each level but the lowest lies on the one below it; ``points`` in feet on the sheet, by drawing."""
    turn = main_turn(levels[0].floor)
    lines = [lines_of(one.floor, stairs_on(one.sheet), turn) for one in levels]
    lies = []
    for below, above in zip(range(len(levels)), range(1, len(levels)), strict=False):
        given = [_point(levels[which], points) for which in (below, above)]
        if (given[0] is None) != (given[1] is None) and len(levels) == 2:
            bare = levels[below if given[0] is None else above]
            raise DrawingRefused(f"give the same point in drawing {bare.drawings[0]} ({bare.name}) too")
        if given[0] is not None and given[1] is not None:
            lies.append(Lie((given[0][0] - given[1][0], given[0][1] - given[1][1]), "point"))
            continue
        first, second = lowest_corner(levels[below].floor), lowest_corner(levels[above].floor)
        corners = Lie((first[0] - second[0], first[1] - second[1]), "corner", 0.0, lines[above].length)
        lies.append(lie_by_walls(lines[below], lines[above], turn) or corners)
    return lies


def _point(level: Traced, points: Mapping[int, Spot]) -> Spot | None:
    return next((points[number] for number in level.drawings if number in points), None)


def moves_of(lies: Sequence[Lie]) -> list[Spot]:
    """How far each level is moved from where it is drawn, so that all lie on the lowest."""
    moves: list[Spot] = [(0.0, 0.0)]
    for lie in lies:
        moves.append((moves[-1][0] + lie.shift[0], moves[-1][1] + lie.shift[1]))
    return moves


def elevations_of(levels: Sequence[Traced], choices: Choices) -> list[float]:
    """The finished floor of each level; the lowest that is no basement is at nought."""
    told = choices.floor_to_floor or (choices.ceiling + FLOOR_DEPTH,)
    heights = [0.0]
    for step in range(len(levels) - 1):
        heights.append(heights[-1] + told[min(step, len(told) - 1)])
    base = next((index for index, one in enumerate(levels) if one.rank is None or one.rank >= 0), 0)
    return [round(height - heights[base], 4) for height in heights]


def lie_told(level: Traced, below: Traced, lie: Lie, units: str) -> list[str]:
    """What a designer must know of how a level lies, to check it."""
    move = way_told(*lie.shift, units)
    moved = f"moved {move} on the sheet" if move else "left where it is drawn"
    words = f"{level.name} is {moved} to lie on {below.name}"
    if lie.by == "point":
        return [f"{words}: by the point given in both drawings."]
    if lie.by == "corner":
        return [f"{words}: too few walls stand over each other, so their south-west corners do. Give a point of both."]
    share = round(100 * min(lie.matched / lie.whole, 1.0))
    notes = [f"{words}: {share} % of the smaller storey's walls and stairs then lie on the other's."]
    if lie.rival is not None:
        other = way_told(lie.rival[0] - lie.shift[0], lie.rival[1] - lie.shift[1], units)
        notes.append(
            f"{level.name} would fit nearly as well {other} of there: compare the stairs, or give a point of both."
        )
    return notes


def heights_told(levels: Sequence[Traced], elevations: Sequence[float], choices: Choices, units: str) -> str:
    """The floors' heights in a sentence, and where they come from."""
    told = ", ".join(
        f"{one.name} {'-' if height < 0 else ''}{length_text(abs(height), units)}"
        for one, height in zip(levels, elevations, strict=True)
    )
    source = "as given" if choices.floor_to_floor else "the ceiling and 12 in of floor, as a plan tells no heights"
    return f"Finished floors: {told} ({source})."
