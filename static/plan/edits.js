/**
 * Changes of a plan as pure functions: a plan in, a new plan out that shares what did not change.
 * What happens to openings when their wall changes is in openings_keep.js, copies are in copying.js.
 */

/** @import { Family, Fixture, Level, Opening, Plan, Point, Thing, Wall } from "./types.js" */

import { between, distance, plus } from "../geometry/points.js";
import { FAMILIES, find, newId } from "./lookup.js";

export const SAME_CORNER = 2e-3; // ft: ends this near are one corner

/** @param {Plan} plan @param {string} levelId @param {(level: Level) => Level} change @returns {Plan} */
export function withLevel(plan, levelId, change) {
  return { ...plan, levels: plan.levels.map((level) => (level.id === levelId ? change(level) : level)) };
}

/**
 * @template {Family} F
 * @param {Plan} plan @param {string} levelId @param {F} family @param {NonNullable<Level[F]>} things
 * @returns {Plan}
 */
export function addThings(plan, levelId, family, things) {
  return withLevel(plan, levelId, (level) => ({ ...level, [family]: [...(level[family] ?? []), ...things] }));
}

/** Give some keys of one thing new values; undefined takes a key out. @param {Plan} plan @param {string} id @param {Record<string, unknown>} keys */
export function changeThing(plan, id, keys) {
  const found = find(plan, id);
  if (!found) return plan;
  const changed = /** @type {Record<string, unknown>} */ ({ ...found.thing, ...keys });
  for (const key of Object.keys(keys)) if (changed[key] === undefined) delete changed[key];
  return withLevel(plan, found.level.id, (level) => ({
    ...level,
    [found.family]: (level[found.family] ?? []).map((/** @type {Thing} */ thing) => (thing.id === id ? changed : thing)),
  }));
}

/**
 * Take things out; a wall takes its openings along, and no device serves an opening that is gone.
 * @param {Plan} plan @param {Iterable<string>} ids
 * @returns {{plan: Plan, along: Opening[]}} `along`: the openings that went with their walls
 */
export function removeThings(plan, ids) {
  const gone = new Set(ids);
  /** @type {Opening[]} */
  const along = [];
  for (const opening of plan.levels.flatMap((level) => level.openings ?? [])) {
    if (!gone.has(opening.wall) || gone.has(opening.id)) continue;
    gone.add(opening.id);
    along.push(opening);
  }
  const levels = plan.levels.map((level) => {
    /** @type {Level} */
    const left = { ...level };
    for (const family of FAMILIES) {
      const before = /** @type {Thing[] | undefined} */ (level[family]);
      if (before?.some((thing) => gone.has(thing.id))) Object.assign(left, { [family]: before.filter((thing) => !gone.has(thing.id)) });
    }
    if (left.devices?.some((device) => device.serves?.some((served) => gone.has(served)))) {
      left.devices = left.devices.map((device) =>
        device.serves?.some((served) => gone.has(served)) ? { ...device, serves: device.serves.filter((served) => !gone.has(served)) } : device);
    }
    return left;
  });
  return { plan: { ...plan, levels }, along };
}

/**
 * Move every wall end that stands at one of some corners.
 * @param {Level} level @param {Point[]} corners @param {Point} by
 * @returns {Level}
 */
export function moveCorners(level, corners, by) {
  /** @param {Point} p */
  const moved = (p) => (corners.some((corner) => distance(corner, p) < SAME_CORNER) ? plus(p, by) : p);
  return { ...level, walls: (level.walls ?? []).map((wall) => {
    const [a, b] = [moved(wall.a), moved(wall.b)];
    return a === wall.a && b === wall.b ? wall : { ...wall, a, b };
  }) };
}

/**
 * Move things of a level together: moved walls take the walls that meet them along; openings ride on walls and are
 * not moved by this.
 * @param {Level} level @param {Set<string>} ids @param {Point} by
 * @returns {Level}
 */
