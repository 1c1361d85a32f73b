/**
 * Where the pointer's place snaps to: ends, middles, walls, square to a wall, angles, lines of other corners, grid.
 * Pure: walls and a place in, the snapped place and what it snapped to out.
 */

/** @import { Point, Wall } from "../plan/types.js" */
/** @import { SnapKind } from "../drawing/marks.js" */

import { between, bearing, direction, distance, dot, meeting, minus, nearestOn, plus, times, unit } from "../geometry/points.js";

const NEAR = 10; // px
const TURN = 45; // degrees between the preferred directions
const TILT = 0.06; // how far off a preferred direction, as a share of the length, still snaps to it

/**
 * @typedef {Object} Snapped
 * @property {Point} at
 * @property {SnapKind} kind
 * @property {string} words what it snapped to
 * @property {[Point, Point][]} guides
 */

/**
 * @typedef {Object} Field what there is to snap to
 * @property {Wall[]} walls
 * @property {Point[]} corners other corners, of the run under way or of outlines
 * @property {number} scale px a foot
 * @property {number} step grid, ft
 */

/**
 * @param {Point} p @param {Field} field @param {Point | null} from where the line under way begins
 * @returns {Snapped}
 */
export function snap(p, field, from) {
  const near = NEAR / field.scale;
  return onPoint(p, field, near) ?? onWall(p, field, from, near) ?? onDirection(p, field, from, near) ?? aligned(p, field, near) ?? onGrid(p, field);
}

/** Nothing but the place itself. @param {Point} p @returns {Snapped} */
export const unsnapped = (p) => ({ at: p, kind: "free", words: "", guides: [] });

/** @param {Point} p @param {Field} field @param {number} near @returns {Snapped | null} */
function onPoint(p, field, near) {
  /** @type {Snapped | null} */
  let best = null;
  let least = near * 1.2;
  /** @param {Point} at @param {SnapKind} kind @param {string} words */
  const offer = (at, kind, words) => {
    const away = distance(p, at);
    if (away < least) [least, best] = [away, { at, kind, words, guides: [] }];
  };
  for (const corner of field.corners) offer(corner, "end", "corner");
  for (const wall of field.walls) {
    offer(wall.a, "end", "wall end");
    offer(wall.b, "end", "wall end");
  }
  if (best) return best;
  for (const wall of field.walls) offer(between(wall.a, wall.b, 0.5), "middle", "middle of wall");
  return best;
}

/** @param {Point} p @param {Field} field @param {Point | null} from @param {number} near @returns {Snapped | null} */
function onWall(p, field, from, near) {
  const hit = nearestWall(p, field.walls, near);
  if (!hit) return null;
  const { wall, at } = hit;
  const d = direction(wall.a, wall.b);
  if (from) {
    const foot = plus(wall.a, times(d, dot(minus(from, wall.a), d)));
    if (distance(foot, at) < near && distance(foot, nearestOn(foot, wall.a, wall.b)) < 1e-6 && distance(foot, from) > near) {
      return { at: foot, kind: "perpendicular", words: "square to wall", guides: [[from, foot]] };
    }
    for (const way of ways(from, field.walls)) {
      const cut = meeting(from, way, wall.a, d);
      if (cut && distance(cut, at) < near && distance(cut, nearestOn(cut, wall.a, wall.b)) < 1e-6) {
        return { at: cut, kind: "wall", words: "on wall", guides: [[from, cut]] };
      }
    }
  }
  const u = Math.round(dot(minus(at, wall.a), d) / field.step) * field.step;
  const length = distance(wall.a, wall.b);
  return { at: u > 0 && u < length ? plus(wall.a, times(d, u)) : at, kind: "wall", words: "on wall", guides: [] };
}

/** @param {Point} p @param {Wall[]} walls @param {number} near @returns {{wall: Wall, at: Point, away: number} | null} */
export function nearestWall(p, walls, near) {
  /** @type {{wall: Wall, at: Point, away: number} | null} */
  let best = null;
  for (const wall of walls) {
    const at = nearestOn(p, wall.a, wall.b);
    const away = distance(p, at);
    if (away < Math.max(near, (wall.thickness ?? 0.375) / 2) && away < (best?.away ?? Infinity)) best = { wall, at, away };
  }
  return best;
}

/** Along a preferred direction from where the line began. @param {Point} p @param {Field} field @param {Point | null} from @param {number} near @returns {Snapped | null} */
function onDirection(p, field, from, near) {
  if (!from) return null;
  for (const way of ways(from, field.walls)) {
    const far = dot(minus(p, from), way);
    if (far <= 0 || distance(p, plus(from, times(way, far))) > Math.max(near, far * TILT)) continue;
    for (const corner of field.corners.concat(field.walls.flatMap((wall) => [wall.a, wall.b]))) {
      const abreast = dot(minus(corner, from), way);
      const at = plus(from, times(way, abreast));
      if (Math.abs(abreast - far) < near && distance(at, corner) > near && abreast > near) {
        return { at, kind: "aligned", words: "in line with a corner", guides: [[from, at], [corner, at]] };
      }
    }
    const at = plus(from, times(way, Math.max(field.step, Math.round(far / field.step) * field.step)));
    return { at, kind: "angle", words: "", guides: [[from, at]] };
  }
  return null;
}

/** The preferred directions from a place: steps of 45°, and along or square to a wall that ends there. @param {Point} from @param {Wall[]} walls @returns {Point[]} */
function ways(from, walls) {
  const list = Array.from({ length: 360 / TURN }, (_, i) => unit(i * TURN));
  for (const wall of walls) {
    if (distance(nearestOn(from, wall.a, wall.b), from) > 1e-3) continue;
    const angle = bearing(direction(wall.a, wall.b));
    if (Math.abs((angle % TURN) - TURN / 2) < TURN / 2 - 0.05) for (let i = 0; i < 4; i++) list.push(unit(angle + 90 * i));
  }
  return list;
}

/** In line with another corner. @param {Point} p @param {Field} field @param {number} near @returns {Snapped | null} */
function aligned(p, field, near) {
  const at = /** @type {Point} */ ([Math.round(p[0] / field.step) * field.step, Math.round(p[1] / field.step) * field.step]);
  /** @type {[Point, Point][]} */
  const guides = [];
  for (const axis of /** @type {const} */ ([0, 1])) {
    let least = near * 0.8;
    for (const wall of field.walls) {
      for (const corner of [wall.a, wall.b]) {
        const away = Math.abs(corner[axis] - p[axis]);
        if (away >= least) continue;
        least = away;
        at[axis] = corner[axis];
        guides[axis] = [corner, at];
      }
    }
  }
  const shown = guides.filter(Boolean);
  return shown.length ? { at, kind: "aligned", words: "in line with a corner", guides: shown } : null;
}

/** @param {Point} p @param {Field} field @returns {Snapped} */
function onGrid(p, field) {
  return { at: [Math.round(p[0] / field.step) * field.step, Math.round(p[1] / field.step) * field.step], kind: "grid", words: "", guides: [] };
}

/** @param {Point} d */
export const angleWords = (d) => `${(Math.round(bearing(d) * 10) / 10) % 360}°`;
