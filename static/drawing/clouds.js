/**
 * Two revisions compared, on the drawing of the level in view: clouds about what changed, triangles with the newer
 * revision's letter, and what was: old places in broken lines, arrows to the new ones, crosses on what is gone.
 */

/** @import { Change, Cloud, Comparison } from "../plan/history_types.js" */
/** @import { Point } from "../plan/types.js" */

import { distance } from "../geometry/points.js";
import { middleOf } from "../plan/lookup.js";
import { make, onPaper, segment, through } from "./svg.js";

const LEAST_ARROW = 34; // px of a move that has room for an arrow
const CLEAR = 14; // px from a place to its arrow

/** @param {Comparison} comparison @param {string} levelId @param {string} mark @param {number} scale px a foot */
export function drawClouds(comparison, levelId, mark, scale) {
  const changes = comparison.changes.filter((change) => (change.level ?? change.was_level) === levelId);
  const clouds = comparison.clouds.filter((cloud) => cloud.level === levelId);
  return [
    make("g", { class: "what-was" }, changes.flatMap((change) => drawOld(change, scale))),
    make("g", { class: "cloud-lines" }, clouds.map((cloud) => make("path", { class: "cloud", d: cloud.path }))),
    make("g", { class: "cloud-marks" }, clouds.map((cloud) => drawTriangle(cloud, mark))),
  ];
}

/** @param {Cloud} cloud @param {string} mark */
function drawTriangle(cloud, mark) {
  const half = 12 + 3 * Math.max(0, mark.length - 2);
  return onPaper(cloud.at, [
    make("path", { class: "triangle", d: `M${-half} -4L0 ${-4 - 1.73 * half}L${half} -4Z` }),
    make("text", { class: "triangle-mark", y: -9 }, [mark]),
    make("text", { class: "cloud-numbers", x: half + 3, y: -9 }, [cloud.words]),
  ]);
}

/** @param {Change} change @param {number} scale */
function drawOld(change, scale) {
  const { was_place: was } = change;
  if (!was || (change.what !== "moved" && change.what !== "removed")) return [];
  const parts = [ghost(was)];
  if (change.what === "removed") parts.push(onPaper(middleOf(was), [make("path", { class: "taken-out", d: "M-8 -8L8 8M-8 8L8 -8" })]));
  else parts.push(...change.moves.filter(([from, to]) => distance(from, to) * scale > LEAST_ARROW).flatMap(([from, to]) => arrow(from, to, scale)));
  return parts;
}

/** @param {Point[]} was */
function ghost(was) {
  const [one, two] = was;
  if (one && !two) return onPaper(one, [make("circle", { class: "ghost-place", r: 10 })]);
  if (one && two && was.length === 2) return make("path", { class: "ghost-place", d: segment(one, two) });
  return make("path", { class: "ghost-place", d: through(was, true) });
}

/** @param {Point} from @param {Point} to @param {number} scale */
function arrow(from, to, scale) {
  const share = CLEAR / scale / distance(from, to);
  const along = (/** @type {number} */ part) => /** @type {Point} */ ([from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])]);
  const angle = Math.atan2(from[1] - to[1], to[0] - from[0]) * 180 / Math.PI;
  return [
    make("path", { class: "moved", d: segment(along(share), along(1 - share)) }),
    onPaper(along(1 - share), [make("path", { class: "moved-head", d: "M0 0L-9 4V-4Z", transform: `rotate(${angle.toFixed(1)})` })]),
  ];
}
