/**
 * Many chosen things brought on one line, to equal gaps, to one distance off their walls, or to the middle of the room's
 * wall. Pure: a level in, the changed level and what stays out. Openings move along their wall and nowhere else.
 */

/** @import { Fixture, Level, Opening, Point, Wall } from "./types.js" */
/** @import { Found } from "./lookup.js" */

import { boxOf, cross, direction, distance, dot, leftOf, minus, nearestOn, plus, times } from "../geometry/points.js";
import { movedFixture } from "./edits.js";
import { find, levelBelow, placeOf, seatedOpenings, wallOf } from "./lookup.js";
import { whyNoSeat } from "./openings_keep.js";
import { stretchAt } from "./stretches.js";

/** @typedef {"left" | "upright" | "right" | "top" | "level" | "bottom" | "across" | "along" | "off" | "room" | "below"} Way */
/** @typedef {{level: Level, moved: number, stays: string[]}} Aligned `stays`: why a thing was left where it was */
/** @typedef {{id: string, box: {left: number, right: number, bottom: number, top: number}, opening: Opening | null, wall: Wall | null}} Piece */

const [ABOVE, SLACK] = [1, 1e-6]; // ft: how far apart walls of two levels may lie that stand over one another

/**
 * @param {import("./types.js").Plan} plan @param {Level} level @param {Set<string>} ids @param {Way} way
 * @returns {Aligned}
 */
export function aligned(plan, level, ids, way) {
  const found = [...ids].map((id) => find(plan, id)).filter((entry) => entry !== undefined && entry.level.id === level.id);
  const stays = found.filter((entry) => entry && (entry.family === "walls" || entry.family === "rooms")).map((entry) => `${entry?.thing.id}: ${entry?.family === "walls" ? "a wall is moved by dragging it" : "a room's name stays in its room"}`);
  const pieces = found.flatMap((entry) => (entry ? pieceOf(entry) : []));
  const chosen = way === "room" || way === "below" ? pieces.filter((piece) => piece.opening) : way === "off" ? pieces.filter((piece) => !piece.opening) : pieces;
  for (const piece of pieces) if (!chosen.includes(piece)) stays.push(`${piece.id}: ${piece.opening ? "it keeps to its wall" : "it rides on no wall"}`);
  const wanted = shiftsFor(plan, level, chosen, way, stays);
  return moved(level, plan.units ?? "imperial", chosen, wanted, stays);
}

/** @param {Found} entry @returns {Piece[]} */
function pieceOf(entry) {
  const { thing, level, family } = entry;
  if (family === "walls" || family === "rooms") return [];
  if (family === "openings") {
    const wall = wallOf(level, thing.wall);
    if (!wall) return [];
    const d = direction(wall.a, wall.b);
    const box = boxOf([plus(wall.a, times(d, thing.offset)), plus(wall.a, times(d, thing.offset + thing.width))]);
    return box ? [{ id: thing.id, box, opening: thing, wall }] : [];
  }
  const box = boxOf(family === "fixtures" && thing.polygon ? thing.polygon : [placeOf(entry)]);
  return box ? [{ id: thing.id, box, opening: null, wall: null }] : [];
}

/** How far each is to move, by id. @param {import("./types.js").Plan} plan @param {Level} level @param {Piece[]} pieces @param {Way} way @param {string[]} stays @returns {Map<string, Point>} */
function shiftsFor(plan, level, pieces, way, stays) {
  const all = boxOf(pieces.flatMap(({ box }) => /** @type {Point[]} */ ([[box.left, box.bottom], [box.right, box.top]])));
  if (!all) return new Map();
  const middle = (/** @type {{left: number, right: number, bottom: number, top: number}} */ box) => /** @type {Point} */ ([(box.left + box.right) / 2, (box.bottom + box.top) / 2]);
  const centre = middle(all);
  /** @param {(piece: Piece) => Point} by */
  const each = (by) => new Map(pieces.map((piece) => [piece.id, by(piece)]));
  switch (way) {
    case "left": return each(({ box }) => [all.left - box.left, 0]);
    case "right": return each(({ box }) => [all.right - box.right, 0]);
    case "top": return each(({ box }) => [0, all.top - box.top]);
    case "bottom": return each(({ box }) => [0, all.bottom - box.bottom]);
    case "upright": return each(({ box }) => [centre[0] - middle(box)[0], 0]);
    case "level": return each(({ box }) => [0, centre[1] - middle(box)[1]]);
    case "across": return spread(pieces, 0);
    case "along": return spread(pieces, 1);
    case "off": return offWalls(level, pieces, middle, stays);
    case "room": return inRooms(level, pieces);
    case "below": return overBelow(plan, level, pieces, stays);
  }
}

