/**
 * Way-points of a home run, kept in the device's own note as a line "cable via (12.5, 6) (20, 6)": the server's grammar.
 */

/** @import { Device, Point } from "./types.js" */

const LINE = /^[ \t]*cable[ \t]+via[ \t:]*(\(.*)$/im;
const POINT = /\(\s*([-+]?(?:\d+(?:\.\d*)?|\.\d+))\s*,\s*([-+]?(?:\d+(?:\.\d*)?|\.\d+))\s*\)/g;
export const MOST_WAYPOINTS = 20;

/** @param {Device} device @returns {Point[]} */
export function waypointsOf(device) {
  const line = LINE.exec(device.note ?? "");
  return line ? [...(line[1] ?? "").matchAll(POINT)].map((found) => /** @type {Point} */ ([Number(found[1]), Number(found[2])])) : [];
}

/** The device's note with other way-points; null where nothing is left to note. @param {Device} device @param {Point[]} points */
export function noteWith(device, points) {
  const rest = (device.note ?? "").split("\n").filter((line) => !LINE.test(line)).join("\n").trim();
  const line = points.length ? `cable via ${points.map(([x, y]) => `(${short(x)}, ${short(y)})`).join(" ")}` : "";
  return [rest, line].filter(Boolean).join("\n") || null;
}

/** @param {number} feet */
const short = (feet) => String(Math.round(feet * 1000) / 1000);
