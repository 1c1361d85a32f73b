/**
 * The grid behind the plan, at a step that suits the zoom, and the step that the pointer snaps to.
 */

/** @import { View } from "./view.js" */

import { make } from "./svg.js";

const IMPERIAL = [1 / 24, 1 / 12, 0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];
const METRIC = [0.01, 0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10, 20, 50, 100].map((m) => m / 0.3048);

/** The least round step that is at least some pixels wide. @param {number} scale px a foot @param {string} units @param {number} least px */
export function stepFor(scale, units, least) {
  const steps = units === "metric" ? METRIC : IMPERIAL;
  return steps.find((step) => step * scale >= least) ?? /** @type {number} */ (steps.at(-1));
}

/** @param {View} view @param {string} units */
export function drawGrid(view, units) {
  const { width, height } = view.size;
  const [left, top] = view.toPlan(0, 0);
  const [right, bottom] = view.toPlan(width, height);
  const lines = (/** @type {number} */ step) => {
    let d = "";
    for (let x = Math.ceil(left / step) * step; x <= right; x += step) d += `M${x.toFixed(4)} ${-top}V${-bottom}`;
    for (let y = Math.ceil(bottom / step) * step; y <= top; y += step) d += `M${left} ${(-y).toFixed(4)}H${right}`;
    return d;
  };
  return [
    make("path", { class: "grid fine", d: lines(stepFor(view.scale, units, 14)) }),
    make("path", { class: "grid", d: lines(stepFor(view.scale, units, 70)) }),
  ];
}
