/**
 * Windows, doors and cased openings in plan, as the trade draws them: glazing lines, leaf and swing, sliding panels,
 * the overhead door's dashed travel, the cased opening's header.
 */

/** @import { Level, Opening, Point, Wall } from "../plan/types.js" */

import { thicknessOf } from "../geometry/joints.js";
import { direction, leftOf, plus, times } from "../geometry/points.js";
import { OPENING_WORDS, hasGlass, seatedOpenings } from "../plan/lookup.js";
import { make, segment, through, xy } from "./svg.js";

/** Places about an opening: u feet along the wall from the first jamb, v feet to the left of the centreline. */
export class Frame {
  /** @param {Wall} wall @param {Opening} opening */
  constructor(wall, opening) {
    this.along = direction(wall.a, wall.b);
    this.left = leftOf(this.along);
    this.start = plus(wall.a, times(this.along, opening.offset));
    this.width = opening.width;
    this.half = thicknessOf(wall) / 2;
  }

  /** @param {number} u @param {number} v @returns {Point} */
  at(u, v) {
    return plus(this.start, plus(times(this.along, u), times(this.left, v)));
  }

  /** @param {number} u0 @param {number} v0 @param {number} u1 @param {number} v1 */
  line(u0, v0, u1, v1) {
    return segment(this.at(u0, v0), this.at(u1, v1));
  }

  /** @param {number} u0 @param {number} v0 @param {number} u1 @param {number} v1 */
  box(u0, v0, u1, v1) {
    return through([this.at(u0, v0), this.at(u1, v0), this.at(u1, v1), this.at(u0, v1)], true);
  }
}

/**
 * @param {Level} level @param {(opening: Opening, wall: Wall) => 1 | -1} side to which a door swings: left of its wall is 1
 * @returns {SVGElement[]}
 */
export function drawOpenings(level, side) {
  return seatedOpenings(level).map(([opening, wall]) => drawOpening(opening, wall, opening.kind === "door" ? side(opening, wall) : 1));
}

/** @param {Opening} opening @param {Wall} wall @param {1 | -1} side */
export function drawOpening(opening, wall, side) {
  const frame = new Frame(wall, opening);
  const { width: w, half: h } = frame;
  const sunk = opening.kind === "window" ? 0 : h;
  return make("g", { class: `opening ${opening.kind}`, "data-id": opening.id, "data-family": "openings", role: "img", "aria-label": `${OPENING_WORDS[opening.kind]} ${opening.id}` }, [
    ...(opening.kind === "window" ? [] : [make("path", { class: "gap", d: frame.box(0, -h, w, h) })]), // a sill fills it
    ...parts(opening, frame, side),
    make("path", { class: "jamb", d: frame.line(0, -h, 0, h) + frame.line(w, -h, w, h) }),
    make("path", { class: "touch", d: segment(frame.at(0, 0), frame.at(w, 0)), "stroke-width": 2 * h + sunk }),
  ]);
}

/** @param {Opening} opening @param {Frame} frame @param {1 | -1} side @returns {SVGElement[]} */
function parts(opening, frame, side) {
  if (opening.kind === "window") return windowParts(opening, frame);
  if (opening.kind === "cased") {
    return [make("path", { class: "header", d: frame.line(0, frame.half, frame.width, frame.half) + frame.line(0, -frame.half, frame.width, -frame.half) })];
  }
  switch (opening.leaf ?? "swing") {
    case "slide": return slidingParts(opening, frame);
    case "overhead": return overheadParts(frame, side);
    case "fixed": return [make("path", { class: "glazing", d: frame.box(0, -0.06, frame.width, 0.06) })];
    default: return swingParts(opening, frame, side);
  }
}

/** @param {Opening} opening @param {Frame} frame */
function windowParts(opening, frame) {
  const { width: w, half: h } = frame;
  const lites = opening.panes ?? 1;
  let mullions = "";
  for (let lite = 1; lite < lites; lite++) mullions += frame.line((w * lite) / lites, -h, (w * lite) / lites, h);
  const glass = h * 0.26;
  return [
    make("path", { class: "sill", d: frame.box(0, -h, w, h) }),
    make("path", { class: "glazing", d: frame.line(0, -glass, w, -glass) + frame.line(0, glass, w, glass) }),
    ...(mullions ? [make("path", { class: "mullion", d: mullions })] : []),
  ];
}

/** @param {Opening} opening @param {Frame} frame @param {1 | -1} side */
function swingParts(opening, frame, side) {
  const { width: w, half: h } = frame;
  const pairs = w > 4.5 ? 2 : 1; // a wide door is drawn as a pair of leaves
  const leaf = w / pairs;
  const thick = Math.min(0.14, h);
  /** @param {boolean} atStart */
  const one = (atStart) => {
    const [hinge, way] = atStart ? [0, 1] : [w, -1];
    const tip = frame.at(hinge, side * (h + leaf));
    const shut = frame.at(hinge + way * leaf, side * h);
    const turn = atStart === (side > 0) ? 1 : 0;
    return [
      make("path", { class: "swing", d: `M${xy(tip)}A${leaf} ${leaf} 0 0 ${turn} ${xy(shut)}` }),
      make("path", { class: hasGlass(opening) ? "leaf glazed" : "leaf", d: frame.box(hinge, side * h, hinge + way * thick, side * (h + leaf)) }),
    ];
  };
  return pairs === 2 ? [...one(true), ...one(false)] : one(opening.hinge !== "b");
}

/** @param {Opening} opening @param {Frame} frame */
function slidingParts(opening, frame) {
  const { width: w, half: h } = frame;
  const count = Math.max(2, opening.panes ?? 2);
  const each = w / count;
  const [lap, thick] = [Math.min(0.12, each * 0.08), h * 0.42];
  const panels = Array.from({ length: count }, (_, i) => frame.box(Math.max(0, i * each - lap), i % 2 ? 0.03 : -0.03, Math.min(w, (i + 1) * each + lap), i % 2 ? thick : -thick));
  return [
    make("path", { class: "sill", d: frame.line(0, -h, w, -h) + frame.line(0, h, w, h) }),
    make("path", { class: hasGlass(opening) ? "leaf glazed" : "leaf", d: panels.join("") }),
  ];
}

/** @param {Frame} frame @param {1 | -1} side */
function overheadParts(frame, side) {
  const { width: w, half: h } = frame;
  const travel = Math.min(7, w * 0.5);
  return [
    make("path", { class: "leaf", d: frame.box(0, -side * h * 0.75, w, -side * h * 0.2) }),
    make("path", { class: "header", d: frame.line(0.3, side * h, 0.3, side * (h + travel)) + frame.line(w - 0.3, side * h, w - 0.3, side * (h + travel)) + frame.line(0.3, side * (h + travel), w - 0.3, side * (h + travel)) }),
  ];
}
