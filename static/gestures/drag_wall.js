/**
 * Drag one wall: square to itself, with what meets it; it stops in line with the walls beside it.
 */

/** @import { Point, Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Drag } from "./drags.js" */

import { dimension, guide, marksOf } from "../drawing/marks.js";
import { between, cross, direction, distance, dot, leftOf, minus } from "../geometry/points.js";
import { withLevel } from "../plan/edits.js";
import { unitsOf, wallOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { keepOpenings } from "../plan/openings_keep.js";
import { shiftWall } from "../plan/wall_shift.js";
import { gridStep } from "./field.js";

const NEAR = 8; // px

/** @param {Desk} desk @param {Wall} wall @param {Point} grabbed @returns {Drag} */
export function dragWall(desk, wall, grabbed) {
  const { plan, levelId } = desk.store;
  const level = desk.store.committedLevel;
  const units = unitsOf(plan);
  const square = leftOf(direction(wall.a, wall.b));
  const beside = (level.walls ?? []).filter((other) => other.id !== wall.id && Math.abs(cross(direction(other.a, other.b), direction(wall.a, wall.b))) < 1e-3)
    .map((other) => ({ other, off: dot(minus(other.a, wall.a), square) })).filter(({ off }) => Math.abs(off) > 1e-3);
  /** @type {string[]} */
  let words = [];
  return {
    move(spot) {
      const pulled = dot(minus(spot.at, grabbed), square);
      const step = spot.free ? 1e-4 : gridStep(desk);
      const line = spot.free ? undefined : beside.find(({ off }) => Math.abs(off - pulled) < NEAR / desk.view.scale);
      const by = line ? line.off : Math.round(pulled / step) * step;
      const shifted = shiftWall(plan, level, wall, by);
      if (!shifted) return marksOf(desk).say(spot.at, "", "a wall that meets it would have no length");
      const kept = keepOpenings(level, shifted, units);
      words = kept.words;
      desk.store.sketch(withLevel(plan, levelId, () => kept.level));
      const now = wallOf(kept.level, wall.id) ?? wall;
      const from = between(wall.a, wall.b, 0.5);
      marksOf(desk).show([
        ...(line ? [guide(line.other.a, now.a), guide(line.other.b, now.b)] : []),
        ...(Math.abs(by) > 0.05 ? [dimension(from, [from[0] + square[0] * by, from[1] + square[1] * by], 0, lengthText(Math.abs(by), units))] : []),
      ]);
      marksOf(desk).say(spot.at, `${wall.id} ${lengthText(distance(now.a, now.b), units)}`, words[0] ?? (line ? `in line with ${line.other.id}` : ""));
    },
    end() {
      const { draft } = desk.store;
      marksOf(desk).clear();
      if (draft) desk.store.commit(`Move wall ${wall.id}`, draft);
      for (const told of words) desk.say(told, true);
    },
    cancel() {
      marksOf(desk).clear();
      desk.store.sketch(null);
    },
  };
}
