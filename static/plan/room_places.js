/**
 * The closed rooms of a level that have no name yet, in reading order, each with a place inside it.
 */

/** @import { Point, Room } from "./types.js" */

import { inside, signedArea } from "../geometry/points.js";
import { middleOf } from "./lookup.js";

const LEAST = 1; // sq ft: less is a gap between walls and no room

/** Places in faces that no room's point lies in, from the top left on. @param {Point[][]} faces @param {Pick<Room, "at">[]} rooms @returns {Point[]} */
export function unnamedPlaces(faces, rooms) {
  return faces.filter((face) => Math.abs(signedArea(face)) > LEAST && !rooms.some((room) => inside(room.at, face)))
    .map(placeIn)
    .sort((one, two) => Math.round((two[1] - one[1]) / 4) || one[0] - two[0]);
}

/** The mean of a face's corners where it lies inside, else the middle of the widest stretch at that height. @param {Point[]} face @returns {Point} */
function placeIn(face) {
  const middle = middleOf(face);
  const y = middle[1] + 1e-3; // off a height at which walls often run
  const cuts = face.flatMap((p, i) => {
    const q = /** @type {Point} */ (face[(i + 1) % face.length]);
    return p[1] > y === q[1] > y ? [] : [p[0] + ((q[0] - p[0]) * (y - p[1])) / (q[1] - p[1])];
  }).sort((one, two) => one - two);
  let best = /** @type {[number, number]} */ ([middle[0], middle[0]]);
  for (let i = 0; i + 1 < cuts.length; i += 2) {
    const [from, to] = [cuts[i] ?? 0, cuts[i + 1] ?? 0];
    if (inside(middle, face) && from < middle[0] && middle[0] < to) return [Math.round(middle[0] * 1e4) / 1e4, Math.round(middle[1] * 1e4) / 1e4];
    if (to - from > best[1] - best[0]) best = [from, to];
  }
  return [Math.round(((best[0] + best[1]) / 2) * 1e4) / 1e4, Math.round(y * 1e4) / 1e4];
}
