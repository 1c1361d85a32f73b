/**
 * A riser added to a plan: where cable may pass from a level to the one above it, or from the top one down.
 */

/** @import { Plan, Point, Riser } from "./types.js" */

import { newId, upward } from "./lookup.js";

/** @param {Plan} plan @param {string} levelId @param {Point} at @returns {{plan: Plan, riser: Riser}} */
export function withRiser(plan, levelId, at) {
  const riser = { id: newId(plan, "riser"), at, from: levelId, to: nextLevel(plan, levelId) };
  return { plan: { ...plan, risers: [...(plan.risers ?? []), riser] }, riser };
}

/** The level above, or below from the top. @param {Plan} plan @param {string} levelId */
function nextLevel(plan, levelId) {
  const sorted = upward(plan.levels);
  const here = sorted.findIndex((level) => level.id === levelId);
  return (sorted[here + 1] ?? sorted[here - 1])?.id ?? levelId;
}
