/**
 * Lengths as people read and type them: feet-inches and metric text to decimal feet, and back.
 * The same grammar as the server's; a browser test holds the two against each other.
 */

export const FEET_PER_METRE = 1 / 0.3048;
const NUMBER = String.raw`(?:\d+(?:\.\d+)?|\.\d+)`;
const INCHES = String.raw`(?:(?<inches>${NUMBER})(?=[\s"-]|$)(?:\s*-\s*|\s+)?)?(?:(?<top>\d+)\s*/\s*(?<bottom>\d+))?`;
const FEET_INCHES = new RegExp(String.raw`^(?<sign>-?)\s*(?:(?<feet>${NUMBER})\s*'\s*-?\s*)?${INCHES}\s*(?<mark>"?)$`);
const DASHED = new RegExp(String.raw`^(?<sign>-?)\s*(?<feet>\d+)\s*-\s*${INCHES}\s*"?$`);
const METRIC = new RegExp(String.raw`^(?<sign>-?)\s*(?<value>${NUMBER})\s*(?<unit>mm|cm|m)$`);
const BARE = new RegExp(String.raw`^(?<sign>-?)\s*(?<value>${NUMBER})$`);
/** @type {Record<string, number>} */
const METRES = { mm: 0.001, cm: 0.01, m: 1 };
/** @type {[RegExp, string][]} */
const STRAIGHTEN = [
  [/[’′‘]/g, "'"], [/[”″“]/g, '"'], [/[–−]/g, "-"], [/½/g, " 1/2"], [/¼/g, " 1/4"], [/¾/g, " 3/4"],
  [/⅛/g, " 1/8"], [/⅜/g, " 3/8"], [/⅝/g, " 5/8"], [/⅞/g, " 7/8"],
  [/\s*(?:feet|foot|ft)\b\.?/g, "'"], [/\s*(?:inches|inch|in)\b\.?|''/g, '"'],
];

export const HOW_TO_TYPE = "type a length as 12'-6\", 12' 6 1/2\", 12-6, 12.5', 150\", 3.81 m, 381 cm or 3810 mm";

/**
 * Decimal feet of a typed length, or null where it is none; a bare number is feet, or metres in a metric plan.
 * @param {string} text
 * @param {"imperial" | "metric"} units
 * @returns {number | null}
 */
export function parseLength(text, units) {
  let words = text.trim().toLowerCase();
  for (const [from, to] of STRAIGHTEN) words = words.replace(from, to);
  words = words.trim();
  let found = BARE.exec(words);
  if (found?.groups) return signed(found.groups, Number(found.groups.value) * (units === "metric" ? FEET_PER_METRE : 1));
  found = METRIC.exec(words);
  if (found?.groups) return signed(found.groups, Number(found.groups.value) * (METRES[found.groups.unit ?? "m"] ?? 1) * FEET_PER_METRE);
  found = DASHED.exec(words);
  if (found?.groups && (found.groups.inches || found.groups.top)) return feetAndInches(found.groups);
  found = FEET_INCHES.exec(words);
  const groups = found?.groups;
  if (groups && (groups.feet || (groups.mark && (groups.inches || groups.top)))) return feetAndInches(groups);
  return null;
}

/** @param {Record<string, string>} groups @returns {number | null} */
function feetAndInches(groups) {
  if (groups.top && Number(groups.bottom) === 0) return null;
  const part = groups.top ? Number(groups.top) / Number(groups.bottom) : 0;
  return signed(groups, Number(groups.feet || 0) + (Number(groups.inches || 0) + part) / 12);
}

/** @param {Record<string, string>} groups @param {number} value */
function signed(groups, value) {
  if (!Number.isFinite(value)) return null;
  return groups.sign ? -value : value;
}

/**
 * 12.5417 as 12'-6 1/2", to the nearest sixteenth of an inch (or another power of two).
 * @param {number} feet
 * @param {number} [parts]
 */
export function feetInches(feet, parts = 16) {
  const whole = roundHalfEven(Math.abs(feet) * 12 * parts);
  const feetPart = Math.floor(whole / (12 * parts));
  const inches = Math.floor((whole % (12 * parts)) / parts);
  let top = whole % parts;
  let bottom = parts;
  while (top && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  const fraction = top ? ` ${top}/${bottom}` : "";
  return `${feet < 0 && whole ? "-" : ""}${feetPart}'-${inches}${fraction}"`;
}

/** As the server rounds. @param {number} value */
function roundHalfEven(value) {
  const low = Math.floor(value);
  const rest = value - low;
  return rest > 0.5 || (rest === 0.5 && low % 2 === 1) ? low + 1 : low;
}

/** 12.5 as 3.81 m, to the millimetre. @param {number} feet */
export function metres(feet) {
  const text = (feet / FEET_PER_METRE).toFixed(3).replace(/\.?0+$/, "");
  return `${text === "-0" || text === "" ? "0" : text} m`;
}

/** A length as the plan's units write it. @param {number} feet @param {"imperial" | "metric"} units @param {number} [parts] of an inch */
export function lengthText(feet, units, parts = 16) {
  return units === "metric" ? metres(feet) : feetInches(feet, parts);
}

/** An area as the plan's units write it. @param {number} squareFeet @param {"imperial" | "metric"} units */
export function areaText(squareFeet, units) {
  return units === "metric" ? `${(squareFeet / FEET_PER_METRE ** 2).toFixed(1)} m²` : `${squareFeet.toFixed(0)} sq ft`;
}
