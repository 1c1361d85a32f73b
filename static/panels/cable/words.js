/**
 * Numbers of the cable as people read them: whole feet as the crew cuts them, or metres; volts, ohms, ampere-hours.
 */

/** @import { Desk } from "../../desk.js" */

import { unitsOf } from "../../plan/lookup.js";

/** A length of cable in whole feet, or in metres rounded up to a tenth. @param {Desk} desk @param {number | null} feet */
export function cableLength(desk, feet) {
  if (feet === null) return "—";
  return unitsOf(desk.store.plan) === "metric" ? `${(Math.ceil(feet * 3.048 - 1e-6) / 10).toFixed(1)} m` : `${Math.round(feet)} ft`;
}

/** @param {number | null} value @param {string} unit @param {number} [decimals] */
export const quantity = (value, unit, decimals = 1) => (value === null ? "—" : `${value.toFixed(decimals)} ${unit}`);
