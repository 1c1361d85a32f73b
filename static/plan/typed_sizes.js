/**
 * Sizes as they are typed in one line while openings and pieces are placed: "7'6 x 4'8, 3 panes, fixed", a call-out such
 * as 2868, "sofa 7' x 3' x 2'9". Pure: text in, the changed shape or what is wrong with it out.
 */

/** @import { Opening, Plan } from "./types.js" */
/** @import { Piece } from "./furniture.js" */
/** @import { OpeningShape } from "../gestures/tools.js" */

import { FURNITURE } from "./furniture.js";
import { lengthText, parseLength } from "./measures.js";

/** @typedef {"imperial" | "metric"} Units */

const CALL_OUT = /^(\d)(\d\d?)(\d)(\d\d?)$/; // feet and inches of the width, then of the height: 2868, 21068
const USUAL_HEAD = 6.667; // ft
const HOW = "a size reads 3'0 x 5'0, 2868, 3 panes, sill 2', head 8', fixed, glass, slide, overhead";

/** @type {[RegExp, (shape: OpeningShape, found: RegExpExecArray) => Partial<OpeningShape>][]} what single words set */
const WORDS = [
  [/\b(\d+)\s*(?:panes?|lites?|p)\b/, (_shape, found) => ({ panes: Number(found[1]) })],
  [/\bfixed\b/, (shape) => (shape.leaf ? { leaf: "fixed", operable: false } : { operable: false })],
  [/\b(?:opens|operable)\b/, () => ({ operable: undefined })],
  [/\b(?:glass|glazed)\b/, () => ({ glazed: true })],
  [/\b(?:solid|no glass)\b/, () => ({ glazed: undefined, panes: 1 })],
  [/\bslid(?:es?|ing)\b/, () => ({ leaf: "slide", hinge: undefined })],
  [/\boverhead\b/, () => ({ leaf: "overhead", hinge: undefined })],
  [/\bswings?\b/, () => ({ leaf: "swing" })],
];

/**
 * @param {string} text @param {Opening["kind"]} kind @param {OpeningShape} shape as it was @param {Units} units
 * @returns {{shape: OpeningShape} | {fault: string} | null} null where the text is a length and no size
 */
export function readOpening(text, kind, shape, units) {
  let rest = text.trim().toLowerCase().replaceAll("×", "x");
  if (parseLength(rest, units) !== null && !(units === "imperial" && CALL_OUT.test(rest))) return null;
  /** @type {OpeningShape} */
  let next = { ...shape };
  for (const [word, sets] of WORDS) {
    const found = word.exec(rest);
    if (!found) continue;
    next = { ...next, ...sets(next, found) };
    rest = rest.replace(word, ",");
  }
  /** @type {Partial<Record<"sill" | "head", number>>} */
  const levels = {};
  for (const key of /** @type {const} */ (["sill", "head"])) {
    const found = new RegExp(`\\b${key}\\s+([^,a-z]+(?:mm|cm|m)?)`).exec(rest);
    if (!found) continue;
    const feet = parseLength(found[1]?.trim() ?? "", units);
    if (feet === null) return { fault: `${key}: ${HOW}` };
    levels[key] = feet;
    rest = rest.replace(found[0], ",");
  }
  const size = readSize(rest.replace(/^[\s,]+|[\s,]+$/g, ""), units);
  if (!size) return { fault: HOW };
  next = withHeights({ ...next, ...(size.width === undefined ? {} : { width: size.width }) }, kind, size.height, levels);
  const { width, sill = 0, head = USUAL_HEAD } = next;
  if (width < 0.2 || width > 100) return { fault: `the width is from ${lengthText(0.2, units)} to ${lengthText(100, units)}` };
  if (head - sill < 0.05 || sill < 0) return { fault: `the head (${lengthText(head, units)}) must be above the sill (${lengthText(sill, units)})` };
  return { shape: /** @type {OpeningShape} */ (Object.fromEntries(Object.entries(next).filter(([, value]) => value !== undefined))) };
}

/** A window's height hangs from its head, a door's stands on its sill, unless one of them is said. @param {OpeningShape} shape @param {Opening["kind"]} kind @param {number | undefined} height @param {Partial<Record<"sill" | "head", number>>} levels */
function withHeights(shape, kind, height, levels) {
  const next = { ...shape, ...levels };
  if (height === undefined) return next;
  if (kind === "window" && levels.sill === undefined) return { ...next, sill: Math.round(((next.head ?? USUAL_HEAD) - height) * 1e6) / 1e6 };
  return { ...next, head: Math.round(((next.sill ?? 0) + height) * 1e6) / 1e6 };
}

