/**
 * Dimension strings of what is selected: a wall's whole length and the stretches between its openings, a room's clear
 * width and depth.
 */

/** @import { Level, Point, Room, RoomAnswer, Wall } from "../plan/types.js" */

import { between, boxOf, direction, distance, inside, leftOf, plus, times } from "../geometry/points.js";
import { lengthText } from "../plan/measures.js";
import { dimension } from "./marks.js";

const [FIRST, NEXT] = [36, 38]; // px from the wall's face, and from string to string
const SHORTEST = 0.02; // ft
const LETTER = 6.6; // px

/**
 * @param {Wall} wall @param {Level} level @param {Point[][]} faces @param {number} scale px a foot @param {"imperial" | "metric"} units
 * @returns {SVGElement[]}
 */
export function wallStrings(wall, level, faces, scale, units) {
  const length = distance(wall.a, wall.b);
  if (length < SHORTEST) return [];
  const way = side(wall, faces);
  const aside = (/** @type {number} */ px) => way * ((wall.thickness ?? 0.375) / 2 + px / scale);
  const at = (/** @type {number} */ u) => between(wall.a, wall.b, u / length);
  const stops = (level.openings ?? []).filter((opening) => opening.wall === wall.id).flatMap((opening) => [opening.offset, opening.offset + opening.width]).sort((one, two) => one - two);
  const parts = stops.length ? [0, ...stops, length] : [];
  const strings = parts.slice(1).flatMap((until, i) => {
    const from = /** @type {number} */ (parts[i]);
    const words = lengthText(until - from, units);
    const fits = words.length * LETTER < (until - from) * scale;
    return until - from < SHORTEST ? [] : [dimension(at(from), at(until), aside(FIRST), words, fits ? 0 : -13 * (1 - 2 * (i % 2)))];
  });
  return [...strings, dimension(wall.a, wall.b, aside(stops.length ? FIRST + NEXT : FIRST), lengthText(length, units))];
}

/** The side over no room, else the left. @param {Wall} wall @param {Point[][]} faces */
function side(wall, faces) {
  const middle = between(wall.a, wall.b, 0.5);
  const step = times(leftOf(direction(wall.a, wall.b)), (wall.thickness ?? 0.375) / 2 + 0.3);
  const [left, right] = [step, times(step, -1)].map((off) => faces.some((ring) => inside(plus(middle, off), ring)));
  return left && !right ? -1 : 1;
}

/** @param {Room} room @param {RoomAnswer | undefined} answer @param {number} scale @param {"imperial" | "metric"} units @returns {SVGElement[]} */
export function roomStrings(room, answer, scale, units) {
  const box = answer?.id === room.id && answer.outline ? boxOf(answer.outline.flat()) : null;
  if (!box || (box.right - box.left) * scale < 50 || (box.top - box.bottom) * scale < 50) return [];
  const off = 16 / scale;
  return [
    dimension([box.left, box.bottom], [box.right, box.bottom], off, lengthText(box.right - box.left, units)),
    dimension([box.left, box.bottom], [box.left, box.top], -off, lengthText(box.top - box.bottom, units)),
  ];
}
