/**
 * A small elevation of one pane: the glass in its wall, what of it is covered and what is not, with dimensions.
 */

/** @import { Pane } from "../plan/types.js" */

import { make } from "../drawing/svg.js";
import { distance } from "../geometry/points.js";
import { lengthText } from "../plan/measures.js";

const [WIDTH, HEIGHT] = [320, 224]; // px
const [LEFT, RIGHT, TOP, BOTTOM] = [52, 52, 12, 26]; // px about the wall

/**
 * @param {Pane} pane @param {number} ceiling ft @param {"imperial" | "metric"} units
 * @returns {SVGElement}
 */
export function drawElevation(pane, ceiling, units) {
  const width = distance(...pane.segment);
  const top = Math.max(ceiling, pane.head + 0.5);
  const scale = Math.min((HEIGHT - TOP - BOTTOM) / top, (WIDTH - LEFT - RIGHT) / (width + 1));
  const floor = TOP + top * scale;
  const left = LEFT + (WIDTH - LEFT - RIGHT - width * scale) / 2;
  const x = (/** @type {number} */ u) => left + u * scale;
  const y = (/** @type {number} */ z) => floor - z * scale;
  const ring = (/** @type {[number, number][]} */ points) => `M${points.map(([u, z]) => `${x(u).toFixed(2)} ${y(z).toFixed(2)}`).join("L")}Z`;
  const glass = ring([[0, pane.sill], [width, pane.sill], [width, pane.head], [0, pane.head]]);
  const whole = pane.status === "uncovered";
  const missed = whole ? glass : pane.gaps.map(ring).join("");
  const fractions = pane.best?.fraction ?? 0;
  const words = (/** @type {number} */ px, /** @type {number} */ py, /** @type {string} */ text, /** @type {string} */ anchor = "middle") => make("text", { x: px, y: py, "text-anchor": anchor }, [text]);
  const stretches = pane.status === "partial" ? pane.stretches.filter(([from, to]) => (to - from) * scale > 3) : [];
  return make("svg", { class: "elevation", viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", "aria-label": `Elevation: ${Math.round(fractions * 100)} percent of the pane is covered. ${pane.why}` }, [
    make("defs", {}, [make("pattern", { id: "elevation-missed", width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, [make("rect", { class: "paper-fill", width: 6, height: 6 }), make("path", { class: "missed-line", d: "M0 0V6M0 0H6" })])]),
    make("path", { class: "wall-face", d: `M${LEFT - 12} ${y(top)}H${WIDTH - RIGHT + 12}V${floor}H${LEFT - 12}Z` }),
    make("path", { class: "pane-seen", d: glass }),
    make("path", { class: "pane-missed", d: missed, fill: "url(#elevation-missed)" }),
    make("path", { class: "pane-frame", d: glass }),
    make("path", { class: "floor-line", d: `M${LEFT - 24} ${floor}H${WIDTH - RIGHT + 24}` }),
    make("path", { class: "dimension", d: `M${x(0)} ${floor + 4}v8M${x(width)} ${floor + 4}v8M${x(0)} ${floor + 8}H${x(width)}${stretches.map(([from, to]) => `M${x(from)} ${y(pane.sill) + 3}v6M${x(to)} ${y(pane.sill) + 3}v6M${x(from)} ${y(pane.sill) + 6}H${x(to)}`).join("")}` }),
    make("path", { class: "dimension", d: `M${LEFT - 20} ${y(pane.head)}h10M${LEFT - 20} ${y(pane.sill)}h10M${LEFT - 16} ${y(pane.head)}V${floor}` }),
    words((x(0) + x(width)) / 2, floor + 21, lengthText(width, units)),
    ...stretches.map(([from, to]) => words((x(from) + x(to)) / 2, y(pane.sill) + 18, lengthText(to - from, units, 4))),
    words(LEFT - 22, y(pane.head) + 4, lengthText(pane.head, units, 2), "end"),
    ...(pane.sill > 0.05 ? [words(LEFT - 22, y(pane.sill) + 4, lengthText(pane.sill, units, 2), "end")] : []),
    words(WIDTH - RIGHT + 16, (y(pane.head) + y(pane.sill)) / 2 + 4, `${Math.round(fractions * 100)}%`, "start"),
  ]);
}