/** Width and height; empty text leaves both. @param {string} text @param {Units} units @returns {{width?: number, height?: number} | null} */
function readSize(text, units) {
  if (!text) return {};
  const called = units === "imperial" ? CALL_OUT.exec(text) : null;
  if (called) {
    const [, wide = "", wideInches = "", high = "", highInches = ""] = called;
    return { width: Number(wide) + Number(wideInches) / 12, height: Number(high) + Number(highInches) / 12 };
  }
  const lengths = text.split("x").map((part) => parseLength(part.trim(), units));
  const [width, height] = lengths;
  if (lengths.length > 2 || lengths.some((feet) => feet === null)) return null;
  return { width: width ?? undefined, ...(height == null ? {} : { height }) };
}

/** A shape in words, as it may be typed again. @param {OpeningShape} shape @param {Opening["kind"]} kind @param {Units} units */
export function openingWords(shape, kind, units) {
  const { width, sill = 0, head = USUAL_HEAD, panes = 1, operable, glazed, leaf } = shape;
  return [
    `${lengthText(width, units)} × ${lengthText(head - sill, units)}`,
    kind === "window" && head !== USUAL_HEAD && `sill ${lengthText(sill, units)}`,
    panes > 1 && `${panes} panes`, operable === false && "fixed", kind === "door" && glazed && "glass",
    leaf && leaf !== "swing" && leaf !== "fixed" && { slide: "slide", overhead: "overhead" }[leaf],
  ].filter(Boolean).join(", ");
}

const USED = 8; // sizes that are offered again

/** The different shapes of a kind in a plan, the newest first. @param {Plan} plan @param {Opening["kind"]} kind @returns {OpeningShape[]} */
export function sizesUsed(plan, kind) {
  /** @type {Map<string, OpeningShape>} */
  const shapes = new Map();
  for (const opening of plan.levels.flatMap((level) => level.openings ?? []).reverse()) {
    if (opening.kind !== kind) continue;
    const { width, sill = 0, head = USUAL_HEAD, panes = 1, operable, glazed, leaf } = opening;
    const shape = { width, sill, head, panes, ...(operable === false ? { operable } : {}), ...(glazed == null ? {} : { glazed }), ...(kind === "door" ? { leaf: leaf ?? /** @type {const} */ ("swing") } : {}) };
    const key = JSON.stringify(shape);
    if (!shapes.has(key)) shapes.set(key, shape);
  }
  return [...shapes.values()].slice(0, USED);
}

/**
 * A piece by its name, its size, or both: "toilet", "6'10 x 3'7 x 2'6", "bench 4' x 1'6 x 1'6". The third length is its top.
 * @param {string} text @param {Piece} piece as it was @param {Units} units
 * @returns {{piece: Piece} | {fault: string}}
 */
export function readPiece(text, piece, units) {
  const found = /^\s*([a-z][a-z' -]*?)?\s*((?:[\d.].*)?)$/i.exec(text.trim().replaceAll("×", "x"));
  const [, name = "", sizes = ""] = found ?? [];
  const lengths = sizes ? sizes.split(/x/i).map((part) => parseLength(part.trim(), units)) : [];
  if (!found || lengths.some((feet) => feet === null || feet <= 0) || lengths.length === 1 || lengths.length > 3) return { fault: "name a piece, or its width x depth x top: sofa 7' x 3' x 2'9" };
  const known = name ? pieceNamed(name, lengths.length === 0) : piece;
  if (!known && !lengths.length) return { fault: `no piece is called “${name}”: give its size as well, 4' x 2' x 3'` };
  const [width, depth, top] = /** @type {number[]} */ (lengths);
  const base = known ?? { name: "own", label: name[0]?.toUpperCase() + name.slice(1), group: "", width: 1, depth: 1, base: 0, top: 3 };
  return { piece: { ...base, ...(width && depth ? { width, depth } : {}), ...(top ? { top } : {}) } };
}

/** By its name or the first letters of it. @param {string} name @param {boolean} loose by any part of it as well: nothing but the name was said */
function pieceNamed(name, loose) {
  const wanted = name.trim().toLowerCase();
  const says = (/** @type {Piece} */ piece) => piece.label.toLowerCase();
  return FURNITURE.find((piece) => says(piece) === wanted) ?? FURNITURE.find((piece) => says(piece).startsWith(wanted)) ?? (loose ? FURNITURE.find((piece) => says(piece).includes(wanted)) : undefined);
}
