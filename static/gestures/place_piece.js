/**
 * Place a piece of furniture or a built-in: its back takes to the wall under the pointer and its sides to the corners;
 * it turns by a key, and a press puts it down as an obstruction. Dragged from corner to corner it takes that size.
 */

/** @import { Fixture, Level, Point, Wall } from "../plan/types.js" */
/** @import { Piece } from "../plan/furniture.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Worded } from "../panels/length_box.js" */
/** @import { Spot } from "./gesture.js" */

import { drawObstruction } from "../drawing/fixtures.js";
import { marksOf } from "../drawing/marks.js";
import { bearing, cross, direction, distance, dot, leftOf, meeting, minus, nearestOn, plus, times, unit } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { FURNITURE, blocksOf, outlineOf } from "../plan/furniture.js";
import { newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { readPiece } from "../plan/typed_sizes.js";
import { cornerOnFaces, facesOf } from "./face_snap.js";
import { gridStep, snapMarks, snapped } from "./field.js";

const [NEAR, CORNER_NEAR, DRAGGED] = [14, 8, 6]; // px

/** @param {Desk} desk @returns {Worded} */
export function placePiece(desk) {
  /** @type {{ring: Point[], piece: Piece} | null} */
  let held = null;
  let free = 270; // where its front looks when no wall says
  /** @type {Spot | null} */
  let last = null;
  /** @type {Spot | null} where the pointer went down */
  let pressed = null;
  const chosen = () => (desk.tools.piece ??= { .../** @type {Piece} */ (FURNITURE.find((piece) => piece.name === "sofa")) });

  /** @param {Spot} spot */
  function show(spot) {
    last = spot;
    if (pressed && Math.hypot(spot.x - pressed.x, spot.y - pressed.y) > DRAGGED) return showBox(pressed, spot);
    const piece = chosen();
    const seat = spot.free ? null : againstWall(spot.at, piece, free, desk.store.committedLevel, NEAR / desk.view.scale, gridStep(desk));
    const to = seat ? null : snapped(desk, spot);
    const { back, facing } = seat ?? { back: minus(/** @type {{at: Point}} */ (to).at, times(unit(free), piece.depth / 2)), facing: free };
    draw(outlineOf(back, piece.width, piece.depth, facing), piece, spot, seat?.words ?? "E and Q turn it; drag it to its size", to ? snapMarks(to) : []);
  }

  /** From corner to corner. @param {Spot} from @param {Spot} to */
  function showBox(from, to) {
    const faces = facesOf(desk.store.committedLevel, "");
    const [p, q] = [from, to].map((spot) => (spot.free ? spot.at : cornerOnFaces(spot.at, faces, CORNER_NEAR / desk.view.scale, gridStep(desk))));
    if (!p || !q || Math.abs(p[0] - q[0]) < 0.1 || Math.abs(p[1] - q[1]) < 0.1) return;
    const { piece, ring } = boxed(chosen(), p, q, free, desk.store.committedLevel);
    draw(ring, piece, to, "", []);
  }

  /** @param {Point[]} ring @param {Piece} piece @param {Spot} spot @param {string} words @param {(Element | null)[]} more */
  function draw(ring, piece, spot, words, more) {
    held = { ring, piece };
    const units = unitsOf(desk.store.plan);
    marksOf(desk).show([...fixtures(() => "piece-to-be").map((fixture) => drawObstruction(fixture, desk.view.scale, [], [])), ...more]);
    marksOf(desk).say(spot.at, `${piece.label} ${lengthText(piece.width, units)} × ${lengthText(piece.depth, units)}`, words);
  }

  /** @param {() => string} nextId @returns {Fixture[]} */
  function fixtures(nextId) {
    if (!held) return [];
    const blocks = blocksOf(held.piece, held.ring, desk.store.committedLevel.ceiling ?? 9);
    return blocks.map(({ polygon, base, top, label }) => ({ id: nextId(), kind: "obstruction", polygon, base, ...(top === null ? {} : { top }), label }));
  }

  function put() {
    /** @type {Set<string>} */
    const taken = new Set();
    const made = fixtures(() => newId(desk.store.plan, PREFIX.fixtures, taken));
    const label = held?.piece.label ?? "";
    held = null;
    marksOf(desk).clear();
    if (!made.length) return;
    desk.store.commit(`Place ${label}`, addThings(desk.store.plan, desk.store.levelId, "fixtures", made));
    desk.say(`${label} placed`);
  }

  return {
    hint: "Press where it stands, or drag it from corner to corner. Enter takes another by name; a typed size is that of the next. Near a wall its back takes to it; E and Q turn it, Alt lets go.",
    asks: "Size, or a piece's name",
    words(text) {
      const read = readPiece(text, chosen(), unitsOf(desk.store.plan));
      if ("fault" in read) return read.fault;
      desk.tools.piece = read.piece;
      desk.tools.reshaped();
      return "";
    },
    offered: FURNITURE.map((piece) => piece.label),
    enter: () => desk.askLength(),
    move: show,
    press(spot) {
      show(spot);
      pressed = spot;
    },
    release(spot) {
      if (!pressed) return;
      show(spot);
      pressed = null;
      put();
    },
    turn(degrees) {
      free = (free + degrees + 360) % 360;
      if (last) show(last);
    },
    escape() {
      const was = pressed !== null;
      pressed = null;
      held = null;
      marksOf(desk).clear();
      return was;
    },
    off: () => marksOf(desk).clear(),
  };
}

/**
 * A piece between two corners: its back at the wall that a side stands against, else as it would stand free. A flight
 * rises the way it was drawn.
 * @param {Piece} piece @param {Point} p @param {Point} q @param {number} free degrees @param {Level} level
 * @returns {{piece: Piece, ring: Point[]}}
 */
function boxed(piece, p, q, free, level) {
  const [wide, high] = [Math.abs(p[0] - q[0]), Math.abs(p[1] - q[1])];
  const middle = /** @type {Point} */ ([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]);
  const backAt = (/** @type {number} */ facing) => minus(middle, times(unit(facing), (facing % 180 === 0 ? wide : high) / 2));
  const rises = wide > high ? (q[0] > p[0] ? 180 : 0) : q[1] > p[1] ? 270 : 90;
  const stands = [0, 90, 180, 270].filter((facing) => {
    const back = backAt(facing);
    return (level.walls ?? []).some((wall) => distance(nearestOn(back, wall.a, wall.b), back) < (wall.thickness ?? 0.375) / 2 + 0.05);
  }).sort((one, two) => (two % 180 === 0 ? high : wide) - (one % 180 === 0 ? high : wide))[0];
  const facing = piece.blocks ? rises : stands ?? (Math.round(free / 90) * 90) % 360;
  const [width, depth] = facing % 180 === 0 ? [high, wide] : [wide, high];
  return { piece: { ...piece, width, depth }, ring: outlineOf(backAt(facing), width, depth, facing) };
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
