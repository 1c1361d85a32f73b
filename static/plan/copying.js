/**
 * Things taken from a plan so that they can be put down elsewhere, under new ids.
 * An opening is copied with its wall only, as it cannot stand without one.
 */

/** @import { Family, Plan, Point, Thing } from "./types.js" */

import { plus } from "../geometry/points.js";
import { PREFIX, addThings, movedFixture } from "./edits.js";
import { FAMILIES, find, newId } from "./lookup.js";

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
 * @param {Plan} plan @param {string} levelId @param {Held} held @param {Point} by
 * @returns {{plan: Plan, ids: string[]}} with the new ids of all but openings
 */
export function putDown(plan, levelId, held, by) {
  /** @type {Set<string>} */
  const taken = new Set();
  /** @type {Map<string, string>} */
  const renamed = new Map();
  for (const family of FAMILIES) {
    for (const thing of held[family] ?? []) renamed.set(thing.id, newId(plan, prefixOf(thing.id, family), taken));
  }
  let next = plan;
  /** @type {string[]} */
  const ids = [];
  for (const family of FAMILIES) {
    const things = (held[family] ?? []).map((thing) => anew(thing, by, renamed));
    if (things.length) next = addThings(next, levelId, family, /** @type {any} */ (things));
    if (family !== "openings") ids.push(...things.map((thing) => thing.id));
  }
  return { plan: next, ids };
}

/** @param {string} id @param {Family} family */
const prefixOf = (id, family) => /^(.*?)\d*$/.exec(id)?.[1]?.slice(0, 30) || PREFIX[family];

/** @param {Thing} thing @param {Point} by @param {Map<string, string>} renamed @returns {Thing} */
function anew(thing, by, renamed) {
  const id = renamed.get(thing.id) ?? thing.id;
  if ("a" in thing) return { ...thing, id, a: plus(thing.a, by), b: plus(thing.b, by) };
  if ("wall" in thing) return { ...thing, id, wall: renamed.get(thing.wall) ?? thing.wall };
  if ("name" in thing) return { ...thing, id, at: plus(thing.at, by) };
  if ("polygon" in thing || "base" in thing) return { ...movedFixture(/** @type {any} */ (thing), by), id };
  const copied = /** @type {any} */ ({ ...thing, id, at: plus(/** @type {any} */ (thing).at, by) });
  delete copied.serves;
  delete copied.label;
  return copied;
}
