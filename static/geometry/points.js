/**
 * Arithmetic of points and straight lines in plan, in feet.
 * Knows nothing of walls or devices.
 */

/** @import { Point } from "../plan/types.js" */

/** @param {Point} p @param {Point} q @returns {Point} */
export const plus = (p, q) => [p[0] + q[0], p[1] + q[1]];
/** @param {Point} p @param {Point} q @returns {Point} */
export const minus = (p, q) => [p[0] - q[0], p[1] - q[1]];
/** @param {Point} p @param {number} k @returns {Point} */
export const times = (p, k) => [p[0] * k, p[1] * k];
/** @param {Point} p @param {Point} q */
export const dot = (p, q) => p[0] * q[0] + p[1] * q[1];
/** @param {Point} p @param {Point} q */
export const cross = (p, q) => p[0] * q[1] - p[1] * q[0];
/** @param {Point} p @param {Point} q */
export const distance = (p, q) => Math.hypot(q[0] - p[0], q[1] - p[1]);
/** @param {Point} p @param {Point} q @param {number} share @returns {Point} */
export const between = (p, q, share) => [p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share];
/** A quarter turn to the left. @param {Point} d @returns {Point} */
export const leftOf = (d) => [-d[1], d[0]];

/** The unit vector from p to q; east where they coincide. @param {Point} p @param {Point} q @returns {Point} */
export function direction(p, q) {
  const length = distance(p, q);
  return length < 1e-12 ? [1, 0] : [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
}

/** Degrees from east, 0 up to 360. @param {Point} d */
export function bearing(d) {
  const degrees = (Math.atan2(d[1], d[0]) * 180) / Math.PI;
  return degrees < 0 ? degrees + 360 : degrees;
}

/** @param {number} degrees @returns {Point} */
export function unit(degrees) {
  const radians = (degrees * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}

/** Feet along a→b of the foot of p on that line. @param {Point} p @param {Point} a @param {Point} b */
export function along(p, a, b) {
  return dot(minus(p, a), direction(a, b));
}

/** The nearest point of the stretch a–b to p. @param {Point} p @param {Point} a @param {Point} b @returns {Point} */
export function nearestOn(p, a, b) {
  const length = distance(a, b);
  return length < 1e-12 ? a : between(a, b, Math.min(1, Math.max(0, along(p, a, b) / length)));
}

/**
 * Where the line through p along d meets the line through q along e; null where they are parallel.
 * @param {Point} p @param {Point} d @param {Point} q @param {Point} e
 * @returns {Point | null}
 */
export function meeting(p, d, q, e) {
  const turn = cross(d, e);
  return Math.abs(turn) < 1e-9 ? null : plus(p, times(d, cross(minus(q, p), e) / turn));
}

/** Whether p lies inside a ring (even-odd). @param {Point} p @param {Point[]} ring */
export function inside(p, ring) {
  let within = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [a, b] = [/** @type {Point} */ (ring[i]), /** @type {Point} */ (ring[j])];
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) within = !within;
  }
  return within;
}

/** Signed area of a ring, positive counter-clockwise. @param {Point[]} ring */
export function signedArea(ring) {
  let twice = 0;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    twice += cross(/** @type {Point} */ (ring[j]), /** @type {Point} */ (ring[i]));
  }
  return twice / 2;
}

/**
 * The box about points, grown by a margin; null where there are none.
 * @param {Iterable<Point>} points @param {number} [margin]
 * @returns {{left: number, right: number, bottom: number, top: number} | null}
 */
export function boxOf(points, margin = 0) {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  }
  return left > right ? null : { left: left - margin, right: right + margin, bottom: bottom - margin, top: top + margin };
}
