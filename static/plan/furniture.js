/**
 * What stands in rooms and hides glass or floor: usual sizes and heights, to be put down as obstructions and edited.
 * Common practice, no source; the plan keeps the outline, base, top and label only, and the drawing reads the label.
 */

/** @import { Point } from "./types.js" */

import { minus, plus, times, unit, leftOf } from "../geometry/points.js";

/**
 * Sizes in feet: width along the back, depth from back to front; base and top above the floor, null to the ceiling.
 * @typedef {{name: string, label: string, group: string, width: number, depth: number, base: number, top: number | null}} Piece
 */

/** @type {Piece[]} */
export const FURNITURE = [
  { name: "stairs", label: "Stairs", group: "Built in", width: 3.5, depth: 11, base: 0, top: 4.5 },
  { name: "fireplace", label: "Fireplace", group: "Built in", width: 6, depth: 2, base: 0, top: null },
  { name: "column", label: "Column", group: "Built in", width: 1, depth: 1, base: 0, top: null },
  { name: "soffit", label: "Soffit", group: "Built in", width: 8, depth: 1, base: 8, top: null },
  { name: "closet", label: "Closet unit", group: "Built in", width: 6, depth: 2, base: 0, top: 8 },
  { name: "counter", label: "Kitchen counter", group: "Kitchen and bath", width: 8, depth: 25 / 12, base: 0, top: 3 },
  { name: "cabinets", label: "Wall cabinets", group: "Kitchen and bath", width: 6, depth: 1, base: 4.5, top: 7 },
  { name: "island", label: "Kitchen island", group: "Kitchen and bath", width: 6, depth: 3.5, base: 0, top: 3 },
  { name: "fridge", label: "Fridge", group: "Kitchen and bath", width: 3, depth: 2.5, base: 0, top: 70 / 12 },
  { name: "range", label: "Range", group: "Kitchen and bath", width: 2.5, depth: 2.25, base: 0, top: 3 },
  { name: "tub", label: "Bath tub", group: "Kitchen and bath", width: 5, depth: 2.5, base: 0, top: 1.75 },
  { name: "bed_wide", label: "Bed, 5' wide", group: "Furniture", width: 5, depth: 80 / 12, base: 0, top: 2 },
  { name: "bed_narrow", label: "Bed, 3'-3\" wide", group: "Furniture", width: 3.25, depth: 75 / 12, base: 0, top: 2 },
  { name: "sofa", label: "Sofa", group: "Furniture", width: 7, depth: 3, base: 0, top: 2.75 },
  { name: "armchair", label: "Armchair", group: "Furniture", width: 3, depth: 3, base: 0, top: 2.75 },
  { name: "dining", label: "Dining table", group: "Furniture", width: 6, depth: 40 / 12, base: 0, top: 2.5 },
  { name: "desk", label: "Desk", group: "Furniture", width: 5, depth: 2.5, base: 0, top: 2.5 },
  { name: "wardrobe", label: "Wardrobe", group: "Furniture", width: 4, depth: 2, base: 0, top: 20 / 3 },
  { name: "bookcase", label: "Bookcase", group: "Furniture", width: 3, depth: 1, base: 0, top: 6 },
];

/**
 * Corners of a rectangle: back left, back right, front right, front left, seen from its front.
 * @param {Point} back the middle of its back @param {number} width @param {number} depth @param {number} facing degrees, where its front looks
 * @returns {Point[]}
 */
export function outlineOf(back, width, depth, facing) {
  const out = unit(facing);
  const right = times(leftOf(out), width / 2);
  const front = plus(back, times(out, depth));
  return [minus(back, right), plus(back, right), plus(front, right), minus(front, right)].map(([x, y]) => [tidy(x), tidy(y)]);
}

/** @param {number} feet */
const tidy = (feet) => Math.round(feet * 1e6) / 1e6;

/** Width and depth of a rectangular outline; null where it is none. @param {Point[]} ring @returns {{width: number, depth: number} | null} */
export function sizeOf(ring) {
  const [a, b, c, d] = ring;
  if (ring.length !== 4 || !a || !b || !c || !d) return null;
  const [wide, deep] = [minus(b, a), minus(d, a)];
  const [width, depth] = [Math.hypot(...wide), Math.hypot(...deep)];
  const square = Math.abs(wide[0] * deep[0] + wide[1] * deep[1]) < 1e-3 * width * depth;
  return square && Math.hypot(...minus(plus(b, deep), c)) < 1e-3 ? { width, depth } : null;
}

/** A rectangular outline with another size; its back stays, and the middle of it. @param {Point[]} ring @param {number} width @param {number} depth @returns {Point[]} */
export function resized(ring, width, depth) {
  const [a, b, , d] = /** @type {[Point, Point, Point, Point]} */ (ring);
  const [along, out] = [minus(b, a), minus(d, a)].map((way) => times(way, 1 / Math.hypot(...way)));
  const middle = times(plus(a, b), 0.5);
  const half = times(/** @type {Point} */ (along), width / 2);
  const deep = times(/** @type {Point} */ (out), depth);
  return [minus(middle, half), plus(middle, half), plus(plus(middle, half), deep), plus(minus(middle, half), deep)].map(([x, y]) => [tidy(x), tidy(y)]);
}
