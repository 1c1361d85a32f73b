"""A sheet read into levels: its drawings found, those chosen traced, laid on each other and made levels of a plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from app.intake.choices import Choices
from app.intake.house import level_from, lowest_corner
from app.intake.refused import DrawingRefused
from app.intake.report import Unread
from app.intake.roles import Role
from app.intake.storeys.aligning import Lie
from app.intake.storeys.found import Found, drawings_on, proposed
from app.intake.storeys.levels import LevelOf
from app.intake.storeys.parting import left_out, parted
from app.intake.storeys.stacking import Traced, elevations_of, heights_told, lie_told, lies_of, moves_of
from app.intake.strokes import Sheet, Spot
from app.intake.tracing.floor import Floor, trace
from app.intake.wording import told

_LONGEST_NAME = 120
_LEAST_STOREY = 12.0  # ft
_SHOWS = ("walls", "centrelines", "doors", "windows")


@dataclass
class SheetOfDrawings:
    """A sheet in feet with the drawings on it and the levels that are proposed.

    Drawings are found by what is chosen for walls, doors and windows; ``drawn`` are the indices of these strokes.
    """

    sheet: Sheet
    roles: Mapping[str, Role]
    drawn: list[int] = field(init=False)
    drawings: list[Found] = field(init=False)

    def __post_init__(self) -> None:
        """Find the drawings."""
        roles, strokes = self.roles, self.sheet.strokes
        self.drawn = [index for index, one in enumerate(strokes) if roles.get(one.layer) in _SHOWS]
        curves = [chord for arc in self.sheet.arcs if roles.get(arc.layer) in _SHOWS for chord in arc.chords(30)]
        self.drawings = drawings_on([*(strokes[index] for index in self.drawn), *curves], self.sheet.words)
        self.proposal = proposed(self.drawings)

    def chosen(self, asked: Sequence[LevelOf]) -> tuple[LevelOf, ...]:
        """The levels asked for, or as proposed; raises ``DrawingRefused`` where a drawing is not there."""
        known = {one.number for one in self.drawings}
        for level in asked:
            for number in level.drawings:
                if number not in known:
                    raise DrawingRefused(f"the sheet has no drawing {number}; it has {_numbers(known)}")
        every = tuple(sorted(known))
        levels = asked or tuple(LevelOf(numbers) for numbers in self.proposal.levels) or (LevelOf(()),)
        return tuple(replace(one, drawings=one.drawings or every) for one in levels)

    def lines(self, levels: Sequence[LevelOf], feet: float, origin: Spot) -> list[dict[str, Any]]:
        """The drawings for the survey and the account; boxes in the drawing's own unit, levels counted from 0."""
        level_of = {number: index for index, level in enumerate(levels) for number in level.drawings}
        return [
            {
                "number": one.number,
                "title": one.title.text if one.title is not None else "",
                "name": one.title.name if one.title is not None else "",
                "box": [round(value / feet + origin[axis % 2], 6) for axis, value in enumerate(one.box)],
                "size_ft": [round(side, 2) for side in one.size],
                "strokes": len(one.strokes),
                "level": level_of.get(one.number),
                "why": "" if one.number in level_of else self.proposal.why.get(one.number, "is chosen for no level"),
            }
            for one in self.drawings
        ]


@dataclass
class Storeys:
    """The levels as a plan file says them, what to look at, what was not read, and how each lies."""

    values: list[dict[str, Any]]
    floors: list[Floor]
    notes: list[str]
    unread: Unread
    levels: list[dict[str, Any]]
    used: list[LevelOf]


def read_storeys(
    on: SheetOfDrawings, levels: Sequence[LevelOf], points: Mapping[int, Spot], choices: Choices, units: str
) -> Storeys:
    """Trace the chosen levels and lay them on each other; ``points`` are in feet on the sheet."""
    traced, unread = _traced(on, levels, choices)
    for one in traced:
        unread = unread.merged(one.floor.unread)
    lies = lies_of(traced, points)
    moves, elevations = moves_of(lies), elevations_of(traced, choices)
    corners = [lowest_corner(one.floor) for one in traced]
    west = min(x + move[0] for (x, _), move in zip(corners, moves, strict=True))
    south = min(y + move[1] for (_, y), move in zip(corners, moves, strict=True))
    made = Storeys(
        [],
        [one.floor for one in traced],
        _beforehand(on, levels, traced),
        unread,
        [],
        [LevelOf(one.drawings, one.name) for one in traced],
    )
    for number, (one, move, height) in enumerate(zip(traced, moves, elevations, strict=True), 1):
        titles = {found.title.text for found in on.drawings if found.title is not None} if len(on.drawings) > 1 else ()
        words = [word for word in one.sheet.words if on.roles.get(word.layer) == "names" and word.text not in titles]
        own = replace(choices, level_name=one.name)
        value, notes = level_from(one.floor, words, own, number, (west - move[0], south - move[1]))
        made.values.append(value | ({"elevation": height} if len(traced) > 1 else {}))
        made.notes += [f"{one.name}: {note}" if len(traced) > 1 else note for note in notes]
        made.levels.append(_lie_value(one, height, move, lies[number - 2] if number > 1 else Lie((0.0, 0.0), "place")))
    said = [note for k, lie in enumerate(lies) for note in lie_told(traced[k + 1], traced[k], lie, units)]
    if len(traced) > 1:
        said.append(heights_told(traced, elevations, choices, units))
    made.notes = [*said, *made.notes]
    return made


