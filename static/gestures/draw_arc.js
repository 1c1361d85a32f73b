/**
 * Draw a curved wall by its two ends and a point between: it is built as short straight walls, and how far these lie off
 * the arc is told. A typed length is the rise of the arc over the line between its ends.
 */

/** @import { Point, Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { marksOf, sketch, wallToBe } from "../drawing/marks.js";
import { arcCorners } from "../geometry/arcs.js";
import { between, cross, direction, distance, dot, leftOf, minus, plus, times } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { snapMarks, snapped } from "./field.js";

/** @param {Desk} desk @returns {Gesture} */
export function drawArc(desk) {
  /** @type {Point[]} the ends pressed so far */
  let ends = [];
  /** @type {Point} */
  let here = [0, 0];

  function leave() {
    const was = ends.length > 0;
    ends = [];
    marksOf(desk).clear();
    desk.pointer.tell();
    return was;
  }

  /** @param {Point} by */
  const arcBy = (by) => (ends[0] && ends[1] ? arcCorners(ends[0], ends[1], by, desk.tools.arc.within) : null);

  /** @param {Spot} spot */
  function show(spot) {
    const [p, q] = ends;
    const to = snapped(desk, spot, p && !q ? p : null, { corners: ends });
    here = q ? bulge(spot.free ? spot.at : to.at) : to.at;
    const units = unitsOf(desk.store.plan);
    const { thickness } = desk.tools.wall;
    if (p && q) {
      const arc = arcBy(here);
      const corners = arc?.corners ?? [p, q];
      marksOf(desk).show([...corners.slice(1).map((corner, i) => wallToBe(/** @type {Point} */ (corners[i]), corner, thickness)), sketch(corners, false, "centreline open")]);
      return marksOf(desk).say(here, arc ? `radius ${lengthText(arc.radius, units, 2)}, rise ${lengthText(rise(here), units)}` : "pull it off the straight", arc ? told(arc) : "");
    }
    marksOf(desk).show([...(p ? [wallToBe(p, here, thickness)] : []), ...snapMarks(to)]);
    marksOf(desk).say(here, p ? lengthText(distance(p, here), units) : "", to.words);
  }

  /** The middle of an arc that passes the pointer, as high over the chord as it is. @param {Point} at @returns {Point} */
  function bulge(at) {
    const [p, q] = /** @type {[Point, Point]} */ (ends);
    const square = leftOf(direction(p, q));
    return plus(between(p, q, 0.5), times(square, dot(minus(at, p), square)));
  }

  /** @param {Point} at */
  const rise = (at) => Math.abs(cross(direction(/** @type {Point} */ (ends[0]), /** @type {Point} */ (ends[1])), minus(at, /** @type {Point} */ (ends[0]))));

  /** @param {NonNullable<ReturnType<typeof arcCorners>>} arc */
  function told(arc) {
    const off = unitsOf(desk.store.plan) === "metric" ? `${Math.max(1, Math.round(arc.off * 304.8))} mm` : `${(arc.off * 12).toFixed(2)} in`;
    return `${arc.corners.length - 1} straight walls, at most ${off} off the arc`;
  }

  /** @param {Point} by */
  function build(by) {
    const arc = arcBy(by);
    if (!arc) return;
    /** @type {Set<string>} */
    const ids = new Set();
    const { thickness, height } = desk.tools.wall;
    const walls = arc.corners.slice(1).map((corner, i) => /** @type {Wall} */ ({
      id: newId(desk.store.plan, PREFIX.walls, ids), a: /** @type {Point} */ (arc.corners[i]), b: corner, thickness, ...(height === null ? {} : { height }),
    }));
    const words = told(arc);
    leave();
    desk.store.commit("Draw a curved wall", addThings(desk.store.plan, desk.store.levelId, "walls", walls));
    desk.say(`Curved wall: ${words}`);
  }

  return {
    get hint() {
      return ["Press where the curved wall begins.", "Press where it ends.", "Press a point that it passes, or type its rise."][ends.length] ?? "";
    },
    get asks() {
      return ends.length === 1 ? "Length" : ends.length === 2 ? "Rise" : undefined;
    },
    press(spot) {
      show(spot);
      if (ends.length === 2) build(here);
      else if (!ends[0] || distance(ends[0], here) > 0.2) ends = [...ends, here];
      desk.pointer.tell();
    },
    move: show,
    typed(feet) {
      const [p, q] = ends;
      if (p && q) {
        const up = dot(minus(here, p), leftOf(direction(p, q))) < 0 ? -1 : 1;
        build(plus(between(p, q, 0.5), times(leftOf(direction(p, q)), up * feet)));
      } else if (p && feet > 0.2) ends = [p, plus(p, times(direction(p, here), feet))];
      desk.pointer.tell();
    },
    escape: leave,
    off: () => void leave(),
  };
}
