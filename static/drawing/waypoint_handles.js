/**
 * Handles on the run of the one device selected: its way-points, and between them where a new one can be drawn out.
 */

/** @import { Pull } from "../plan/cable_types.js" */
/** @import { Device, Point } from "../plan/types.js" */

import { between, distance } from "../geometry/points.js";
import { waypointsOf } from "../plan/waypoints.js";
import { levelStretches } from "./cable_runs.js";
import { make, onPaper } from "./svg.js";

const LEAST_LEG = 44; // px that a leg must have to be pulled at
const SAME = 2e-3; // ft

/** @param {Pull} pull @param {Device} device @param {number} run feet above the datum @param {number} scale px a foot */
export function waypointHandles(pull, device, run, scale) {
  const points = waypointsOf(device);
  const first = levelStretches(pull.route ?? [], run)[0] ?? [];
  const handles = points.map((point, i) => mark(point, `via${i}`, device.id, "M0 -7L7 0L0 7L-7 0Z", "way-point", `Way-point ${i + 1}; drag to move`));
  let passed = 0;
  for (const [i, corner] of first.entries()) {
    const before = first[i - 1];
    if (before && distance(before, corner) * scale > LEAST_LEG) {
      handles.push(mark(between(before, corner, 0.5), `via+${passed}`, device.id, "M-4 0H4M0 -4V4", "way-point new", "Drag to lead the run by here"));
    }
    const next = points[passed];
    if (next && distance(next, corner) < SAME) passed++;
  }
  return handles;
}

/** @param {Point} at @param {string} what @param {string} id @param {string} shape @param {string} kind @param {string} words */
function mark(at, what, id, shape, kind, words) {
  return onPaper(at, [
    make("circle", { class: "reach-area", r: 12 }),
    ...(kind.endsWith("new") ? [make("circle", { class: "way-point-back", r: 7 })] : []),
    make("path", { class: kind, d: shape }),
    make("title", {}, [words]),
  ], { class: "handle", "data-handle": what, "data-id": id });
}
