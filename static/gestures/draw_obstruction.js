/**
 * Draw an obstruction: a box in two presses, or an outline corner by corner until Enter or a closing press.
 */

/** @import { Fixture, Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { marksOf, sketch } from "../drawing/marks.js";
import { direction, distance, plus, signedArea, times } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { snapMarks, snapped } from "./field.js";
import { angleWords } from "./snapping.js";

/** @param {Desk} desk @returns {Gesture} */
export function drawObstruction(desk) {
  /** @type {Point[]} */
  let corners = [];
  /** @type {Point} */
  let end = [0, 0];
  const isBox = () => desk.tools.obstruction.shape === "box";

  /** @param {Point[]} ring */
  function build(ring) {
    leave();
    if (Math.abs(signedArea(ring)) < 0.02) return;
    const { base, top, label } = desk.tools.obstruction;
    /** @type {Fixture} */
    const fixture = { id: newId(desk.store.plan, PREFIX.fixtures), kind: "obstruction", polygon: ring, base, ...(top === null ? {} : { top }), label };
    desk.store.commit("Draw an obstruction", addThings(desk.store.plan, desk.store.levelId, "fixtures", [fixture]));
    desk.selection.set([fixture.id]);
    desk.say(`Obstruction ${fixture.id}`);
  }

  function leave() {
    const was = corners.length > 0;
    corners = [];
    marksOf(desk).clear();
    desk.pointer.tell();
    return was;
  }

  /** @param {Point} p @param {Point} q @returns {Point[]} */
  const box = (p, q) => [p, [q[0], p[1]], q, [p[0], q[1]]];

  /** @param {Spot} spot */
  function show(spot) {
    const from = corners.at(-1) ?? null;
    const to = snapped(desk, spot, isBox() ? null : from, { corners });
    end = to.at;
    const units = unitsOf(desk.store.plan);
    marksOf(desk).show([...(from ? [sketch(isBox() ? box(from, end) : [...corners, end], true)] : []), ...snapMarks(to)]);
    if (!from) marksOf(desk).say(end, "", to.words);
    else if (isBox()) marksOf(desk).say(end, `${lengthText(Math.abs(end[0] - from[0]), units)} × ${lengthText(Math.abs(end[1] - from[1]), units)}`, to.words);
    else marksOf(desk).say(end, `${lengthText(distance(from, end), units)}  ${angleWords(direction(from, end))}`, to.words);
  }

  /** @param {Point} corner */
  function add(corner) {
    const first = corners[0];
    if (first && isBox()) return build(box(first, corner));
    if (first && corners.length > 2 && distance(first, corner) < 8 / desk.view.scale) return build(corners);
    corners = [...corners, corner];
  }

  return {
    get hint() {
      if (isBox()) return corners.length ? "Press the opposite corner." : "Press one corner of the obstruction.";
      return corners.length ? "Press the next corner; Enter or the first corner closes it." : "Press the first corner of the outline.";
    },
    get asks() {
      return corners.length && !isBox() ? "Length" : undefined;
    },
    press(spot) {
      show(spot);
      add(end);
      desk.pointer.tell();
    },
    move: show,
    typed(feet) {
      const from = corners.at(-1);
      if (from) add(plus(from, times(direction(from, end), feet)));
    },
    enter: () => (corners.length > 2 ? build(corners) : undefined),
    escape: leave,
    off: () => void leave(),
  };
}
