/**
 * What stands in rooms and hides glass or floor: usual sizes and heights, to be put down as obstructions and edited.
 * Common practice, no source; the plan keeps the outline, base, top and label only, and the drawing reads the label.
 */

/** @import { Point } from "./types.js" */

import { minus, plus, times, unit, leftOf } from "../geometry/points.js";

/**
 * Sizes in feet: width along the back, depth from back to front; base and top above the floor, null to the ceiling;
 * `blocks`: how many it is put down as, each higher than the one before it, as a flight of stairs rises.
 * @typedef {{name: string, label: string, group: string, width: number, depth: number, base: number, top: number | null, blocks?: number}} Piece
 */

/** @type {Piece[]} */
export const FURNITURE = [
  { name: "stairs", label: "Stairs", group: "Built in", width: 3.5, depth: 11, base: 0, top: 4.5 },
  { name: "flight", label: "Stair up", group: "Built in", width: 3.25, depth: 13, base: 0, top: null, blocks: 3 },
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
  { name: "hood", label: "Range hood", group: "Kitchen and bath", width: 2.5, depth: 1.5, base: 5.5, top: null },
  { name: "sink", label: "Sink", group: "Kitchen and bath", width: 3, depth: 25 / 12, base: 0, top: 3 },
  { name: "toilet", label: "Toilet", group: "Kitchen and bath", width: 1.6, depth: 2.4, base: 0, top: 2.5 },
  { name: "vanity", label: "Vanity", group: "Kitchen and bath", width: 4, depth: 1.8, base: 0, top: 2.8 },
  { name: "shower", label: "Shower", group: "Kitchen and bath", width: 3, depth: 3, base: 0, top: 20 / 3 },
  { name: "washer", label: "Washer", group: "Laundry and garage", width: 2.4, depth: 2.4, base: 0, top: 3.2 },
  { name: "dryer", label: "Dryer", group: "Laundry and garage", width: 2.4, depth: 2.4, base: 0, top: 3.2 },
  { name: "heater", label: "Water heater", group: "Laundry and garage", width: 2, depth: 2, base: 0, top: 5 },
  { name: "lockers", label: "Lockers", group: "Laundry and garage", width: 6, depth: 1.9, base: 0, top: 7 },
  { name: "shelves", label: "Shelves", group: "Laundry and garage", width: 3, depth: 1.3, base: 0, top: 7 },
  { name: "workbench", label: "Workbench", group: "Laundry and garage", width: 8, depth: 2, base: 0, top: 3 },
  { name: "car", label: "Car", group: "Laundry and garage", width: 6, depth: 15, base: 0, top: 5 },
  { name: "bed_wide", label: "Bed, 5' wide", group: "Furniture", width: 5, depth: 80 / 12, base: 0, top: 2 },
  { name: "bed_narrow", label: "Bed, 3'-3\" wide", group: "Furniture", width: 3.25, depth: 75 / 12, base: 0, top: 2 },
  { name: "sofa", label: "Sofa", group: "Furniture", width: 7, depth: 3, base: 0, top: 2.75 },
  { name: "armchair", label: "Armchair", group: "Furniture", width: 3, depth: 3, base: 0, top: 2.75 },
  { name: "dining", label: "Dining table", group: "Furniture", width: 6, depth: 40 / 12, base: 0, top: 2.5 },
  { name: "low_table", label: "Low table", group: "Furniture", width: 3.6, depth: 2.6, base: 0, top: 1.4 },
  { name: "sideboard", label: "Sideboard", group: "Furniture", width: 6, depth: 1.5, base: 0, top: 3 },
  { name: "dresser", label: "Dresser", group: "Furniture", width: 5, depth: 1.7, base: 0, top: 3 },
  { name: "seat", label: "Window seat", group: "Furniture", width: 5, depth: 1.6, base: 0, top: 1.5 },
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

/**
 * A piece as the obstructions that it is put down as: one, or the blocks of a flight from its front, the foot, up to its
 * back. The middle one has the name, so that it stands there once.
 * @param {Piece} piece @param {Point[]} ring as outlineOf gives it @param {number} ceiling ft
 * @returns {{polygon: Point[], base: number, top: number | null, label: string}[]}
 */
export function blocksOf(piece, ring, ceiling) {
  const { base, top, label, blocks = 1 } = piece;
  if (blocks === 1) return [{ polygon: ring, base, top, label }];
  const [backLeft, backRight, frontRight, frontLeft] = /** @type {[Point, Point, Point, Point]} */ (ring);
  /** @param {Point} front @param {Point} back @param {number} share @returns {Point} */
  const at = (front, back, share) => [tidy(front[0] + (back[0] - front[0]) * share), tidy(front[1] + (back[1] - front[1]) * share)];
  return Array.from({ length: blocks }, (_, i) => {
    const [low, high] = [i / blocks, (i + 1) / blocks];
    const polygon = [at(frontLeft, backLeft, high), at(frontRight, backRight, high), at(frontRight, backRight, low), at(frontLeft, backLeft, low)];
    return { polygon, base, top: tidy(base + ((top ?? ceiling) - base) * high), label: i === Math.floor(blocks / 2) ? label : "Stair" };
  });
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
