/**
 * Place a riser by a press: where cable may pass to the level above, or below from the top one.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { marksOf } from "../drawing/marks.js";
import { withRiser } from "../plan/risers.js";
import { snapMarks, snapped } from "./field.js";

/** @param {Desk} desk @returns {Gesture} */
export function placeRiser(desk) {
  const alone = () => desk.store.plan.levels.length < 2;
  /** @param {Spot} spot */
  const show = (spot) => {
    const to = snapped(desk, spot);
    marksOf(desk).show(snapMarks(to));
    marksOf(desk).say(to.at, "Riser", alone() ? "the plan has one level" : to.words);
    return to.at;
  };
  return {
    hint: "Press where cable can pass between the levels: a chase, a closet over a closet.",
    move: show,
    press(spot) {
      const at = show(spot);
      if (alone()) return desk.say("A riser leads to another level: the plan has one", true);
      const { plan, riser } = withRiser(desk.store.plan, desk.store.levelId, at);
      desk.store.commit(`Add riser ${riser.id}`, plan);
      const to = plan.levels.find((level) => level.id === riser.to)?.name ?? riser.to;
      desk.say(`Riser ${riser.id} to ${to}`);
    },
    off: () => marksOf(desk).clear(),
  };
}