/** Equal gaps between the first and the last, which stay. @param {Piece[]} pieces @param {0 | 1} axis @returns {Map<string, Point>} */
function spread(pieces, axis) {
  const [low, high] = axis === 0 ? /** @type {const} */ (["left", "right"]) : /** @type {const} */ (["bottom", "top"]);
  const sorted = pieces.slice().sort((one, two) => one.box[low] + one.box[high] - two.box[low] - two.box[high]);
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (!first || !last || sorted.length < 3) return new Map();
  const filled = sorted.reduce((sum, { box }) => sum + box[high] - box[low], 0);
  const gap = (last.box[high] - first.box[low] - filled) / (sorted.length - 1);
  let here = first.box[low];
  return new Map(sorted.map(({ id, box }) => {
    const by = here - box[low];
    here += box[high] - box[low] + gap;
    return [id, axis === 0 ? [by, 0] : [0, by]];
  }));
}

/** Each as far from the face of its nearest wall as the one chosen first is from its own. @param {Level} level @param {Piece[]} pieces @param {(box: Piece["box"]) => Point} middle @param {string[]} stays @returns {Map<string, Point>} */
function offWalls(level, pieces, middle, stays) {
  /** @type {Map<string, Point>} */
  const shifts = new Map();
  /** @type {number | null} */
  let wanted = null;
  for (const { id, box } of pieces) {
    const at = middle(box);
    const near = (level.walls ?? []).map((wall) => ({ wall, foot: nearestOn(at, wall.a, wall.b) })).sort((one, two) => distance(one.foot, at) - distance(two.foot, at))[0];
    if (!near) {
      stays.push(`${id}: no wall is near`);
      continue;
    }
    const left = leftOf(direction(near.wall.a, near.wall.b));
    const out = times(left, dot(minus(at, near.foot), left) < 0 ? -1 : 1);
    // From the face to the nearest side of what stands there, so that a bench and a lamp keep the same room behind them.
    const half = Math.abs(out[0]) * (box.right - box.left) / 2 + Math.abs(out[1]) * (box.top - box.bottom) / 2;
    const gap = dot(minus(at, near.foot), out) - (near.wall.thickness ?? 0.375) / 2 - half;
    wanted ??= gap;
    shifts.set(id, times(out, wanted - gap));
  }
  return shifts;
}

/** Openings in the middle of their room's stretch of the wall; several of one stretch with equal gaps. @param {Level} level @param {Piece[]} pieces @returns {Map<string, Point>} */
function inRooms(level, pieces) {
  /** @type {Map<string, {wall: Wall, from: number, to: number, openings: Opening[]}>} */
  const stretches = new Map();
  for (const { opening, wall } of pieces) {
    if (!opening || !wall) continue;
    const { from, to } = stretchAt(wall, level.walls ?? [], opening.offset + opening.width / 2);
    const key = `${wall.id} ${from.toFixed(3)}`;
    const entry = stretches.get(key) ?? { wall, from, to, openings: [] };
    entry.openings.push(opening);
    stretches.set(key, entry);
  }
  /** @type {Map<string, Point>} */
  const shifts = new Map();
  for (const { wall, from, to, openings } of stretches.values()) {
    openings.sort((one, two) => one.offset - two.offset);
    const gap = (to - from - openings.reduce((sum, opening) => sum + opening.width, 0)) / (openings.length + 1);
    let here = from + gap;
    for (const opening of openings) {
      shifts.set(opening.id, times(direction(wall.a, wall.b), here - opening.offset));
      here += opening.width + gap;
    }
  }
  return shifts;
}

