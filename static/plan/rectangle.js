/**
 * The walls of a rectangular room: sides that already stand are not built twice.
 */

/** @import { Plan, Point, Wall } from "./types.js" */

import { along, between, distance, nearestOn } from "../geometry/points.js";
import { PREFIX } from "./edits.js";
import { newId } from "./lookup.js";

const ON_LINE = 0.02; // ft
const SHORTEST = 0.1; // ft: what is left of a side below this is not built

/**
 * @param {Plan} plan @param {Wall[]} standing @param {Point} p @param {Point} q opposite corners
 * @param {{thickness: number, height: number | null}} kind
 * @returns {Wall[]}
 */
export function rectangleWalls(plan, standing, p, q, kind) {
  /** @type {Set<string>} */
  const taken = new Set();
  return sidesOf(p, q).flatMap(([a, b]) => gaps(a, b, standing).map(([from, to]) => ({
    id: newId(plan, PREFIX.walls, taken), a: from, b: to, thickness: kind.thickness, ...(kind.height === null ? {} : { height: kind.height }),
  })));
}

/** @param {Point} p @param {Point} q @returns {[Point, Point][]} */
function sidesOf(p, q) {
  const [left, right, low, high] = [Math.min(p[0], q[0]), Math.max(p[0], q[0]), Math.min(p[1], q[1]), Math.max(p[1], q[1])];
  return [[[left, low], [right, low]], [[right, low], [right, high]], [[right, high], [left, high]], [[left, high], [left, low]]];
}

/** The parts of a side along which no wall stands. @param {Point} a @param {Point} b @param {Wall[]} standing @returns {[Point, Point][]} */
function gaps(a, b, standing) {
  const length = distance(a, b);
  const stretches = standing
    .filter((wall) => [wall.a, wall.b].every((end) => Math.abs(offLine(end, a, b)) < ON_LINE))
    .map((wall) => [along(wall.a, a, b), along(wall.b, a, b)].sort((one, two) => one - two))
    .sort((one, two) => (one[0] ?? 0) - (two[0] ?? 0));
  /** @type {[Point, Point][]} */
  const left = [];
  let here = 0;
  for (const [from = 0, to = 0] of [...stretches, [length, length]]) {
    const until = Math.min(from, length);
    if (until - here > SHORTEST) left.push([between(a, b, here / length), between(a, b, until / length)]);
    here = Math.max(here, to);
  }
  return left;
}

/** Distance of p from the line a–b. @param {Point} p @param {Point} a @param {Point} b */
function offLine(p, a, b) {
  const far = along(p, a, b);
  return distance(p, nearestOn(p, a, b)) < 1e-9 ? 0 : distance(p, between(a, b, far / distance(a, b)));
}
