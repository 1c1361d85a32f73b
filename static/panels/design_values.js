/**
 * Design values as people read and type them: a field for one, its name, its value in words, and what was typed as the
 * plan's file has it.
 */

/** @import { DesignValue } from "../plan/types.js" */
/** @import { Field } from "./fields.js" */

import { lengthText } from "../plan/measures.js";
import { numbersText, readNumbers, whyNoNumbers } from "./number_lists.js";

/** @param {DesignValue} value @param {unknown} given @param {"imperial" | "metric"} units @returns {Field} */
export function asField(value, given, units) {
  const usual = shown(value, value.default, units);
  const base = { key: value.key, label: labelOf(value), words: `${value.words}. Source: ${value.source}` };
  switch (value.kind) {
    case "choice": return { ...base, type: "choice", value: given ?? value.default, choices: value.choices.map((choice) => [choice, choice.replaceAll("_", " ")]) };
    case "word": return { ...base, type: "text", value: given ?? "", usual };
    case "numbers": return { ...base, type: "text", value: given === undefined ? "" : shown(value, given, units), usual, unit: unitOf(value, units), why: (text) => whyNoNumbers(value, String(text), units) };
    default: return value.unit === "ft"
      ? { ...base, type: "length", value: given ?? null, usual, low: value.low, high: value.high }
      : { ...base, type: "number", value: given ?? null, usual, low: value.low, high: value.high, unit: unitOf(value, units) };
  }
}

/** @param {DesignValue} value */
export const labelOf = (value) => value.key.split(".").slice(1).join(" ").replaceAll("_", " ");

/** @param {DesignValue} value @param {"imperial" | "metric"} units */
function unitOf(value, units) {
  if (labelOf(value).endsWith(value.unit)) return "";
  return value.unit === "ft" && units === "metric" ? "m" : value.unit;
}

/** A value as people read it. @param {DesignValue} value @param {unknown} given @param {"imperial" | "metric"} units */
export function shown(value, given, units) {
  if (Array.isArray(given)) return numbersText(given, value.unit, units);
  return value.unit === "ft" ? lengthText(Number(given), units) : String(given).replaceAll("_", " ");
}

/** What was given, as a plan's practice has it; null where it is the default, or nothing. @param {DesignValue} value @param {unknown} given @param {"imperial" | "metric"} units */
export function readGiven(value, given, units) {
  const next = value.kind === "numbers" && given ? readNumbers(String(given), value.unit, units) : given;
  return next === null || next === "" || JSON.stringify(next) === JSON.stringify(value.default) ? null : next;
}
