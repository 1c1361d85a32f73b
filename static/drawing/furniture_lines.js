/**
 * The few lines by which a piece of furniture or a stair is known in plan, read from an obstruction's label.
 * Places are shares of a four-cornered outline: u along its back, v from its back to its front.
 */

/** @import { Fixture, Point, Wall } from "../plan/types.js" */

import { between, distance, nearestOn } from "../geometry/points.js";
import { segment, through } from "./svg.js";

const TREAD = 10 / 12; // ft
const AT_WALL = 0.15; // ft from a wall's face at which a side stands against it

/** @typedef {(u: number, v: number) => Point} Places */
/** @type {[RegExp, (at: Places, width: number, depth: number) => string][]} */
const KNOWN = [
  [/\bstairs?\b/i, stairs],
  [/\bbed\b/i, (at, width) => (width > 4 ? box(at, 0.08, 0.04, 0.47, 0.24) + box(at, 0.53, 0.04, 0.92, 0.24) : box(at, 0.15, 0.04, 0.85, 0.24)) + line(at, 0, 0.34, 1, 0.34)],
  [/\bsofa|armchair|couch\b/i, (at, width, depth) => path(at, [[0.75 / width, 1], [0.75 / width, 0.8 / depth], [1 - 0.75 / width, 0.8 / depth], [1 - 0.75 / width, 1]])],
  [/\bfridge|refrigerator\b/i, (at) => line(at, 0, 0, 1, 1) + line(at, 1, 0, 0, 1)],
  [/\brange|stove\b/i, (at) => [[0.28, 0.32], [0.72, 0.32], [0.28, 0.72], [0.72, 0.72]].map(([u = 0, v = 0]) => box(at, u - 0.12, v - 0.13, u + 0.12, v + 0.13)).join("")],
  [/\btub\b/i, (at) => box(at, 0.06, 0.12, 0.94, 0.88)],
  [/\bfireplace|hearth|chimney\b/i, (at) => path(at, [[0.2, 1], [0.32, 0.35], [0.68, 0.35], [0.8, 1]])],
  [/\bbookcase|shelves|shelving\b/i, (at, width) => Array.from({ length: Math.max(1, Math.round(width / 1.5)) - 1 }, (_, i, n = Math.max(1, Math.round(width / 1.5))) => line(at, (i + 1) / n, 0, (i + 1) / n, 1)).join("") + line(at, 0, 0.2, 1, 0.2)],
  [/\bwardrobe|closet unit\b/i, (at) => line(at, 0, 0.5, 1, 0.5) + line(at, 0.5, 0.85, 0.5, 1)],
  [/\bcounter\b/i, (at, _width, depth) => line(at, 0, 1 - 0.12 / depth, 1, 1 - 0.12 / depth)],
  [/\bdesk\b/i, (at) => line(at, 0, 0.12, 1, 0.12)],
];

/** Path data of an obstruction's lines; none where its label says nothing or it has not four corners. @param {Fixture} fixture @param {Wall[]} walls that its back may stand against */
export function furnitureLines(fixture, walls) {
  const draw = KNOWN.find(([words]) => words.test(fixture.label ?? ""))?.[1];
  if (!draw || fixture.polygon?.length !== 4) return "";
  const [a, b, c, d] = /** @type {[Point, Point, Point, Point]} */ (backFirst(fixture.polygon, walls));
  return draw((u, v) => between(between(a, b, u), between(d, c, u), v), distance(a, b), distance(a, d));
}

/** The corners from the back on: the side along a wall, the longest of them; as they are told where none or the first stands at one. @param {Point[]} ring @param {Wall[]} walls */
function backFirst(ring, walls) {
  const sides = ring.map((corner, i) => ({ i, a: corner, b: /** @type {Point} */ (ring[(i + 1) % ring.length]) }));
  const against = sides.filter(({ a, b }) => walls.some((wall) => [a, b].every((corner) => distance(nearestOn(corner, wall.a, wall.b), corner) < (wall.thickness ?? 0.375) / 2 + AT_WALL)));
  const back = against.find(({ i }) => i === 0) ?? against.sort((one, two) => distance(two.a, two.b) - distance(one.a, one.b))[0];
  return back ? [...ring.slice(back.i), ...ring.slice(0, back.i)] : ring;
}

/** @param {Places} at @param {number} u0 @param {number} v0 @param {number} u1 @param {number} v1 */
const line = (at, u0, v0, u1, v1) => segment(at(u0, v0), at(u1, v1));
/** @param {Places} at @param {number} u0 @param {number} v0 @param {number} u1 @param {number} v1 */
const box = (at, u0, v0, u1, v1) => through([at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)], true);
/** @param {Places} at @param {[number, number][]} corners */
const path = (at, corners) => through(corners.map(([u, v]) => at(u, v)));

/** Treads across the longer way, and the arrow that leads up, from front to back. @param {Places} at @param {number} width @param {number} depth */
function stairs(at, width, depth) {
  /** @type {Places} */
  const run = depth >= width ? at : (u, v) => at(v, 1 - u);
  const count = Math.max(2, Math.round(Math.max(width, depth) / TREAD));
  const treads = Array.from({ length: count - 1 }, (_, i) => line(run, 0, (i + 1) / count, 1, (i + 1) / count)).join("");
  return treads + line(run, 0.5, 0.97, 0.5, 0.06) + path(run, [[0.36, 0.13], [0.5, 0.06], [0.64, 0.13]]);
}
