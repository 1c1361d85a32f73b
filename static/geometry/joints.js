/**
 * How drawn walls meet: the corners of every wall's body with clean mitres where ends coincide.
 * For the drawing alone; coverage takes walls as the contract says, flat at both ends.
 */

/** @import { Point, Wall } from "../plan/types.js" */

import { bearing, cross, direction, distance, leftOf, meeting, minus, plus, signedArea, times } from "./points.js";

export const USUAL_THICKNESS = 0.375;
const MITRE_LIMIT = 4; // half thicknesses
const SAME_SPOT = 1e-3; // ft

/**
 * @typedef {Object} Arm one end of a wall at a node; `out` leads away from the node
 * @property {Wall} wall
 * @property {"a" | "b"} end
 * @property {Point} at
 * @property {Point} out
 * @property {number} half
 * @property {Point} left corner on the left, seen from the node along the wall
 * @property {Point} right
 */

/** @param {Wall} wall */
export const thicknessOf = (wall) => wall.thickness ?? USUAL_THICKNESS;

/**
 * The arms of each wall with their corners, and a patch for each node that closes what lies between the arms.
 * @param {Wall[]} walls
 * @returns {{arms: Map<string, {a: Arm, b: Arm}>, patches: {ring: Point[], full: boolean}[]}} `full`: a wall to the ceiling is there
 */
export function joints(walls) {
  /** @type {Map<string, Arm[]>} */
  const nodes = new Map();
  /** @type {Map<string, {a: Arm, b: Arm}>} */
  const arms = new Map();
  for (const wall of walls) {
    const pair = { a: armOf(wall, "a"), b: armOf(wall, "b") };
    arms.set(wall.id, pair);
    for (const arm of [pair.a, pair.b]) {
      const key = nodeKey(arm.at);
      const there = nodes.get(key);
      if (there) there.push(arm);
      else nodes.set(key, [arm]);
    }
  }
  /** @type {{ring: Point[], full: boolean}[]} */
  const patches = [];
  for (const around of nodes.values()) {
    if (around.length < 2) continue;
    around.sort((first, second) => bearing(first.out) - bearing(second.out));
    around.forEach((arm, index) => mitre(arm, /** @type {Arm} */ (around[(index + 1) % around.length])));
    patches.push({ ring: counterClockwise(around.flatMap((arm) => [arm.right, arm.left])), full: around.some((arm) => arm.wall.height == null) });
  }
  return { arms, patches };
}

/** @param {Point} p */
export const nodeKey = (p) => `${Math.round(p[0] / SAME_SPOT)},${Math.round(p[1] / SAME_SPOT)}`;

/** @param {Wall} wall @param {"a" | "b"} end @returns {Arm} */
function armOf(wall, end) {
  const [at, far] = end === "a" ? [wall.a, wall.b] : [wall.b, wall.a];
  const out = direction(at, far);
  const half = thicknessOf(wall) / 2;
  return { wall, end, at, out, half, left: plus(at, times(leftOf(out), half)), right: plus(at, times(leftOf(out), -half)) };
}

/** Let the left face of one arm meet the right face of the next. @param {Arm} arm @param {Arm} next */
function mitre(arm, next) {
  if (arm === next || Math.abs(cross(arm.out, next.out)) < 0.02) return;
  const corner = meeting(arm.left, arm.out, next.right, next.out);
  if (!corner) return;
  const reach = distance(corner, arm.at);
  const shorter = Math.min(distance(arm.wall.a, arm.wall.b), distance(next.wall.a, next.wall.b));
  if (reach > MITRE_LIMIT * Math.max(arm.half, next.half) || reach > shorter) return;
  arm.left = corner;
  next.right = corner;
}

/**
 * The body of a wall between two distances from its a, mitred where the stretch reaches an end.
 * @param {Wall} wall @param {{a: Arm, b: Arm}} arms @param {number} from @param {number} to
 * @returns {Point[]}
 */
export function stretchBody(wall, arms, from, to) {
  const length = distance(wall.a, wall.b);
  const d = direction(wall.a, wall.b);
  const aside = times(leftOf(d), thicknessOf(wall) / 2);
  /** @param {number} u @returns {[Point, Point]} */
  const across = (u) => {
    const middle = plus(wall.a, times(d, u));
    return [plus(middle, aside), minus(middle, aside)];
  };
  const [startLeft, startRight] = from <= 1e-6 ? [arms.a.left, arms.a.right] : across(from);
  const [endLeft, endRight] = to >= length - 1e-6 ? [arms.b.right, arms.b.left] : across(to);
  return counterClockwise([startRight, endRight, endLeft, startLeft]);
}

/** @param {Point[]} ring @returns {Point[]} */
function counterClockwise(ring) {
  return signedArea(ring) < 0 ? ring.slice().reverse() : ring;
}
