/**
 * Finding things in a plan, new ids, and what a thing is called.
 * Reads only; changes are in edits.js.
 */

/** @import { Device, DeviceKind, Family, Fixture, FixtureKind, Level, Opening, Plan, Point, Room, Tables, Wall } from "./types.js" */

import { between, distance } from "../geometry/points.js";

/** @type {Family[]} */
export const FAMILIES = ["walls", "openings", "fixtures", "rooms", "devices"];

/**
 * @typedef {{family: "walls", level: Level, thing: Wall} | {family: "openings", level: Level, thing: Opening}
 *   | {family: "fixtures", level: Level, thing: Fixture} | {family: "rooms", level: Level, thing: Room}
 *   | {family: "devices", level: Level, thing: Device}} Found
 */

/** @type {WeakMap<Plan, Map<string, Found>>} */
const indexes = new WeakMap();

/** Every thing of a plan by its id. @param {Plan} plan */
export function index(plan) {
  let found = indexes.get(plan);
  if (!found) {
    found = new Map();
    for (const level of plan.levels) {
      for (const family of FAMILIES) {
        for (const thing of level[family] ?? []) found.set(thing.id, /** @type {Found} */ ({ family, level, thing }));
      }
    }
    indexes.set(plan, found);
  }
  return found;
}

/** @param {Plan} plan @param {string} id */
export const find = (plan, id) => index(plan).get(id);

/** Levels from the lowest to the highest. @template {{elevation?: number}} L @param {L[]} levels @returns {L[]} */
export const upward = (levels) => levels.slice().sort((one, two) => (one.elevation ?? 0) - (two.elevation ?? 0));

/** Levels from the highest to the lowest. @template {{elevation?: number}} L @param {L[]} levels @returns {L[]} */
export const downward = (levels) => levels.slice().sort((one, two) => (two.elevation ?? 0) - (one.elevation ?? 0));

/** The level next below one. @template {{id: string, elevation?: number}} L @param {L[]} levels @param {string} id @returns {L | undefined} */
export function levelBelow(levels, id) {
  const here = levels.find((level) => level.id === id)?.elevation ?? 0;
  return downward(levels).find((level) => (level.elevation ?? 0) < here);
}

/** @param {Plan} plan @param {string} id @returns {Level} the level, or the plan's first */
export const levelOf = (plan, id) => plan.levels.find((level) => level.id === id) ?? /** @type {Level} */ (plan.levels[0]);

/** @param {Level} level @param {string} id */
export const wallOf = (level, id) => (level.walls ?? []).find((wall) => wall.id === id);

/** Openings, each with its wall; one whose wall is gone is left out. @param {Level} level @returns {[Opening, Wall][]} */
export function seatedOpenings(level) {
  const walls = new Map((level.walls ?? []).map((wall) => [wall.id, wall]));
  return (level.openings ?? []).flatMap((opening) => {
    const wall = walls.get(opening.wall);
    return wall ? [/** @type {[Opening, Wall]} */ ([opening, wall])] : [];
  });
}

/**
 * An id that nothing in the plan has: the prefix and the next free number.
 * @param {Plan} plan @param {string} prefix @param {Set<string>} [taken] ids given out but not yet in the plan
 */
export function newId(plan, prefix, taken = new Set()) {
  const used = index(plan);
  const others = new Set([...plan.levels, ...(plan.risers ?? [])].map((thing) => thing.id));
  for (let number = 1; ; number++) {
    const id = `${prefix}${number}`;
    if (!used.has(id) && !others.has(id) && !taken.has(id)) {
      taken.add(id);
      return id;
    }
  }
}

/** @type {Record<Opening["kind"], string>} */
export const OPENING_WORDS = { window: "Window", door: "Door", cased: "Cased opening" };
/** @type {Record<FixtureKind, string>} */
export const FIXTURE_WORDS = {
  obstruction: "Obstruction", light_switch: "Light switch", chime: "Doorbell chime",
  supply_register: "Supply register", bed: "Bed", outlet: "Outlet",
};

/** The table row of a device's kind. @param {Tables} tables @param {string} kind @returns {DeviceKind} */
export function kindOf(tables, kind) {
  return tables.device_kinds.find((row) => row.kind === kind) ?? /** @type {DeviceKind} */ (tables.device_kinds.at(-1));
}

/** What a device is called on the drawing. @param {Device} device @param {Tables} tables */
export const tagOf = (device, tables) => device.label || `${kindOf(tables, device.kind).abbreviation} ${device.id}`;

/** The next free tag of a kind: GB-3. @param {Plan} plan @param {string} abbreviation */
export function nextLabel(plan, abbreviation) {
  const used = new Set(plan.levels.flatMap((level) => (level.devices ?? []).map((device) => device.label)));
  let number = 1;
  while (used.has(`${abbreviation}-${number}`)) number++;
  return `${abbreviation}-${number}`;
}

/** What a thing is called in a sentence. @param {Found} found @param {Tables} tables */
export function nameOf(found, tables) {
  switch (found.family) {
    case "walls": return `${found.thing.height == null ? "Wall" : "Half wall"} ${found.thing.id}`;
    case "openings": return `${OPENING_WORDS[found.thing.kind]} ${found.thing.id}`;
    case "fixtures": return found.thing.label || `${FIXTURE_WORDS[found.thing.kind]} ${found.thing.id}`;
    case "rooms": return found.thing.name || `Room ${found.thing.id}`;
    case "devices": return tagOf(found.thing, tables);
  }
}

/** A place to centre the view on. @param {Found} found @returns {Point} */
export function placeOf(found) {
  switch (found.family) {
    case "walls": return between(found.thing.a, found.thing.b, 0.5);
    case "openings": {
      const wall = wallOf(found.level, found.thing.wall);
      return wall ? between(wall.a, wall.b, (found.thing.offset + found.thing.width / 2) / distance(wall.a, wall.b)) : [0, 0];
    }
    case "fixtures": return found.thing.polygon ? middleOf(found.thing.polygon) : found.thing.at ?? [0, 0];
    default: return found.thing.at;
  }
}

/** @param {Point[]} ring @returns {Point} the mean of its corners */
export function middleOf(ring) {
  const sum = ring.reduce((all, p) => [all[0] + p[0], all[1] + p[1]], /** @type {Point} */ ([0, 0]));
  return [sum[0] / ring.length, sum[1] / ring.length];
}

/** The design value in force. @param {Plan} plan @param {Tables} tables @param {string} key */
export function practiceOf(plan, tables, key) {
  const set = plan.practice ?? {};
  return key in set ? set[key] : tables.practice.find((value) => value.key === key)?.default;
}

/** Whether an opening has glass. @param {Opening} opening */
export const hasGlass = (opening) => opening.glazed ?? opening.kind === "window";

/** All corners and places of a level. @param {Level} level @returns {Point[]} */
export function pointsOf(level) {
  return [
    ...(level.walls ?? []).flatMap((wall) => [wall.a, wall.b]),
    ...(level.fixtures ?? []).flatMap((fixture) => fixture.polygon ?? (fixture.at ? [fixture.at] : [])),
    ...(level.devices ?? []).map((device) => device.at),
    ...(level.rooms ?? []).map((room) => room.at),
  ];
}

/** @param {Plan} plan */
export const unitsOf = (plan) => plan.units ?? "imperial";