def _traced(on: SheetOfDrawings, levels: Sequence[LevelOf], choices: Choices) -> tuple[list[Traced], Unread]:
    by_number = {one.number: one for one in on.drawings}
    taken = {number for level in levels for number in level.drawings}
    whole = len(levels) == 1 and taken == set(by_number)
    parts = None if whole else parted(on.sheet, on.drawn, on.drawings)
    unread = Unread() if parts is None else left_out(parts, on.drawings, taken, on.roles)
    traced = []
    for index, level in enumerate(levels):
        sheet = on.sheet if parts is None else parts.of(level.drawings)
        first = by_number.get(level.drawings[0]) if level.drawings else None
        titled = first.title.name if first is not None and first.title is not None and len(levels) > 1 else ""
        name = level.name or titled or (choices.level_name if len(levels) == 1 else f"Level {index + 1}")
        rank = first.rank if first is not None else None
        floor = trace(sheet, on.roles, choices.thickness)
        if not floor.pieces and len(levels) > 1 and not choices.levels:
            unread = unread.merged(floor.unread)
            continue
        if not floor.pieces:
            where = f" on drawing {level.drawings[0]}" if len(levels) > 1 else ""
            raise DrawingRefused(f"no walls were found{where}: choose the layer they are drawn on, and check the unit")
        traced.append(Traced(name[:_LONGEST_NAME], level.drawings, rank, sheet, floor))
    if not traced:
        raise DrawingRefused("no walls were found: choose the layer they are drawn on, and check the unit")
    return traced, unread


def _beforehand(on: SheetOfDrawings, levels: Sequence[LevelOf], traced: Sequence[Traced]) -> list[str]:
    """What the choice of drawings leaves to be looked at."""
    taken = {number for one in traced for number in one.drawings}
    out = [one for one in on.drawings if one.number not in taken]
    notes = []
    bare = [number for level in levels for number in level.drawings if number not in taken]
    if bare:
        notes.append(f"No walls were found on drawing {', '.join(map(str, bare))}: it makes no level.")
    out = [one for one in out if one.number not in bare]
    if out:
        count = told(len(out), "drawing of the sheet is", "drawings of the sheet are")
        notes.append(f"{count} left out: {', '.join(_called(one, on) for one in out[:8])}.")
    if on.proposal.is_guessed and tuple(level.drawings for level in levels) == on.proposal.levels:
        notes.append("No title tells which drawing is which level: taken from the left, or from the bottom. Check it.")
    apart = [one for one in on.drawings if one.number in taken and min(one.size) >= _LEAST_STOREY]
    if len(traced) == 1 and len(apart) > 1:
        notes.append(
            f"{len(apart)} drawings stand apart on the sheet and are read as one level, as they are drawn. "
            "If they are storeys, say which is which level."
        )
    return notes


def _called(one: Found, on: SheetOfDrawings) -> str:
    named = f" {one.title.text!r}" if one.title is not None and one.title.kind != "other" else ""
    why = on.proposal.why.get(one.number)
    return f"{one.number}{named}" + (f" ({why})" if why else "")


def _lie_value(one: Traced, height: float, move: Spot, lie: Lie) -> dict[str, Any]:
    return {
        "name": one.name,
        "elevation": height,
        "drawings": list(one.drawings),
        "moved_ft": [round(value, 4) for value in move],
        "by": lie.by,
        "share": round(min(lie.matched / lie.whole, 1.0), 3) if lie.whole else None,
    }


def _numbers(known: set[int]) -> str:
    return ", ".join(map(str, sorted(known)[:12])) or "none"
