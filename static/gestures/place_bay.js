/**
 * Place a bay: it rides on the wall under the pointer, stands out to the open side, and a press builds it.
 */

/** @import { Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { dimension, marksOf, sketch } from "../drawing/marks.js";
import { along, between, distance } from "../geometry/points.js";
import { bayCorners, withBay } from "../plan/bay.js";
import { unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { openSide, seatAlong } from "./place_opening.js";
import { gridStep } from "./field.js";
import { nearestWall } from "./snapping.js";

const REACH = 36; // px

/** @param {Desk} desk @returns {Gesture} */
export function placeBay(desk) {
  /** @type {{wall: Wall, from: number, side: 1 | -1} | null} */
  let held = null;

  /** @param {Spot} spot */
  function show(spot) {
    const hit = nearestWall(spot.at, desk.store.committedLevel.walls ?? [], REACH / desk.view.scale);
    if (!hit) {
      held = null;
      marksOf(desk).show([]);
      return marksOf(desk).say(spot.at, "", "point at the wall that gets the bay");
    }
    const { width } = desk.tools.bay;
    const from = seatAlong(hit.wall, along(spot.at, hit.wall.a, hit.wall.b) - width / 2, width, spot.free ? 0 : gridStep(desk));
    held = { wall: hit.wall, from, side: openSide(desk, hit.wall, { offset: from, width }) };
    draw();
  }

  function draw() {
    if (!held) return;
    const { wall, from, side } = held;
    const units = unitsOf(desk.store.plan);
    const shape = desk.tools.bay;
    const corners = bayCorners(wall, from, shape, side);
    const built = withBay(desk.store.plan, desk.store.committedLevel, wall, from, shape, side);
    const length = distance(wall.a, wall.b);
    const aside = (-side * 24) / desk.view.scale;
    const at = (/** @type {number} */ u) => between(wall.a, wall.b, u / length);
    marksOf(desk).show([
      ...(typeof corners === "string" ? [] : [sketch(corners, false, typeof built === "string" ? "refused" : "bay-to-be")]),
      ...(from > 0.02 ? [dimension(wall.a, at(from), aside, lengthText(from, units))] : []),
      ...(length - from - shape.width > 0.02 ? [dimension(at(from + shape.width), wall.b, aside, lengthText(length - from - shape.width, units))] : []),
    ]);
    marksOf(desk).say(at(from + shape.width / 2), `bay ${lengthText(shape.width, units)} wide, ${lengthText(shape.projection, units)} out`, typeof built === "string" ? `does not fit: ${built}` : "");
  }

  function build() {
    if (!held) return;
    const built = withBay(desk.store.plan, desk.store.committedLevel, held.wall, held.from, desk.tools.bay, held.side);
    if (typeof built === "string") return desk.say(`The bay does not fit: ${built}`, true);
    held = null;
    marksOf(desk).clear();
    desk.store.commit("Build a bay", built.plan);
    desk.selection.set(built.walls);
    desk.say(`Bay of the walls ${built.walls.join(", ")}`);
  }

  return {
    hint: "Press a wall where the bay goes. Type the distance to the nearer corner to set it.",
    asks: "Distance to the nearer corner",
    move: show,
    press(spot) {
      show(spot);
      build();
    },
    typed(feet) {
      if (!held) return;
      const rest = distance(held.wall.a, held.wall.b) - desk.tools.bay.width;
      held = { ...held, from: Math.max(0, Math.min(rest, held.from <= rest / 2 ? feet : rest - feet)) };
      build();
    },
    off: () => marksOf(desk).clear(),
  };
}
