"""A floor traced from a sheet in feet: runs, their openings, joined walls, and which strokes had no part in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from app.intake.report import Unread
from app.intake.roles import Role
from app.intake.strokes import Arc, Sheet, Stroke
from app.intake.tracing.carriers import carriers_of, joined
from app.intake.tracing.joints import Link, Piece, joined_walls
from app.intake.tracing.ladders import rungs_among
from app.intake.tracing.openings import Found, Symbols, find_openings
from app.intake.tracing.pairs import THICKEST, THINNEST, Band, paired_bands
from app.intake.tracing.runs import Run, close_filled_gaps, runs_of
from app.intake.tracing.swings import is_leaf, is_swing

_TOUCH = 0.08  # ft
_MARK_TOUCH = 0.6
_CURVE_TOUCH = 0.3  # a chord lies a little within its arc
_SMALLEST_PIECE = 0.1


@dataclass
class Floor:
    """The walls of one floor with their openings, links between them, and what found no use."""

    pieces: list[Piece]
    links: list[Link]
    found: Found
    free_ends: int
    unread: Unread = field(default_factory=Unread)


def trace(sheet: Sheet, roles: Mapping[str, Role], thickness: float) -> Floor:
    """Trace the layers that have a role; ``thickness`` is that of walls drawn as one line."""

    def on(*wanted: Role) -> Iterator[Stroke]:
        return (stroke for stroke in sheet.strokes if roles.get(stroke.layer) in wanted)

    swings = [arc for arc in sheet.arcs if roles.get(arc.layer) in ("walls", "doors") and is_swing(arc)]
    wide = [stroke for stroke in on("walls") if THINNEST <= stroke.width <= THICKEST]
    leaves = [stroke for stroke in on("walls") if is_leaf(stroke, swings)]
    faces = [one for one in on("walls") if not THINNEST <= one.width <= THICKEST and one not in set(leaves)]
    rungs = rungs_among(faces)
    faces = [one for one in faces if one not in rungs]
    faces += [chord for arc in _curves(sheet, roles, "walls") for chord in arc.chords()]
    lines = [*on("centrelines"), *(chord for arc in _curves(sheet, roles, "centrelines") for chord in arc.chords())]
    paired, _ = paired_bands(faces)
    runs = runs_of([*paired, *_drawn_wide(wide), *_as_bands(lines, thickness)])
    gaps = close_filled_gaps(runs)
    symbols = Symbols(swings, [*on("doors"), *leaves], list(on("windows")), faces)
    found = find_openings(runs, gaps, symbols)
    pieces = [piece for run in runs for piece in _pieces(run)]
    links, free_ends = joined_walls(pieces)
    pieces = [piece for piece in pieces if piece.end - piece.start >= _SMALLEST_PIECE]
    floor = Floor(pieces, links, found, free_ends)
    for rung in rungs:
        floor.unread.add(rung.layer, "stroke", "is one of an even row, as treads or boards are: no wall")
    _tell_unused(floor, sheet, roles, runs, set(leaves) | rungs)
    return floor


def _curves(sheet: Sheet, roles: Mapping[str, Role], role: Role) -> Iterator[Arc]:
    return (arc for arc in sheet.arcs if roles.get(arc.layer) == role and not is_swing(arc))


def _drawn_wide(strokes: list[Stroke]) -> Iterator[Band]:
    """Walls drawn as one stroke of a wall's width."""
    for width in {round(stroke.width, 4) for stroke in strokes}:
        yield from _as_bands([stroke for stroke in strokes if round(stroke.width, 4) == width], width)


def _as_bands(strokes: list[Stroke], thickness: float) -> Iterator[Band]:
    for direction, carriers in carriers_of(strokes):
        for carrier in carriers:
            low, high = carrier.v - thickness / 2, carrier.v + thickness / 2
            yield Band(direction, low, high, tuple(carrier.drawn))


def _pieces(run: Run) -> Iterator[Piece]:
    """The unbroken pieces of a run: solid and openings that touch."""
    openings = sorted(run.openings, key=lambda one: one.start)
    for start, end in joined([*run.solid, *((one.start, one.end) for one in openings)], 0.03):
        yield Piece(run, start, end, [one for one in openings if start - 0.01 <= one.start < end])


def _tell_unused(floor: Floor, sheet: Sheet, roles: Mapping[str, Role], runs: list[Run], leaves: set[Stroke]) -> None:
    """Count the strokes, arcs and layers that the floor has nothing of, each with the reason."""
    bodies = [run.body(*part) for run in runs for part in run.solid]
    for piece in floor.pieces:
        half = piece.run.thickness / 2  # a corner is both walls', so each reaches on by half its thickness
        bodies.append(piece.run.body(piece.start - half, piece.end + half))
    tree = shapely.STRtree(np.array(bodies, dtype=object))
    used = [one for one in sheet.strokes if roles.get(one.layer) in ("walls", "centrelines", "doors", "windows")]
    if used:
        middles = shapely.points([[(one.a[0] + one.b[0]) / 2, (one.a[1] + one.b[1]) / 2] for one in used])
        for reach, kinds, reason in (
            (_TOUCH, ("walls", "centrelines"), "has no second face 2 to 18 in beside it"),
            (_MARK_TOUCH, ("windows",), "lies in no wall"),
            (3.6, ("doors",), "is near no wall"),
        ):
            near = set(tree.query(middles, predicate="dwithin", distance=reach)[0].tolist()) if bodies else set()
            for index, stroke in enumerate(used):
                if roles[stroke.layer] in kinds and index not in near and stroke not in leaves:
                    floor.unread.add(stroke.layer, "stroke", reason)
    curves = [*_curves(sheet, roles, "walls"), *_curves(sheet, roles, "centrelines")]
    if curves and bodies:
        middles = shapely.points([arc.at(arc.start + arc.sweep / 2) for arc in curves])
        near = set(tree.query(middles, predicate="dwithin", distance=_CURVE_TOUCH)[0].tolist())
        for index, arc in enumerate(curves):
            if index not in near:
                floor.unread.add(arc.layer, "arc", "has no second face 2 to 18 in beside it")
    for arc in floor.found.loose_swings:
        floor.unread.add(arc.layer, "arc", "is no door's swing: no wall is in line with it")
    for arc in sheet.arcs:
        if roles.get(arc.layer) == "windows" or (roles.get(arc.layer) == "doors" and not is_swing(arc)):
            floor.unread.add(arc.layer, "arc", "tells nothing of an opening")
