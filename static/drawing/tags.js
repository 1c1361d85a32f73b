/**
 * Where a device's tag and a room's name go, so that words lie over no other words or symbols where there is room.
 * Works in screen pixels at the zoom in force; choices are tried in a fixed order, so that a drawing looks the same twice.
 */

/** @import { Level, Opening, Point, RoomAnswer, Tables, Wall } from "../plan/types.js" */

import { boxOf, inside } from "../geometry/points.js";
import { hasGlass, seatedOpenings, tagOf } from "../plan/lookup.js";
import { Frame } from "./openings.js";
import { roomLabel } from "./rooms.js";

/** @import { RoomLabel } from "./rooms.js" */

/** @typedef {{x: number, y: number, w: number, h: number}} Box middle, width and height */
/** @typedef {{dx: number, dy: number, anchor: "middle" | "start" | "end", crowded?: boolean}} TagPlace pixels from the device; crowded: it is read when its device is chosen, or from nearer */

/** Pixels a foot at which symbols have their full size. */
const FULL = 12;
const [SYMBOL, LINE, LETTER] = [22, 12, 8]; // px
const SMALLEST = 0.82; // letters of tags shrink no further, while symbols do
const [MARK_AT, MARK, BAR] = [9, 9, 6]; // px: the mark of a pane beside its wall, as the overlay sets it; the pane's own bar
const MARGIN = 26; // px about the walls that a phone shows when all of a level is in view
const [AWAY, STEP] = [48, 6]; // px: how far a name is moved at most, by which steps
const CROWDED = 0.12; // share of a tag that may lie over other words and symbols where the zoom leaves little room

/** How much smaller symbols are drawn where the zoom leaves little room. @param {number} scale px a foot */
export const markShare = (scale) => Math.min(1, Math.max(0.62, scale / FULL));

/** @type {TagPlace[]} below, above, right, left, and the corners */
const PLACES = [
  { dx: 0, dy: 22, anchor: "middle" }, { dx: 0, dy: -14, anchor: "middle" }, { dx: 14, dy: 4, anchor: "start" }, { dx: -14, dy: 4, anchor: "end" },
  { dx: 10, dy: 18, anchor: "start" }, { dx: -10, dy: 18, anchor: "end" }, { dx: 10, dy: -10, anchor: "start" }, { dx: -10, dy: -10, anchor: "end" },
];

/**
 * @param {Level} level @param {Box[]} others what tags keep clear of beside symbols @param {Tables} tables @param {number} scale px a foot
 * @returns {Map<string, TagPlace>}
 */
export function placeTags(level, others, tables, scale) {
  const taken = [...others, ...symbolBoxes(level, scale)];
  const place = placing(level, taken, scale);
  return new Map((level.devices ?? []).map((device) => [device.id, place(device.at, tagOf(device, tables))]));
}

/**
 * Places one tag after the other where it lies over the least of what stands already, and keeps its box in `taken`.
 * @param {Level} level @param {Box[]} taken @param {number} scale px a foot
 * @returns {(at: Point, words: string) => TagPlace}
 */
export function placing(level, taken, scale) {
  const share = markShare(scale);
  const letters = Math.max(share, SMALLEST);
  const ends = (level.walls ?? []).flatMap((wall) => [wall.a, wall.b]);
  const edge = share < 1 && ends.length ? boxOf(ends) : null;
  return (at, words) => {
    const [x, y] = onScreen(at, scale);
    const w = words.length * LETTER * letters;
    const near = taken.filter((box) => Math.abs(box.x - x) < 90 && Math.abs(box.y - y) < 60);
    let best = /** @type {TagPlace} */ (PLACES[0]);
    let [least, over] = [Infinity, 0];
    for (const [i, place] of PLACES.entries()) {
      const box = boxOfTag(x, y, place, w, share, letters);
      const hidden = near.reduce((sum, other) => sum + overlap(box, other), 0);
      const outside = edge ? Math.max(0, edge.left * scale - MARGIN - box.x + w / 2, box.x + w / 2 - edge.right * scale - MARGIN) : 0;
      const cost = hidden + outside * LINE + i * 4;
      if (cost < least) [least, best, over] = [cost, place, hidden];
    }
    const crowded = share < 1 && over > CROWDED * w * LINE * letters;
    if (!crowded) taken.push(boxOfTag(x, y, best, w, share, letters));
    return crowded ? { ...best, crowded } : best;
  };
}

