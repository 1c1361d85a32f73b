/**
 * Cut a wall in two where it is pressed; a typed length is the distance from the nearer end.
 */

/** @import { Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { dimension, marksOf, sketch } from "../drawing/marks.js";
import { along, between, direction, distance, leftOf, minus, plus, times } from "../geometry/points.js";
import { splitWall } from "../plan/edits.js";
import { OPENING_WORDS, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { openSide, seatAlong } from "./place_opening.js";
import { gridStep } from "./field.js";
import { nearestWall } from "./snapping.js";

const [REACH, SHORTEST] = [24, 0.1]; // px from a wall; ft

/** @param {Desk} desk @returns {Gesture} */
export function cutWall(desk) {
  /** @type {{wall: Wall, at: number} | null} */
  let held = null;

  const blocking = () => (desk.store.committedLevel.openings ?? []).find((opening) => held && opening.wall === held.wall.id && opening.offset < held.at - 1e-6 && opening.offset + opening.width > held.at + 1e-6);

  /** @param {Spot} spot */
  function show(spot) {
    const hit = nearestWall(spot.at, desk.store.committedLevel.walls ?? [], REACH / desk.view.scale);
    held = hit && { wall: hit.wall, at: seatAlong(hit.wall, along(spot.at, hit.wall.a, hit.wall.b), 0, spot.free ? 0 : gridStep(desk)) };
    if (!held) {
      marksOf(desk).show([]);
      return marksOf(desk).say(spot.at, "", "point at the wall to cut");
    }
    const { wall, at } = held;
    const length = distance(wall.a, wall.b);
    const cut = between(wall.a, wall.b, at / length);
    const across = times(leftOf(direction(wall.a, wall.b)), (wall.thickness ?? 0.375) / 2 + 8 / desk.view.scale);
    const units = unitsOf(desk.store.plan);
    const aside = (openSide(desk, wall, { offset: at, width: 0 }) * 30) / desk.view.scale;
    marksOf(desk).show([
      sketch([plus(cut, across), minus(cut, across)], false, "cut"),
      ...(at > SHORTEST ? [dimension(wall.a, cut, aside, lengthText(at, units))] : []),
      ...(length - at > SHORTEST ? [dimension(cut, wall.b, aside, lengthText(length - at, units))] : []),
    ]);
    const opening = blocking();
    marksOf(desk).say(cut, `cut ${wall.id}`, opening ? `${OPENING_WORDS[opening.kind].toLowerCase()} ${opening.id} stands across` : "");
  }

  function cut() {
    if (!held) return;
    const { wall, at } = held;
    const length = distance(wall.a, wall.b);
    if (at < SHORTEST || at > length - SHORTEST) return desk.say("Too near to the wall's end to cut it", true);
    const next = splitWall(desk.store.plan, desk.store.committedLevel, wall, at);
    const opening = blocking();
    if (!next) return desk.say(`${opening ? `${OPENING_WORDS[opening.kind]} ${opening.id}` : "An opening"} stands across the cut: move it first`, true);
    held = null;
    marksOf(desk).clear();
    desk.store.commit(`Split wall ${wall.id}`, next);
    desk.say(`Wall ${wall.id} is cut ${lengthText(at, unitsOf(desk.store.plan))} from its start; its openings stay where they are`);
  }

  return {
    hint: "Press a wall where it is to be cut in two. Type the distance from the nearer end to set it.",
    asks: "Distance from the nearer end",
    move: show,
    press(spot) {
      show(spot);
      cut();
    },
    typed(feet) {
      if (!held) return;
      const length = distance(held.wall.a, held.wall.b);
      held = { ...held, at: held.at <= length / 2 ? feet : length - feet };
      cut();
    },
    off: () => marksOf(desk).clear(),
  };
}