/** Openings over the nearest one of the level below, in a wall that stands under theirs. @param {import("./types.js").Plan} plan @param {Level} level @param {Piece[]} pieces @param {string[]} stays @returns {Map<string, Point>} */
function overBelow(plan, level, pieces, stays) {
  const below = levelBelow(plan.levels, level.id);
  /** @type {Map<string, Point>} */
  const shifts = new Map();
  for (const { id, opening, wall } of pieces) {
    if (!opening || !wall) continue;
    const d = direction(wall.a, wall.b);
    const middle = plus(wall.a, times(d, opening.offset + opening.width / 2));
    const under = (below ? seatedOpenings(below) : []).flatMap(([other, stands]) => {
      if (Math.abs(cross(d, direction(stands.a, stands.b))) > 0.02) return [];
      const at = plus(stands.a, times(direction(stands.a, stands.b), other.offset + other.width / 2));
      return Math.abs(dot(minus(at, middle), leftOf(d))) > ABOVE ? [] : [dot(minus(at, middle), d)];
    }).sort((one, two) => Math.abs(one) - Math.abs(two))[0];
    if (under === undefined) stays.push(`${id}: ${below ? "no opening of the level below stands under its wall" : "there is no level below"}`);
    else shifts.set(id, times(d, under));
  }
  return shifts;
}

/**
 * Move what can be moved. Openings are seated all at once, so that they may pass the places that others leave.
 * @param {Level} level @param {"imperial" | "metric"} units @param {Piece[]} pieces @param {Map<string, Point>} shifts @param {string[]} stays
 * @returns {Aligned}
 */
function moved(level, units, pieces, shifts, stays) {
  const seats = new Map(pieces.flatMap(({ id, opening, wall }) => {
    const by = shifts.get(id);
    if (!opening || !wall || !by) return [];
    const d = direction(wall.a, wall.b);
    const length = Math.hypot(by[0], by[1]);
    const share = length < SLACK ? 1 : Math.abs(dot(d, times(by, 1 / length)));
    // A slanted wall carries an opening to the line that was asked for, a wall square to the way does not.
    if (share > 0.2) return [[id, { ...opening, offset: Math.round((opening.offset + (length * Math.sign(dot(d, by))) / share) * 1e6) / 1e6 }]];
    stays.push(`${id}: its wall runs the other way`);
    return [];
  }));
  for (let checked = false; !checked;) {
    checked = true;
    const tried = { ...level, openings: (level.openings ?? []).map((opening) => seats.get(opening.id) ?? opening) };
    for (const [id, seat] of seats) {
      const fault = whyNoSeat(tried, seat, units);
      if (!fault) continue;
      stays.push(`${id}: ${fault}`);
      seats.delete(id);
      checked = false;
      break;
    }
  }
  const free = new Map([...shifts].filter(([id, by]) => Math.hypot(...by) > SLACK && pieces.some((piece) => piece.id === id && !piece.opening)));
  const count = free.size + [...seats].filter(([id, seat]) => Math.abs(seat.offset - (pieces.find((piece) => piece.id === id)?.opening?.offset ?? 0)) > SLACK).length;
  if (!count) return { level, moved: 0, stays };
  return {
    moved: count, stays,
    level: {
      ...level,
      ...(level.openings ? { openings: level.openings.map((opening) => seats.get(opening.id) ?? opening) } : {}),
      ...(level.fixtures ? { fixtures: level.fixtures.map((fixture) => shifted(fixture, free.get(fixture.id))) } : {}),
      ...(level.devices ? { devices: level.devices.map((device) => (free.has(device.id) ? { ...device, at: tidy(plus(device.at, free.get(device.id) ?? [0, 0])) } : device)) } : {}),
    },
  };
}

/** @param {Fixture} fixture @param {Point | undefined} by */
const shifted = (fixture, by) => (by ? movedFixture(fixture, by) : fixture);
/** @param {Point} p @returns {Point} */
const tidy = (p) => [Math.round(p[0] * 1e6) / 1e6, Math.round(p[1] * 1e6) / 1e6];
