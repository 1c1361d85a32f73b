/**
 * Where the tag of a riser goes: beside the names, symbols and tags that stand on the level, and the counts of its bundles.
 * The tags of devices are placed again as the drawing placed them; nothing of it is worked out where no riser is drawn.
 */

/** @import { CableAnswer } from "../plan/cable_types.js" */
/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { TagPlace } from "./tags.js" */

import { between } from "../geometry/points.js";
import { tagOf, unitsOf } from "../plan/lookup.js";
import { countWidth, counted } from "./cable_runs.js";
import { boxAt, placeNames, placing, symbolBoxes } from "./tags.js";

/** @param {Desk} desk @param {CableAnswer} answer @returns {(at: Point, words: string) => TagPlace} */
export function riserTags(desk, answer) {
  /** @type {((at: Point, words: string) => TagPlace) | null} */
  let place = null;
  return (at, words) => (place ??= placeAmong(desk, answer))(at, words);
}

/** @param {Desk} desk @param {CableAnswer} answer */
function placeAmong({ store, proof, tables, view: { scale } }, answer) {
  const level = store.committedLevel;
  const { boxes } = placeNames(level, proof.answer?.rooms ?? [], unitsOf(store.plan), scale);
  const taken = [...boxes, ...symbolBoxes(level, scale)];
  const place = placing(level, taken, scale);
  for (const device of level.devices ?? []) place(device.at, tagOf(device, tables));
  for (const bundle of counted(answer, level.id, scale)) taken.push({ ...boxAt(between(...bundle.segment, 0.5), scale, 16), w: countWidth(bundle) });
  return place;
}
