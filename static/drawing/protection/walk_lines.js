/**
 * A walk through the house on the level in view: its line, where somebody is noticed, and where it goes on to another
 * level. Feet are those walked from the start.
 */

/** @import { Leg, Notice, Walked } from "../../plan/protection_types.js" */
/** @import { Level, Point } from "../../plan/types.js" */
/** @import { Places } from "./labels.js" */

import { between, direction, distance, dot, leftOf, minus, times } from "../../geometry/points.js";
import { wallOf } from "../../plan/lookup.js";
import { make, onPaper, through } from "../svg.js";
import { signNear } from "./labels.js";

/**
 * The part of a walk between two distances, on one level, as polylines.
 * @param {Walked} walk @param {string} levelId @param {number} from ft @param {number} to ft @returns {Point[][]}
 */
export function stretch(walk, levelId, from, to) {
  return walk.legs.filter((leg) => leg.level === levelId).map((leg) => cut(leg, from, to)).filter((part) => part.length > 1);
}

/** @param {Leg} leg @param {number} from @param {number} to @returns {Point[]} */
function cut(leg, from, to) {
  /** @type {Point[]} */
  const part = [];
  let here = leg.before_ft;
  for (const [i, p] of leg.points.entries()) {
    const before = leg.points[i - 1];
    if (before) {
      const long = distance(before, p);
      const [start, end] = [Math.max(from, here), Math.min(to, here + long)];
      if (end > start + 1e-6) {
        if (!part.length) part.push(between(before, p, (start - here) / long));
        part.push(between(before, p, (end - here) / long));
      }
      here += long;
    }
  }
  return part;
}

/** The place after some feet of a walk, where that is on a level. @param {Walked} walk @param {string} levelId @param {number} feet @returns {Point | null} */
export function placeAfter(walk, levelId, feet) {
  for (const leg of walk.legs.filter((entry) => entry.level === levelId)) {
    let here = leg.before_ft;
    for (const [i, p] of leg.points.entries()) {
      const before = leg.points[i - 1];
      const long = before ? distance(before, p) : 0;
      if (feet >= here - 1e-6 && feet <= here + long + 1e-3) return before && long ? between(before, p, Math.min(1, (feet - here) / long)) : p;
      here += long;
    }
  }
  return null;
}

/** A line with its casing. @param {Point[][]} parts @param {string} kind class of the core */
export function line(parts, kind) {
  const d = parts.map((part) => through(part)).join("");
  return d ? [make("path", { class: "walk casing", d }), make("path", { class: `walk ${kind}`, d })] : [];
}

/** @param {Point} at @param {string} text a numeral or letter @param {string} kind @param {Point} [by] px */
export const stop = (at, text, kind, by = [0, 0]) => onPaper(at, [make("circle", { cx: by[0], cy: by[1], r: 9.5 }), make("text", { x: by[0], y: by[1] + 4 }, [text])], { class: `stop ${kind}` });

/** Where a walk begins: a mark outside the opening, if that is on the level. @param {Walked} walk @param {string} openingId @param {Level} level @param {string} kind @param {Places} places */
export function start(walk, openingId, level, kind, places) {
  const [leg] = walk.legs;
  const [from, to] = leg?.level === level.id ? leg.points : [];
  const opening = level.openings?.find((entry) => entry.id === openingId);
  const wall = opening && wallOf(level, opening.wall);
  if (!from || !to || !wall) return [];
  const left = leftOf(direction(wall.a, wall.b));
  const out = dot(left, minus(to, from)) > 0 ? times(left, -1) : left;
  const spot = (/** @type {number} */ far) => ({ at: from, by: /** @type {Point} */ ([out[0] * far, -out[1] * far]) });
  return [stop(from, "▸", kind, places.forMark(10, [spot(19), spot(34), spot(48)]).by)];
}

/** Signs where a walk leaves for another level or comes from one. @param {Walked} walk @param {Level[]} levels @param {string} levelId @param {Places} places */
export function stairs(walk, levels, levelId, places) {
  return walk.legs.flatMap((leg, i) => {
    if (leg.level !== levelId) return [];
    const [last, next] = [walk.legs[i - 1], walk.legs[i + 1]];
    const name = (/** @type {Leg} */ other) => levels.find((level) => level.id === other.level)?.name ?? other.level;
    const [begin, end] = [leg.points[0], leg.points.at(-1)];
    return [
      ...(last && begin ? signNear(places, begin, `from ${name(last)}`, "stair") : []),
      ...(next && end ? signNear(places, end, `on to ${name(next)}`, "stair") : []),
    ];
  });
}

/** First, second and later notices of a walk. @param {Notice[]} notices @returns {{notice: Notice, text: string}[]} */
export const numbered = (notices) => notices.slice(0, 2).map((notice, i) => ({ notice, text: String(i + 1) }));
