/**
 * Openings keep to their wall: where they stand after its ends moved, where one may stand, and which no longer fit.
 * An opening keeps its distance to the end that stayed.
 */

/** @import { Level, Opening, Wall } from "./types.js" */

import { distance } from "../geometry/points.js";
import { OPENING_WORDS, wallOf } from "./lookup.js";
import { lengthText } from "./measures.js";

const SLACK = 1e-6;

/** @param {Wall} wall */
const lengthOf = (wall) => distance(wall.a, wall.b);

/**
 * Seat the openings of a changed level on its changed walls.
 * @param {Level} before @param {Level} after its walls changed, its openings not yet
 * @param {"imperial" | "metric"} units
 * @returns {{level: Level, words: string[]}} with the openings that no longer fit taken out and named
 */
export function keepOpenings(before, after, units) {
  /** @type {string[]} */
  const words = [];
  const old = new Map((before.walls ?? []).map((wall) => [wall.id, wall]));
  const changed = new Map((after.walls ?? []).filter((wall) => old.has(wall.id) && old.get(wall.id) !== wall).map((wall) => [wall.id, wall]));
  if (!changed.size) return { level: after, words };
  /** @type {Opening[]} */
  const kept = [];
  for (const opening of after.openings ?? []) {
    const wall = changed.get(opening.wall);
    const was = old.get(opening.wall);
    if (!wall || !was) {
      kept.push(opening);
      continue;
    }
    const seated = seat(opening, was, wall);
    const rival = seated && kept.find((earlier) => overlap(earlier, seated));
    const name = `${OPENING_WORDS[opening.kind]} ${opening.id}`;
    if (!seated) words.push(`${name} (${lengthText(opening.width, units)} wide) no longer fits wall ${wall.id} (${lengthText(lengthOf(wall), units)}) and was taken out; undo brings it back`);
    else if (rival) words.push(`${name} would overlap ${rival.id} on the shorter wall and was taken out; undo brings it back`);
    else kept.push(seated);
  }
  return { level: { ...after, openings: kept }, words };
}

/** @param {Opening} opening @param {Wall} was @param {Wall} wall @returns {Opening | null} null where the wall is too short */
function seat(opening, was, wall) {
  const length = lengthOf(wall);
  if (opening.width > length + SLACK) return null;
  const onlyA = distance(wall.b, was.b) < SLACK && distance(wall.a, was.a) >= SLACK;
  const offset = onlyA ? opening.offset + length - lengthOf(was) : opening.offset;
  const seated = Math.min(Math.max(0, offset), Math.max(0, length - opening.width));
  return seated === opening.offset ? opening : { ...opening, offset: seated };
}

/** Whether two openings share a part of their wall's face. @param {Opening} one @param {Opening} two */
export function overlap(one, two) {
  return one.wall === two.wall && one.id !== two.id
    && Math.min(one.offset + one.width, two.offset + two.width) > Math.max(one.offset, two.offset) + SLACK
    && Math.min(one.head ?? 6.667, two.head ?? 6.667) > Math.max(one.sill ?? 0, two.sill ?? 0);
}

/**
 * Why an opening cannot stand as it is, or null where it can.
 * @param {Level} level @param {Opening} opening @param {"imperial" | "metric"} units
 */
export function whyNoSeat(level, opening, units) {
  const wall = wallOf(level, opening.wall);
  if (!wall) return "it has no wall";
  if (opening.width > lengthOf(wall) + SLACK) return `it is wider than its wall (${lengthText(lengthOf(wall), units)})`;
  if (opening.offset < -SLACK || opening.offset + opening.width > lengthOf(wall) + SLACK) return "it runs past the end of its wall";
  const other = (level.openings ?? []).find((there) => overlap(there, opening));
  return other ? `it overlaps ${OPENING_WORDS[other.kind].toLowerCase()} ${other.id}` : null;
}
