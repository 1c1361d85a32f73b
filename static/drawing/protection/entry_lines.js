/**
 * Delay paths on the drawing: from each entry door to its nearest keypad, the chosen one with its length and time.
 */

/** @import { EntryPath } from "../../plan/protection_types.js" */
/** @import { Level, Plan } from "../../plan/types.js" */

import { Places, sign } from "./labels.js";
import { line, placeAfter, stairs, stop, stretch } from "./walk_lines.js";

/**
 * @param {EntryPath[]} paths @param {string | null} chosen door @param {Plan} plan @param {Level} level @param {number} scale px a foot
 * @param {(path: EntryPath) => string} wordsOf
 */
export function drawEntries(paths, chosen, plan, level, scale, wordsOf) {
  const places = new Places(scale);
  for (const device of level.devices ?? []) places.keep(device.at, 12);
  const ordered = paths.slice().sort((one, two) => Number(one.door === chosen) - Number(two.door === chosen));
  return ordered.flatMap((path) => {
    const own = !chosen || path.door === chosen;
    const kind = own ? (path.in_time ? "entry" : "entry late") : "other";
    const start = placeAfter(path, level.id, 0);
    const signs = own ? middleSign(path, level, places, wordsOf(path)) : [];
    return [
      ...line(stretch(path, level.id, 0, path.feet), kind),
      ...stairs(path, plan.levels, level.id),
      ...(start ? [stop(start, "▸", own ? "start" : "start quieter")] : []),
      ...signs,
    ];
  });
}

/** @param {EntryPath} path @param {Level} level @param {Places} places @param {string} words */
function middleSign(path, level, places, words) {
  for (const share of [0.5, 0.3, 0.7, 0.1, 0.9]) {
    const at = placeAfter(path, level.id, path.feet * share);
    const place = at && places.free(words, [[0, -22], [0, 24], [0, -42], [0, 44], [60, 0], [-60, 0]].map(([x, y]) => ({ at, by: /** @type {[number, number]} */ ([x ?? 0, y ?? 0]) })));
    if (at && place) return [sign(at, words, path.in_time ? "entry" : "unseen", place.by)];
  }
  return [];
}
