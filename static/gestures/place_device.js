/**
 * Place a device: it follows the pointer with its computed answer, and a press puts it there.
 */

/** @import { Device } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { drawDevice } from "../drawing/devices.js";
import { marksOf } from "../drawing/marks.js";
import { addThings } from "../plan/edits.js";
import { kindOf, newId, nextLabel, unitsOf } from "../plan/lookup.js";
import { trialOf } from "../server/trial.js";
import { answerWords } from "./answer_words.js";
import { placeFor } from "./device_places.js";
import { snapMarks } from "./field.js";

export const PROVED = new Set(["glass_break", "motion"]); // kinds whose answer is worked out while they move

/** @param {Desk} desk @param {string} kindName @returns {Gesture} */
export function placeDevice(desk, kindName) {
  const kind = kindOf(desk.tables, kindName);
  /** @type {Device | null} */
  let held = null;
  /** @type {Spot | null} */
  let lastSpot = null;

  /** @param {Spot} spot */
  function show(spot) {
    lastSpot = spot;
    const faces = desk.proof.answer?.levels?.find((entry) => entry.id === desk.store.levelId)?.faces ?? [];
    const { snapped, keys } = spot.free ? { snapped: { at: spot.at, kind: /** @type {const} */ ("free"), words: "", guides: [] }, keys: {} } : placeFor(spot.at, kind, desk.store.committedLevel, faces, desk.view.scale);
    const id = held?.id ?? newId(desk.store.plan, kind.abbreviation.toLowerCase());
    const ceiling = kindName === "siren" && snapped.kind === "free" && !spot.free;
    held = { ...(kind.faces && !ceiling ? { facing: desk.tools.facing } : {}), ...(ceiling ? { mount: "ceiling", height: desk.store.committedLevel.ceiling ?? 9 } : {}), ...keys, id, kind: kindName, at: [round(snapped.at[0]), round(snapped.at[1])], label: nextLabel(desk.store.plan, kind.abbreviation) };
    if (held.facing != null) desk.tools.facing = held.facing;
    marksOf(desk).show([drawDevice(held, desk.tables), ...snapMarks(snapped)]);
    tell(ceiling ? "on the ceiling: no wall is near" : snapped.words);
    if (PROVED.has(kindName)) trialOf(desk).ask(desk.store.levelId, held, spot.since);
  }

  /** @param {string} words */
  function tell(words) {
    if (!held) return;
    const { main, more } = answerWords(held, desk.proof, unitsOf(desk.store.plan));
    marksOf(desk).say(held.at, main || words, main ? more || words : "");
  }

  desk.proof.listen((topic) => topic === "answer" && held && desk.proof.tried && tell(""));

  return {
    hint: `Press where the ${kind.name.toLowerCase()} goes.`,
    press(spot) {
      show(spot);
      if (!held) return;
      const device = held;
      held = null;
      trialOf(desk).end();
      marksOf(desk).clear();
      desk.store.commit(`Place ${device.label}`, addThings(desk.store.plan, desk.store.levelId, "devices", [device]));
      desk.selection.set([device.id]);
      desk.say(`${kind.name} ${device.label} placed`);
    },
    move: show,
    escape() {
      const was = held !== null && lastSpot?.touch === true;
      this.off?.();
      return was;
    },
    off() {
      held = null;
      trialOf(desk).end();
      desk.proof.settle();
      marksOf(desk).clear();
    },
  };
}

/** @param {number} feet */
const round = (feet) => Math.round(feet * 1e4) / 1e4;
