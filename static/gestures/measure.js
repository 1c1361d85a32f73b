/**
 * Measure between two presses: the distance, how far east and north, the direction. Nothing is changed.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { dimension, marksOf } from "../drawing/marks.js";
import { direction, distance, minus } from "../geometry/points.js";
import { unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { snapMarks, snapped } from "./field.js";
import { angleWords } from "./snapping.js";

/** @param {Desk} desk @returns {Gesture} */
export function measure(desk) {
  /** @type {Point | null} */
  let from = null;
  /** @type {[Point, Point] | null} what was measured last; it stays to be read */
  let done = null;

  /** @param {[Point, Point]} line */
  const drawn = ([p, q]) => (distance(p, q) < 0.01 ? [] : [dimension(p, q, 0, lengthText(distance(p, q), unitsOf(desk.store.plan)))]);

  /** @param {Point} p @param {Point} q */
  function words(p, q) {
    const units = unitsOf(desk.store.plan);
    const [dx, dy] = minus(q, p);
    return `${lengthText(Math.abs(dx), units)} ${dx < 0 ? "west" : "east"}, ${lengthText(Math.abs(dy), units)} ${dy < 0 ? "south" : "north"}, ${angleWords(direction(p, q))}`;
  }

  /** @param {Spot} spot @returns {Point} */
  function show(spot) {
    const to = snapped(desk, spot, from);
    marksOf(desk).show([...(done && !from ? drawn(done) : []), ...(from ? drawn([from, to.at]) : []), ...snapMarks(to)]);
    if (from) marksOf(desk).say(to.at, lengthText(distance(from, to.at), unitsOf(desk.store.plan)), words(from, to.at));
    else marksOf(desk).say(to.at, "", to.words);
    return to.at;
  }

  return {
    get hint() {
      return from ? "Press where to measure to." : "Press where to measure from.";
    },
    press(spot) {
      const at = show(spot);
      if (!from) {
        [from, done] = [at, null];
      } else {
        done = [from, at];
        desk.say(`${lengthText(distance(...done), unitsOf(desk.store.plan))}: ${words(...done)}`);
        from = null;
        marksOf(desk).show(drawn(done));
      }
      desk.pointer.tell();
    },
    move: show,
    escape() {
      const was = from !== null || done !== null;
      [from, done] = [null, null];
      marksOf(desk).clear();
      desk.pointer.tell();
      return was;
    },
    off: () => marksOf(desk).clear(),
  };
}
