/**
 * Where a device's tag and a room's name go, so that words lie over no other words or symbols where there is room.
 * Works in screen pixels at the zoom in force; choices are tried in a fixed order, so that a drawing looks the same twice.
 */

/** @import { Level, Point, RoomAnswer, Tables } from "../plan/types.js" */

import { tagOf } from "../plan/lookup.js";
import { roomLabel } from "./rooms.js";

/** @typedef {{x: number, y: number, w: number, h: number}} Box middle, width and height */
/** @typedef {{dx: number, dy: number, anchor: "middle" | "start" | "end", crowded?: boolean}} TagPlace pixels from the device; crowded: it is read when its device is chosen, or from nearer */

/** Pixels a foot at which symbols have their full size. */
const FULL = 12;
const [SYMBOL, LINE, LETTER] = [22, 12, 7]; // px
const SMALLEST = 0.82; // letters of tags shrink no further, while symbols do
const CROWDED = 0.12; // share of a tag that may lie over other words and symbols where the zoom leaves little room

/** How much smaller symbols are drawn where the zoom leaves little room. @param {number} scale px a foot */
export const markShare = (scale) => Math.min(1, Math.max(0.62, scale / FULL));

/** @type {TagPlace[]} below, above, right, left, and the corners */
const PLACES = [
  { dx: 0, dy: 22, anchor: "middle" }, { dx: 0, dy: -14, anchor: "middle" }, { dx: 14, dy: 4, anchor: "start" }, { dx: -14, dy: 4, anchor: "end" },
  { dx: 10, dy: 18, anchor: "start" }, { dx: -10, dy: 18, anchor: "end" }, { dx: 10, dy: -10, anchor: "start" }, { dx: -10, dy: -10, anchor: "end" },
];

/**
 * @param {Level} level @param {Box[]} names boxes of the rooms' names @param {Tables} tables @param {number} scale px a foot
 * @returns {Map<string, TagPlace>}
 */
export function placeTags(level, names, tables, scale) {
  const share = markShare(scale);
  const taken = [...names, ...symbolBoxes(level, scale)];
  /** @type {Map<string, TagPlace>} */
  const places = new Map();
  for (const device of level.devices ?? []) {
    const [x, y] = onScreen(device.at, scale);
    const letters = Math.max(share, SMALLEST);
    const w = tagOf(device, tables).length * LETTER * letters;
    const near = taken.filter((box) => Math.abs(box.x - x) < 90 && Math.abs(box.y - y) < 60);
    let best = /** @type {TagPlace} */ (PLACES[0]);
    let [least, over] = [Infinity, 0];
    for (const [i, place] of PLACES.entries()) {
      const box = boxOfTag(x, y, place, w, share, letters);
      const hidden = near.reduce((sum, other) => sum + overlap(box, other), 0);
      const cost = hidden + i * 4;
      if (cost < least) [least, best, over] = [cost, place, hidden];
    }
    const crowded = share < 1 && over > CROWDED * w * LINE * letters;
    places.set(device.id, crowded ? { ...best, crowded } : best);
    if (!crowded) taken.push(boxOfTag(x, y, best, w, share, letters));
  }
  return places;
}

/**
 * How far each room's name is moved up or down from its point, px, and the box it takes.
 * @param {Level} level @param {RoomAnswer[]} answers @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @returns {{shifts: Map<string, number>, boxes: Box[]}}
 */
export function placeNames(level, answers, units, scale) {
  const symbols = symbolBoxes(level, scale);
  /** @type {Map<string, number>} */
  const shifts = new Map();
  /** @type {Box[]} */
  const boxes = [];
  for (const room of level.rooms ?? []) {
    const label = roomLabel(room, answers.find((entry) => entry.id === room.id), units, scale);
    const [x, y] = onScreen(room.at, scale);
    const middle = label.turned ? 0 : label.height / 2 - label.size;
    let [best, least] = [0, Infinity];
    for (const [i, shift] of [0, 12, -12, 18, -18, 34, -34, 50, -50].entries()) {
      if (shift > label.down || -shift > label.up) continue;
      const box = { x, y: y - label.lift + shift + middle, w: label.width, h: label.height };
      const cost = symbols.reduce((sum, other) => sum + overlap(box, other), 0) + i * 6;
      if (cost < least) [least, best] = [cost, shift];
    }
    best -= label.lift;
    shifts.set(room.id, best);
    boxes.push({ x, y: y + best + middle, w: label.width, h: label.height });
  }
  return { shifts, boxes };
}

/** Where symbols and signs stand. @param {Level} level @param {number} scale px a foot @returns {Box[]} */
export function symbolBoxes(level, scale) {
  const size = SYMBOL * markShare(scale);
  return [
    ...(level.devices ?? []).map((device) => boxAt(device.at, scale, size)),
    ...(level.fixtures ?? []).flatMap((fixture) => (fixture.at ? [boxAt(fixture.at, scale, size * 0.7)] : [])),
  ];
}

/** @param {Point} at @param {number} scale @param {number} size @returns {Box} */
function boxAt(at, scale, size) {
  const [x, y] = onScreen(at, scale);
  return { x, y, w: size, h: size };
}

/** @param {Point} p @param {number} scale @returns {Point} */
const onScreen = (p, scale) => [p[0] * scale, -p[1] * scale];

/** @param {number} x @param {number} y @param {TagPlace} place @param {number} w @param {number} share of symbols @param {number} letters share of the letters @returns {Box} */
function boxOfTag(x, y, place, w, share, letters) {
  const aside = place.anchor === "middle" ? 0 : place.anchor === "start" ? w / 2 : -w / 2;
  return { x: x + place.dx * share + aside, y: y + (place.dy - 4) * share, w, h: LINE * letters };
}

/** Area that two boxes share. @param {Box} one @param {Box} two */
export function overlap(one, two) {
  const wide = (one.w + two.w) / 2 - Math.abs(one.x - two.x);
  const high = (one.h + two.h) / 2 - Math.abs(one.y - two.y);
  return wide > 0 && high > 0 ? wide * high : 0;
}
