/**
 * How a picture lies under a level: where its pixels are in the plan, and the placement after it was scaled, turned or
 * moved. Pure; the same meaning as the server's: pixel (u, v) lies at origin + scale · turned (u, −v).
 */

/** @import { Point } from "./types.js" */

import { bearing, direction, distance, minus, plus, times, unit } from "../geometry/points.js";

/**
 * @typedef {{picture: string, scale: number, origin: Point, turn: number, fade: number, locked: boolean, shown: boolean}} Placement
 * @typedef {{width: number, height: number}} Size in pixels
 */

const [LEAST, MOST] = [1e-5, 100]; // ft a pixel

/** @param {Point} d @param {number} degrees @returns {Point} */
function turned(d, degrees) {
  const [cos, sin] = unit(degrees);
  return [d[0] * cos - d[1] * sin, d[0] * sin + d[1] * cos];
}

/** Where a pixel lies in the plan. @param {Placement} placement @param {number} u @param {number} v @returns {Point} */
export const pixelAt = (placement, u, v) => plus(placement.origin, times(turned([u, -v], placement.turn), placement.scale));

/** The corners of the picture in the plan. @param {Placement} placement @param {Size} size @returns {Point[]} */
export const cornersOf = (placement, { width, height }) => [pixelAt(placement, 0, 0), pixelAt(placement, width, 0), pixelAt(placement, width, height), pixelAt(placement, 0, height)];

/** The place of the picture's middle. @param {Placement} placement @param {Size} size */
export const middleOf = (placement, { width, height }) => pixelAt(placement, width / 2, height / 2);

/** @param {Placement} placement @param {Point} by @returns {Placement} */
export const movedBy = (placement, by) => ({ ...placement, origin: plus(placement.origin, by) });

/** Scaled about a place that stays where it is. @param {Placement} placement @param {Point} about @param {number} factor @returns {Placement} */
export function scaledAbout(placement, about, factor) {
  const scale = Math.min(MOST, Math.max(LEAST, placement.scale * factor));
  return { ...placement, scale, origin: plus(about, times(minus(placement.origin, about), scale / placement.scale)) };
}

/** Turned about a place that stays where it is. @param {Placement} placement @param {Point} about @param {number} degrees @returns {Placement} */
export function turnedAbout(placement, about, degrees) {
  const turn = ((((placement.turn + degrees) % 360) + 540) % 360) - 180;
  return { ...placement, turn: Math.round(turn * 1e6) / 1e6, origin: plus(about, turned(minus(placement.origin, about), degrees)) };
}

/** Scaled so that two places are a true distance apart; the first stays. @param {Placement} placement @param {Point} p @param {Point} q @param {number} feet @returns {Placement} */
export const withDistance = (placement, p, q, feet) => scaledAbout(placement, p, feet / distance(p, q));

/** Turned so that the line through two places is level or plumb, whichever is nearer; the first stays. @param {Placement} placement @param {Point} p @param {Point} q @returns {Placement} */
export function levelled(placement, p, q) {
  const angle = bearing(direction(p, q));
  return turnedAbout(placement, p, Math.round(angle / 90) * 90 - angle);
}

/**
 * The transform from the picture's pixels to the screen's, as CSS's matrix takes it.
 * @param {Placement} placement @param {number} zoom px a foot @param {{x: number, y: number}} origin where the plan's origin is on the screen
 */
export function matrixOf(placement, zoom, origin) {
  const [cos, sin] = unit(placement.turn);
  const k = zoom * placement.scale;
  const at = [origin.x + zoom * placement.origin[0], origin.y - zoom * placement.origin[1]];
  return [k * cos, -k * sin, k * sin, k * cos, ...at];
}
