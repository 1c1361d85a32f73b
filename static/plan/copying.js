/**
 * Things taken from a plan so that they can be put down elsewhere, under new ids; and whole levels.
 * An opening is copied with its wall only, as it cannot stand without one.
 */

/** @import { Device, Family, Level, Plan, Thing } from "./types.js" */
/** @import { Change } from "./turning.js" */

import { PREFIX, addThings } from "./edits.js";
import { FAMILIES, find, newId } from "./lookup.js";
import { changedThing, shifted } from "./turning.js";

/** @typedef {Partial<Record<Family, Thing[]>>} Held */

/** @param {Plan} plan @param {Iterable<string>} ids @returns {Held} */
export function copyOf(plan, ids) {
  /** @type {Held} */
  const held = {};
  for (const id of ids) {
    const found = find(plan, id);
    if (!found || found.family === "openings") continue;
    (held[found.family] ??= []).push(found.thing);
    if (found.family === "walls") {
      (held.openings ??= []).push(...(found.level.openings ?? []).filter((opening) => opening.wall === id));
    }
  }
  return held;
}

/**
 * @param {Plan} plan @param {string} levelId @param {Held} held @param {Change} change where they go
 * @returns {{plan: Plan, ids: string[]}} with the new ids of all but openings
 */
export function putDown(plan, levelId, held, change) {
  /** @type {Set<string>} */
  const taken = new Set();
  /** @type {Map<string, string>} */
  const renamed = new Map();
  for (const family of FAMILIES) {
    for (const thing of held[family] ?? []) renamed.set(thing.id, newId(plan, prefixOf(thing.id, family), taken));
  }
  const labels = new Set(plan.levels.flatMap((level) => (level.devices ?? []).map((device) => device.label ?? "")));
  let next = plan;
  /** @type {string[]} */
  const ids = [];
  for (const family of FAMILIES) {
    const things = (held[family] ?? []).map((thing) => {
      const copied = anew(changedThing(thing, change), renamed);
      return family === "devices" ? deviceAnew(/** @type {Device} */ (copied), renamed, labels) : copied;
    });
    if (things.length) next = addThings(next, levelId, family, /** @type {any} */ (things));
    if (family !== "openings") ids.push(...things.map((thing) => thing.id));
  }
  return { plan: next, ids };
}

/**
 * A level once more on top of the plan, with all that stands on it under new ids.
 * @param {Plan} plan @param {Level} level @param {boolean} withDevices
 * @returns {{plan: Plan, id: string}}
 */
export function copyLevel(plan, level, withDevices) {
  const top = plan.levels.reduce((highest, other) => ((other.elevation ?? 0) > (highest.elevation ?? 0) ? other : highest), level);
  const id = newId(plan, "L");
  /** @type {Level} */
  const bare = { id, name: nameAnew(plan, level.name), elevation: (top.elevation ?? 0) + (top.ceiling ?? 9) + 1, ceiling: level.ceiling ?? 9, walls: [], openings: [], fixtures: [], rooms: [], devices: [] };
  const held = copyOf(plan, FAMILIES.flatMap((family) => (family === "devices" && !withDevices ? [] : (level[family] ?? []).map((thing) => thing.id))));
  return { plan: putDown({ ...plan, levels: [...plan.levels, bare] }, id, held, shifted([0, 0])).plan, id };
}

/** @param {Plan} plan @param {string} name */
function nameAnew(plan, name) {
  const stem = `Copy of ${name}`.slice(0, 100);
  let words = stem;
  for (let number = 2; plan.levels.some((level) => level.name === words); number++) words = `${stem} ${number}`;
  return words;
}

/** @param {string} id @param {Family} family */
const prefixOf = (id, family) => /^(.*?)\d*$/.exec(id)?.[1]?.slice(0, 30) || PREFIX[family];

/** @param {Thing} thing @param {Map<string, string>} renamed @returns {Thing} */
function anew(thing, renamed) {
  const id = renamed.get(thing.id) ?? thing.id;
  return "wall" in thing ? { ...thing, id, wall: renamed.get(thing.wall) ?? thing.wall } : { ...thing, id };
}

/** A copied device guards the copies of its openings, and has the next free label. @param {Device} device @param {Map<string, string>} renamed @param {Set<string>} labels */
function deviceAnew(device, renamed, labels) {
  const serves = (device.serves ?? []).flatMap((opening) => renamed.get(opening) ?? []);
  const numbered = /^(.*?)(\d+)$/.exec(device.label ?? "");
  if (numbered) {
    let number = 1;
    while (labels.has(`${numbered[1]}${number}`)) number++;
    device.label = `${numbered[1]}${number}`;
    labels.add(device.label);
  }
  if (device.serves) device.serves = serves;
  return device;
}
