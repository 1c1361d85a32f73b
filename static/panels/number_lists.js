/**
 * Lists of numbers as people type them, such as the sizes of boxes: 500, 1000. Lengths are in the plan's units.
 */

/** @import { DesignValue } from "../plan/types.js" */

import { parseLength } from "../plan/measures.js";

const FEET_PER_METRE = 1 / 0.3048;
const MOST = 12; // members

/** @param {number[]} numbers @param {string} unit @param {"imperial" | "metric"} units */
export function numbersText(numbers, unit, units) {
  const share = unit === "ft" && units === "metric" ? FEET_PER_METRE : 1;
  return numbers.map((value) => String(Math.round((value / share) * 100) / 100)).join(", ");
}

/** @param {string} text @param {string} unit @param {"imperial" | "metric"} units @returns {number[] | null} null where it is no list */
export function readNumbers(text, unit, units) {
  const members = text.split(/[,;]/).map((part) => part.trim()).filter(Boolean);
  const numbers = members.map((part) => (unit === "ft" ? parseLength(part, units) : Number(part)));
  if (!numbers.length || numbers.some((value) => value === null || !Number.isFinite(value))) return null;
  return /** @type {number[]} */ (numbers).map((value) => Math.round(value * 1e4) / 1e4);
}

/** Why a text is no value, or null where it is. @param {DesignValue} value @param {string} text @param {"imperial" | "metric"} units */
export function whyNoNumbers(value, text, units) {
  if (!text.trim()) return null;
  const numbers = readNumbers(text, value.unit, units);
  if (!numbers) return "type numbers with commas between them";
  if (numbers.length > MOST) return `at most ${MOST} numbers`;
  const out = numbers.find((one) => one < value.low || one > value.high);
  return out === undefined ? null : `each from ${numbersText([value.low], value.unit, units)} to ${numbersText([value.high], value.unit, units)}`;
}
