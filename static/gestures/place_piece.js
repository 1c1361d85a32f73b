/**
 * Place a piece of furniture or a built-in: its back takes to the wall under the pointer and its sides to the corners;
 * it turns by a key, and a press puts it down as an obstruction.
 */

/** @import { Fixture, Level, Point, Wall } from "../plan/types.js" */
/** @import { Piece } from "../plan/furniture.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { drawObstruction } from "../drawing/fixtures.js";
import { bearing, cross, direction, distance, dot, leftOf, meeting, minus, nearestOn, plus, times, unit } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { FURNITURE, outlineOf } from "../plan/furniture.js";
import { newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { gridStep, snapMarks, snapped } from "./field.js";

const NEAR = 14; // px

/** @param {Desk} desk @returns {Gesture} */
export function placePiece(desk) {
  /** @type {{back: Point, facing: number} | null} */
  let held = null;
  let free = 270; // where its front looks when no wall says
  /** @type {Spot | null} */
  let last = null;
  const chosen = () => (desk.tools.piece ??= { .../** @type {Piece} */ (FURNITURE.find((piece) => piece.name === "sofa")) });

  /** @param {Spot} spot */
  function show(spot) {
    last = spot;
    const piece = chosen();
    const seat = spot.free ? null : againstWall(spot.at, piece, free, desk.store.committedLevel, NEAR / desk.view.scale, gridStep(desk));
    const to = seat ? null : snapped(desk, spot);
    held = seat ?? { back: minus(/** @type {{at: Point}} */ (to).at, times(unit(free), piece.depth / 2)), facing: free };
    desk.marks.show([drawObstruction(fixture("piece-to-be"), desk.view.scale, [], []), ...(to ? snapMarks(to) : [])]);
    const units = unitsOf(desk.store.plan);
    desk.marks.say(spot.at, `${piece.label} ${lengthText(piece.width, units)} × ${lengthText(piece.depth, units)}`, seat?.words ?? `E and Q turn it`);
  }

  /** @param {string} id @returns {Fixture} */
  function fixture(id) {
    const piece = chosen();
    const { back, facing } = /** @type {{back: Point, facing: number}} */ (held);
    return { id, kind: "obstruction", polygon: outlineOf(back, piece.width, piece.depth, facing), base: piece.base, ...(piece.top === null ? {} : { top: piece.top }), label: piece.label };
  }

  return {
    hint: "Press where it stands. Near a wall its back takes to the wall; E and Q turn it, Alt lets go of the wall.",
    move: show,
    press(spot) {
      show(spot);
      const put = fixture(newId(desk.store.plan, PREFIX.fixtures));
      desk.marks.clear();
      desk.store.commit(`Place ${put.label}`, addThings(desk.store.plan, desk.store.levelId, "fixtures", [put]));
        desk.say(`${put.label} placed`);
    },
    turn(degrees) {
      free = (free + degrees + 360) % 360;
      if (last) show(last);
    },
    off: () => desk.marks.clear(),
  };
}

/**
 * The seat of a piece with its back to the wall near a place, its sides at a crossing wall's face where near.
 * @param {Point} p @param {Piece} piece @param {number} facing degrees, as it would stand free @param {Level} level @param {number} near ft @param {number} step ft
 * @returns {{back: Point, facing: number, words: string} | null}
 */
function againstWall(p, piece, facing, level, near, step) {
  const walls = level.walls ?? [];
  const wall = walls.map((entry) => ({ entry, away: distance(nearestOn(p, entry.a, entry.b), p) })).filter(({ entry, away }) => away < reachOf(entry, piece, facing) + near)
    .sort((one, two) => one.away - two.away)[0]?.entry;
  if (!wall) return null;
  const along = direction(wall.a, wall.b);
  const side = dot(minus(p, wall.a), leftOf(along)) < 0 ? -1 : 1;
  const out = times(leftOf(along), side);
  const face = (wall.thickness ?? 0.375) / 2;
  const wanted = dot(minus(p, wall.a), along);
  const half = piece.width / 2;
  // A crossing wall stops the piece where it would stand in it, and draws it to its face from near.
  const stop = faceStops(wall, walls, face + piece.depth / 2, out).find(({ from, to }) => wanted + half > to - near && wanted - half < from + near);
  const inCorner = stop !== undefined;
  const u = inCorner ? (wanted < (stop.from + stop.to) / 2 ? stop.to - half : stop.from + half) : Math.round(wanted / step) * step;
  return { back: plus(plus(wall.a, times(along, u)), times(out, face)), facing: Math.round(bearing(out) * 1e4) / 1e4, words: inCorner ? "in the corner" : `back to wall ${wall.id}` };
}

/** How near to a wall a piece's middle comes before it takes to it: where its back would touch, and where it would stand in it. @param {Wall} wall @param {Piece} piece @param {number} facing */
function reachOf(wall, piece, facing) {
  const turn = Math.abs(cross(direction(wall.a, wall.b), unit(facing)));
  const free = (turn * piece.depth + Math.sqrt(Math.max(0, 1 - turn * turn)) * piece.width) / 2;
  return (wall.thickness ?? 0.375) / 2 + Math.max(piece.depth / 2, free);
}

/** Where crossing walls stand along a wall, at a distance off it: their faces, in feet from its a. @param {Wall} wall @param {Wall[]} walls @param {number} off @param {Point} out @returns {{from: number, to: number}[]} */
function faceStops(wall, walls, off, out) {
  const along = direction(wall.a, wall.b);
  const line = plus(wall.a, times(out, off));
  return walls.flatMap((other) => {
    const turn = Math.abs(cross(along, direction(other.a, other.b)));
    const cut = turn < 0.2 ? null : meeting(line, along, other.a, direction(other.a, other.b));
    if (!cut || distance(nearestOn(cut, other.a, other.b), cut) > 0.3) return [];
    const [u, half] = [dot(minus(cut, wall.a), along), (other.thickness ?? 0.375) / 2 / turn];
    return [{ from: u + half, to: u - half }];
  });
}
