/**
 * Draw the sides of an outline to the faces of walls and to the sides of other outlines that lie near and along them.
 */

/** @import { Level, Point } from "../plan/types.js" */

import { along, cross, direction, distance, dot, leftOf, minus, plus, times } from "../geometry/points.js";

/** @typedef {{a: Point, b: Point, off: number}} Face a line, and how far to either side of it the faces lie */

/** Faces of walls and of other obstructions. @param {Level} level @param {string} without id of the outline that moves @returns {Face[]} */
export function facesOf(level, without) {
  return [
    ...(level.walls ?? []).map((wall) => ({ a: wall.a, b: wall.b, off: (wall.thickness ?? 0.375) / 2 })),
    ...(level.fixtures ?? []).filter((fixture) => fixture.id !== without).flatMap((fixture) => sidesOf(fixture.polygon ?? []).map(([a, b]) => ({ a, b, off: 0 }))),
  ];
}

/** @param {Point[]} ring @returns {[Point, Point][]} */
const sidesOf = (ring) => ring.map((corner, i) => [corner, /** @type {Point} */ (ring[(i + 1) % ring.length])]);

/**
 * How far to move an outline so that its sides lie on faces within reach: on one, or on two that are not parallel.
 * @param {Point[]} ring @param {Face[]} faces @param {number} near ft @returns {Point}
 */
export function shiftToFaces(ring, faces, near) {
  const first = nearest(ring, faces, near);
  if (!first) return [0, 0];
  const moved = ring.map((corner) => plus(corner, first.by));
  const across = faces.filter((face) => Math.abs(cross(first.way, direction(face.a, face.b))) > 0.5);
  const second = nearest(moved, across, near);
  return second ? plus(first.by, second.by) : first.by;
}

/** @param {Point[]} ring @param {Face[]} faces @param {number} near @returns {{by: Point, way: Point} | null} `way`: along the face */
function nearest(ring, faces, near) {
  /** @type {{by: Point, way: Point} | null} */
  let best = null;
  let least = near;
  for (const { a, b, off } of faces) {
    const square = leftOf(direction(a, b));
    for (const [p, q] of sidesOf(ring)) {
      if (Math.abs(cross(direction(a, b), direction(p, q))) > 1e-3) continue;
      const [from, to] = [along(p, a, b), along(q, a, b)];
      if (Math.max(from, to) < 0 || Math.min(from, to) > distance(a, b)) continue;
      for (const side of off ? [off, -off] : [0]) {
        const gap = side - dot(minus(p, a), square);
        if (Math.abs(gap) < least) [least, best] = [Math.abs(gap), { by: times(square, gap), way: direction(a, b) }];
      }
    }
  }
  return best;
}

/** A corner of a box drawn to the faces that lie near it, else to the grid, east and north each for itself. @param {Point} p @param {Face[]} faces @param {number} near ft @param {number} step ft @returns {Point} */
export function cornerOnFaces(p, faces, near, step) {
  return /** @type {Point} */ ([0, 1].map((axis) => {
    const here = p[axis] ?? 0;
    const lines = faces.flatMap(({ a, b, off }) => {
      const runs = Math.abs((a[axis] ?? 0) - (b[axis] ?? 0)) < 1e-3; // a face at one place of this axis
      const abreast = along(p, a, b) > -near && along(p, a, b) < distance(a, b) + near;
      return runs && abreast ? [(a[axis] ?? 0) - off, (a[axis] ?? 0) + off] : [];
    });
    const best = lines.sort((one, two) => Math.abs(one - here) - Math.abs(two - here))[0];
    return best !== undefined && Math.abs(best - here) < near ? best : Math.round(here / step) * step;
  }));
}
