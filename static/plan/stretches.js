/**
 * The stretch of a wall between the walls that meet it, and the partition that runs from a wall square across to the
 * next one. Pure: walls and places in, feet and points out.
 */

/** @import { Point, Wall } from "./types.js" */

import { along, cross, direction, distance, dot, leftOf, meeting, minus, nearestOn, plus, times } from "../geometry/points.js";

const [AT_WALL, SAME, SHORTEST] = [0.3, 1e-3, 0.1]; // ft: how near an end meets a wall; what is one place; the least partition

/**
 * The stretch of a wall about a place on it, from one wall that meets it to the next, in feet from its a.
 * @param {Wall} wall @param {Wall[]} walls @param {number} u feet from its a @param {1 | -1 | 0} [side] only walls on its left, its right, or both
 * @returns {{from: number, to: number}}
 */
export function stretchAt(wall, walls, u, side = 0) {
  const length = distance(wall.a, wall.b);
  let [from, to] = [0, length];
  for (const other of walls) {
    const cut = other.id === wall.id ? null : meets(wall, other, side);
    if (cut === null) continue;
    if (cut <= u + SAME) from = Math.max(from, cut);
    if (cut >= u - SAME) to = Math.min(to, cut);
  }
  return to - from > SAME ? { from, to } : { from: 0, to: length };
}

/** Where another wall meets a wall, in feet from its a; null where it does not. @param {Wall} wall @param {Wall} other @param {1 | -1 | 0} side */
function meets(wall, other, side) {
  const d = direction(wall.a, wall.b);
  const cut = Math.abs(cross(d, direction(other.a, other.b))) < 0.2 ? null : meeting(wall.a, d, other.a, direction(other.a, other.b));
  if (!cut || [wall, other].some(({ a, b }) => distance(nearestOn(cut, a, b), cut) > AT_WALL)) return null;
  const lies = [other.a, other.b].map((end) => dot(minus(end, wall.a), leftOf(d)));
  return side === 0 || lies.some((off) => off * side > AT_WALL) ? along(cut, wall.a, wall.b) : null;
}

/**
 * Where a partition ends that begins at a place and runs along a direction: at the first wall across its way. A wall that
 * only ends there, and meets no other, lets it pass: it will abut the partition.
 * @param {Point} from @param {Point} way @param {Wall[]} walls @returns {Point | null} null where no wall stands across
 */
export function nextWall(from, way, walls) {
  const hits = walls.flatMap((wall) => {
    const cut = Math.abs(cross(way, direction(wall.a, wall.b))) < 0.02 ? null : meeting(from, way, wall.a, direction(wall.a, wall.b));
    if (!cut || dot(minus(cut, from), way) < SHORTEST || distance(nearestOn(cut, wall.a, wall.b), cut) > SAME) return [];
    return [{ cut, far: dot(minus(cut, from), way), ends: distance(cut, wall.a) < AT_WALL || distance(cut, wall.b) < AT_WALL }];
  }).sort((one, two) => one.far - two.far);
  const stop = hits.find((hit) => !hit.ends || walls.filter((wall) => distance(nearestOn(hit.cut, wall.a, wall.b), hit.cut) < SAME).length > 1) ?? hits.at(-1);
  return stop ? plus(from, times(way, stop.far)) : null;
}
