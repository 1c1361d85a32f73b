/**
 * Arcs as short chords: a circle through three points, and the corners of a run that stays within a distance of it.
 */

/** @import { Point } from "../plan/types.js" */

import { cross, distance, minus, plus, times, unit } from "./points.js";

const MOST = 96; // chords of one arc

/**
 * Corners of the arc from p to q by way of r.
 * @param {Point} p @param {Point} q @param {Point} r @param {number} within ft that a chord may lie off the arc
 * @returns {{corners: Point[], radius: number, off: number} | null} `off`: how far the chords lie off it; null where the three lie in line
 */
export function arcCorners(p, q, r, within) {
  const [u, v] = [minus(q, p), minus(r, p)];
  const twice = 2 * cross(u, v);
  if (Math.abs(twice) < 1e-4 * distance(p, q)) return null;
  const [uu, vv] = [u[0] ** 2 + u[1] ** 2, v[0] ** 2 + v[1] ** 2];
  const centre = plus(p, [(v[1] * uu - u[1] * vv) / twice, (u[0] * vv - v[0] * uu) / twice]);
  const radius = distance(centre, p);
  const [start, end, by] = [p, q, r].map((at) => Math.atan2(at[1] - centre[1], at[0] - centre[0]));
  const round = (/** @type {number} */ angle) => ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const ahead = round((end ?? 0) - (start ?? 0));
  const sweep = round((by ?? 0) - (start ?? 0)) < ahead ? ahead : ahead - 2 * Math.PI;
  const step = 2 * Math.acos(Math.max(0, 1 - within / radius));
  const count = Math.min(MOST, Math.max(2, Math.ceil(Math.abs(sweep) / step - 1e-9)));
  const corners = Array.from({ length: count + 1 }, (_, i) => plus(centre, times(unit(((((start ?? 0) + (sweep * i) / count) * 180) / Math.PI)), radius)));
  return { corners: [p, ...corners.slice(1, -1), q], radius, off: radius * (1 - Math.cos(sweep / count / 2)) };
}