/**
 * How far each room's name is moved from its point to the right and down, px, and the boxes that tags keep clear of: the names, and
 * the glass with its marks.
 * @param {Level} level @param {RoomAnswer[]} answers @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @returns {{shifts: Map<string, {x: number, y: number}>, boxes: Box[]}}
 */
export function placeNames(level, answers, units, scale) {
  const symbols = symbolBoxes(level, scale);
  /** @type {Map<string, {x: number, y: number}>} */
  const shifts = new Map();
  const boxes = glassBoxes(level, answers, scale);
  for (const room of level.rooms ?? []) {
    const label = roomLabel(room, answers.find((entry) => entry.id === room.id), units, scale);
    const [x, y] = onScreen(room.at, scale);
    const usual = { x: x + label.aside, y: y - label.lift + (label.turned ? 0 : label.height / 2 - label.size), w: label.width, h: label.height };
    const near = symbols.filter((box) => Math.abs(box.x - usual.x) < AWAY + label.width && Math.abs(box.y - usual.y) < AWAY + label.height);
    let best = usual;
    let least = Infinity;
    for (const [right, down] of near.length ? movesOf(label) : [[0, 0]]) {
      const box = { ...usual, x: usual.x + right, y: usual.y + down };
      const cost = near.reduce((sum, other) => sum + overlap(box, other), 0) + Math.abs(down) + Math.abs(right);
      if (cost < least) [least, best] = [cost, box];
    }
    shifts.set(room.id, { x: best.x - x, y: best.y - usual.y - label.lift });
    boxes.push(best);
  }
  return { shifts, boxes };
}

/** The ways a name may be moved in its room, px to the right and down. @param {RoomLabel} label @returns {number[][]} */
function movesOf({ up, down, left, right }) {
  const steps = Array.from({ length: 2 * AWAY / STEP + 1 }, (_, i) => i * STEP - AWAY);
  const across = steps.filter((step) => step % (2 * STEP) === 0 && step >= -left && step <= right);
  return steps.filter((step) => step >= -up && step <= down).flatMap((step) => across.map((aside) => [aside, step]));
}

/** Where panes lie in the plan, and their marks beside them. @param {Level} level @param {RoomAnswer[]} answers @param {number} scale px a foot @returns {Box[]} */
function glassBoxes(level, answers, scale) {
  const rooms = answers.flatMap((room) => (room.level === level.id ? room.outline ?? [] : [])).map((ring) => ({ ring, box: boxOf(ring) }));
  return seatedOpenings(level).flatMap(([opening, wall]) => (hasGlass(opening) ? panesOf(opening, wall, rooms, scale) : []));
}

/** @typedef {{ring: Point[], box: ReturnType<typeof boxOf>}} Boxed a room's outline in the box about it */

/** @param {Point} p @param {Boxed} room */
const holds = (p, { ring, box }) => box !== null && p[0] >= box.left && p[0] <= box.right && p[1] >= box.bottom && p[1] <= box.top && inside(p, ring);

/** @param {Opening} opening @param {Wall} wall @param {Boxed[]} rooms @param {number} scale @returns {Box[]} */
function panesOf(opening, wall, rooms, scale) {
  const frame = new Frame(wall, opening);
  const { along: d, width, half } = frame;
  const left = frame.at(width / 2, half + 0.5);
  const side = rooms.some((room) => holds(left, room)) ? -1 : 1;
  const count = opening.panes ?? 1;
  const marks = Array.from({ length: count }, (_, i) => boxAt(frame.at(((i + 0.5) / count) * width, side * (half + MARK_AT / scale)), scale, MARK));
  const [x, y] = onScreen(frame.at(width / 2, 0), scale);
  const long = width * scale;
  return [{ x, y, w: Math.abs(d[0]) * long + BAR, h: Math.abs(d[1]) * long + BAR }, ...marks];
}

/** Where symbols and signs stand. @param {Level} level @param {number} scale px a foot @returns {Box[]} */
export function symbolBoxes(level, scale) {
  const size = SYMBOL * markShare(scale);
  return [
    ...(level.devices ?? []).map((device) => boxAt(device.at, scale, size)),
    ...(level.fixtures ?? []).flatMap((fixture) => (fixture.at ? [boxAt(fixture.at, scale, size * 0.7)] : [])),
  ];
}

/** A square about a place. @param {Point} at @param {number} scale px a foot @param {number} size px @returns {Box} */
export function boxAt(at, scale, size) {
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
