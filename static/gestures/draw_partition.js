/**
 * Draw a partition in one press: from the wall under the pointer square across the room to the next wall. A typed
 * length is its distance to the nearer corner of the room.
 */

/** @import { Point, Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { dimension, marksOf, sketch, wallToBe } from "../drawing/marks.js";
import { along, between, direction, distance, dot, leftOf, minus, times } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { nextWall, stretchAt } from "../plan/stretches.js";
import { gridStep } from "./field.js";
import { nearestWall } from "./snapping.js";

const REACH = 36; // px from a wall at which a partition takes to it

/** @typedef {{wall: Wall, side: 1 | -1, u: number, stretch: {from: number, to: number}}} Foot where a partition stands on a wall */

/** @param {Desk} desk @returns {Gesture} */
export function drawPartition(desk) {
  /** @type {Foot | null} */
  let foot = null;
  const walls = () => desk.store.committedLevel.walls ?? [];

  /** @param {Foot} at @returns {[Point, Point] | null} */
  function line(at) {
    const from = between(at.wall.a, at.wall.b, at.u / distance(at.wall.a, at.wall.b));
    const to = nextWall(from, times(leftOf(direction(at.wall.a, at.wall.b)), at.side), walls().filter((wall) => wall.id !== at.wall.id));
    return to && [from, to];
  }

  /** @param {Spot} spot */
  function show(spot) {
    foot = footAt(spot);
    const to = foot && line(foot);
    if (!foot || !to) {
      marksOf(desk).show([]);
      return marksOf(desk).say(spot.at, "", foot ? "no wall stands across from here" : "point at a wall, on the room's side");
    }
    const units = unitsOf(desk.store.plan);
    const { wall, stretch, u, side } = foot;
    const at = (/** @type {number} */ feet) => between(wall.a, wall.b, feet / distance(wall.a, wall.b));
    const aside = (-side * 22) / desk.view.scale;
    marksOf(desk).show([
      wallToBe(...to, desk.tools.wall.thickness), sketch(to, false, "centreline"),
      ...[[stretch.from, u], [u, stretch.to]].flatMap(([from = 0, until = 0]) => (until - from > 0.02 ? [dimension(at(from), at(until), aside, lengthText(until - from, units))] : [])),
    ]);
    marksOf(desk).say(spot.at, lengthText(distance(...to), units), Math.abs(2 * u - stretch.from - stretch.to) < 1e-6 ? "middle of the room's wall" : "");
  }

  /** @param {Spot} spot @returns {Foot | null} */
  function footAt(spot) {
    const hit = nearestWall(spot.at, walls(), REACH / desk.view.scale);
    if (!hit) return null;
    const { wall } = hit;
    const side = dot(minus(spot.at, wall.a), leftOf(direction(wall.a, wall.b))) < 0 ? -1 : 1;
    const wanted = Math.max(0, Math.min(distance(wall.a, wall.b), along(spot.at, wall.a, wall.b)));
    const stretch = stretchAt(wall, walls(), wanted, side);
    const step = gridStep(desk);
    const middle = (stretch.from + stretch.to) / 2;
    const stepped = Math.abs(wanted - middle) < step * 0.75 ? middle : stretch.from + Math.round((wanted - stretch.from) / step) * step;
    return { wall, side, stretch, u: spot.free ? wanted : stepped };
  }

  function place() {
    const ends = foot && line(foot);
    if (!ends) return;
    const { thickness, height } = desk.tools.wall;
    /** @type {Wall} */
    const wall = { id: newId(desk.store.plan, PREFIX.walls), a: ends[0], b: ends[1], thickness, ...(height === null ? {} : { height }) };
    desk.store.commit("Draw a partition", addThings(desk.store.plan, desk.store.levelId, "walls", [wall]));
    desk.say(`Partition ${wall.id}, ${lengthText(distance(...ends), unitsOf(desk.store.plan))}`);
    foot = null;
    marksOf(desk).clear();
  }

  return {
    hint: "Press beside a wall, on the room's side: the partition runs square across to the next wall. Type its distance to the nearer corner to set it.",
    asks: "Distance to the nearer corner",
    move: show,
    press(spot) {
      show(spot);
      place();
    },
    typed(feet) {
      if (!foot) return;
      const { from, to } = foot.stretch;
      if (feet > to - from) return desk.say(`The wall is ${lengthText(to - from, unitsOf(desk.store.plan))} long here`, true);
      foot = { ...foot, u: foot.u - from <= to - foot.u ? from + feet : to - feet };
      place();
    },
    off: () => marksOf(desk).clear(),
  };
}