export function moveThings(level, ids, by) {
  const corners = (level.walls ?? []).filter((wall) => ids.has(wall.id)).flatMap((wall) => [wall.a, wall.b]);
  const after = corners.length ? moveCorners(level, corners, by) : { ...level };
  if (level.fixtures) after.fixtures = level.fixtures.map((fixture) => (ids.has(fixture.id) ? movedFixture(fixture, by) : fixture));
  if (level.rooms) after.rooms = level.rooms.map((room) => (ids.has(room.id) ? { ...room, at: plus(room.at, by) } : room));
  if (level.devices) after.devices = level.devices.map((device) => (ids.has(device.id) ? { ...device, at: plus(device.at, by) } : device));
  return after;
}

/** @param {Fixture} fixture @param {Point} by @returns {Fixture} */
export function movedFixture(fixture, by) {
  if (fixture.polygon) return { ...fixture, polygon: fixture.polygon.map((corner) => plus(corner, by)) };
  return fixture.at ? { ...fixture, at: plus(fixture.at, by) } : fixture;
}

/** @type {Record<Family, string>} */
export const PREFIX = { walls: "w", openings: "o", fixtures: "f", rooms: "r", devices: "d" };

/**
 * Cut a wall in two at a distance from its a; openings go to the part they stand in.
 * @param {Plan} plan @param {Level} level @param {Wall} wall @param {number} at feet from a
 * @returns {Plan | null} null where an opening stands across the cut
 */
export function splitWall(plan, level, wall, at) {
  const middle = between(wall.a, wall.b, at / distance(wall.a, wall.b));
  const second = { ...wall, id: newId(plan, PREFIX.walls), a: middle };
  const riding = (level.openings ?? []).filter((opening) => opening.wall === wall.id);
  if (riding.some((opening) => opening.offset < at - 1e-6 && opening.offset + opening.width > at + 1e-6)) return null;
  return withLevel(plan, level.id, (before) => ({
    ...before,
    walls: (before.walls ?? []).flatMap((other) => (other.id === wall.id ? [{ ...wall, b: middle }, second] : [other])),
    openings: (before.openings ?? []).map((opening) => /** @type {Opening} */ (opening.wall === wall.id && opening.offset >= at - 1e-6
      ? { ...opening, wall: second.id, offset: Math.max(0, opening.offset - at) } : opening)),
  }));
}

/**
 * Make one wall of two that lie on one line and share an end; the openings of both ride on it.
 * @param {Plan} plan @param {Level} level @param {Wall} first @param {Wall} second
 * @returns {Plan | null} null where they do not make one straight wall
 */
export function joinWalls(plan, level, first, second) {
  const shared = [first.a, first.b].find((end) => [second.a, second.b].some((other) => distance(end, other) < SAME_CORNER));
  if (!shared) return null;
  const [near, far] = [first, second].map((wall) => (distance(wall.a, shared) < SAME_CORNER ? wall.b : wall.a));
  if (!near || !far || Math.abs(distance(near, far) - distance(near, shared) - distance(shared, far)) > 1e-4) return null;
  const joined = { ...first, a: near, b: far };
  /** @param {Opening} opening @param {Wall} wall @returns {Opening} */
  const onJoined = (opening, wall) => {
    const jambs = [opening.offset, opening.offset + opening.width].map((u) => distance(near, between(wall.a, wall.b, u / distance(wall.a, wall.b))));
    const turned = (distance(wall.a, near) > distance(wall.b, near)) && opening.hinge;
    return { ...opening, wall: joined.id, offset: Math.min(...jambs), ...(turned ? { hinge: opening.hinge === "a" ? "b" : "a" } : {}) };
  };
  return withLevel(plan, level.id, (before) => ({
    ...before,
    walls: (before.walls ?? []).flatMap((wall) => (wall.id === second.id ? [] : [wall.id === first.id ? joined : wall])),
    openings: (before.openings ?? []).map((opening) => (opening.wall === first.id ? onJoined(opening, first) : opening.wall === second.id ? onJoined(opening, second) : opening)),
  }));
}
