/**
 * An opening repeated along its wall at an equal pitch, all or none.
 */

/** @import { Level, Opening, Plan } from "./types.js" */

import { distance } from "../geometry/points.js";
import { PREFIX, addThings } from "./edits.js";
import { newId, unitsOf, wallOf } from "./lookup.js";
import { whyNoSeat } from "./openings_keep.js";

/**
 * More of an opening, away from the end of its wall that it stands nearer to.
 * @param {Plan} plan @param {Level} level @param {Opening} opening @param {number} count how many more @param {number} pitch ft from middle to middle
 * @returns {{plan: Plan, ids: string[]} | {fault: string}}
 */
export function repeated(plan, level, opening, count, pitch) {
  const wall = wallOf(level, opening.wall);
  if (!wall || count < 1) return { fault: "at least one more" };
  const away = opening.offset + opening.width / 2 <= distance(wall.a, wall.b) / 2 ? 1 : -1;
  /** @type {Set<string>} */
  const taken = new Set();
  /** @type {string[]} */
  const ids = [];
  let [next, here] = [plan, level];
  for (let i = 1; i <= count; i++) {
    const more = { ...opening, id: newId(plan, PREFIX.openings, taken), offset: opening.offset + away * i * pitch };
    const fault = whyNoSeat(here, more, unitsOf(plan));
    if (fault) return { fault: `number ${i} of ${count} does not fit: ${fault}` };
    here = { ...here, openings: [...(here.openings ?? []), more] };
    next = addThings(next, level.id, "openings", [more]);
    ids.push(more.id);
  }
  return { plan: next, ids };
}
