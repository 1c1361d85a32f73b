/**
 * Delay paths on the drawing: from each entry door to its nearest keypad, the chosen one with its length and time.
 */

/** @import { EntryPath } from "../../plan/protection_types.js" */
/** @import { Level, Plan } from "../../plan/types.js" */
/** @import { View } from "../view.js" */

import { Places, signNear } from "./labels.js";
import { line, placeAfter, stairs, start, stretch } from "./walk_lines.js";

/**
 * @param {EntryPath[]} paths @param {string | null} chosen door @param {Plan} plan @param {Level} level @param {View} view
 * @param {(path: EntryPath) => string} wordsOf
 */
export function drawEntries(paths, chosen, plan, level, view, wordsOf) {
  const places = new Places(view);
  const ordered = paths.slice().sort((one, two) => Number(one.door === chosen) - Number(two.door === chosen));
  return ordered.flatMap((path) => {
    const own = !chosen || path.door === chosen;
    return [
      ...line(stretch(path, level.id, 0, path.feet), own ? (path.in_time ? "entry" : "entry late") : "other"),
      ...start(path, path.door, level, own ? "start" : "start quieter", places),
      ...(own ? [...middleSign(path, level, places, wordsOf(path)), ...stairs(path, plan.levels, level.id, places)] : []),
    ];
  });
}

/** @param {EntryPath} path @param {Level} level @param {Places} places @param {string} words */
function middleSign(path, level, places, words) {
  for (const share of [0.5, 0.3, 0.7, 0.1, 0.9]) {
    const at = placeAfter(path, level.id, path.feet * share);
    const told = at ? signNear(places, at, words, path.in_time ? "entry" : "unseen") : [];
    if (told.length) return told;
  }
  return [];
}
