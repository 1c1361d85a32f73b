/**
 * What changes the selected things, whatever button or key asks for it: delete, copy, paste, turn, mirror, nudge.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Held } from "../plan/copying.js" */
/** @import { Change } from "../plan/turning.js" */

import { copyOf, putDown } from "../plan/copying.js";
import { moveThings, removeThings, withLevel } from "../plan/edits.js";
import { FAMILIES, OPENING_WORDS, find, nameOf, placeOf, unitsOf, wallOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { keepOpenings, whyNoSeat } from "../plan/openings_keep.js";
import { changeThings, middleOfThings, mirrored, onlyOpenings, rehung, shifted, turned } from "../plan/turning.js";
import { isMet, shiftWall } from "../plan/wall_shift.js";
import { direction, dot, leftOf } from "../geometry/points.js";

const BESIDE = 2; // ft east and south, at which a copy lies

/** @type {Held | null} what was copied */
let clipboard = null;
/** Where it was copied or pasted last, and how often: a paste on the same level lies beside, not upon. */
let pasted = { levelId: "", times: 0 };

/** Whether something was copied from a plan. */
export const holdsCopies = () => clipboard !== null;

/** @param {Desk} desk */
export function remove(desk) {
  const { ids } = desk.selection;
  if (!ids.size) return;
  const first = find(desk.store.plan, /** @type {string} */ ([...ids][0]));
  const name = ids.size === 1 && first ? nameOf(first, desk.tables) : `${ids.size} things`;
  const { plan, along } = removeThings(desk.store.plan, ids);
  const named = along.slice(0, 3).map((opening) => `${OPENING_WORDS[opening.kind].toLowerCase()} ${opening.id}`).join(", ");
  const more = along.length ? ` with ${named}${along.length > 3 ? ` and ${along.length - 3} more openings` : ""}` : "";
  desk.store.commit(`Delete ${name}`, plan);
  desk.say(`${name}${more} deleted; undo brings it back`, along.length > 0);
}

/** @param {Desk} desk */
export function copy(desk) {
  if (!desk.selection.ids.size) return desk.say("Nothing is selected");
  clipboard = copyOf(desk.store.plan, desk.selection.ids);
  pasted = { levelId: desk.store.levelId, times: 0 };
  const count = FAMILIES.reduce((sum, family) => sum + (clipboard?.[family]?.length ?? 0), 0);
  desk.say(count ? `${count} copied` : "An opening is copied with its wall: select the wall");
}

/** On another level in the same place, on the same one beside. @param {Desk} desk */
export function paste(desk) {
  if (!clipboard || !Object.keys(clipboard).length) return desk.say("Nothing is copied yet");
  pasted = pasted.levelId === desk.store.levelId ? { ...pasted, times: pasted.times + 1 } : { levelId: desk.store.levelId, times: 0 };
  put(desk, clipboard, shifted([BESIDE * pasted.times, -BESIDE * pasted.times]), "Paste");
}

/** @param {Desk} desk */
export function duplicate(desk) {
  if (!desk.selection.ids.size) return desk.say("Nothing is selected");
  const held = copyOf(desk.store.plan, desk.selection.ids);
  if (!Object.keys(held).length) return desk.say("An opening is duplicated with its wall: select the wall");
  put(desk, held, shifted([BESIDE, -BESIDE]), "Duplicate");
}

/** @param {Desk} desk @param {Held} held @param {Change} change @param {string} words */
function put(desk, held, change, words) {
  const { plan, ids } = putDown(desk.store.plan, desk.store.levelId, held, change);
  desk.store.commit(words, plan);
  desk.selection.set(ids);
  desk.say(`${words}: ${ids.length} thing${ids.length === 1 ? "" : "s"}`);
}

/** Turn the selection about its middle. @param {Desk} desk @param {number} degrees counter-clockwise */
export function turn(desk, degrees) {
  const { store, selection } = desk;
  const level = store.committedLevel;
  const about = middleOfThings(level, selection.ids);
  if (!about) return desk.say(selection.ids.size ? "An opening turns with its wall: select the wall" : "Nothing is selected");
  const after = changeThings(level, selection.ids, turned(about, degrees));
  store.commit(`Turn by ${degrees}°`, withLevel(store.plan, level.id, () => after));
  desk.say(`Turned by ${Math.abs(degrees)}° to the ${degrees > 0 ? "left" : "right"}`);
}

/** Mirror the selection about a line through its middle; a door alone is hung on its other jamb. @param {Desk} desk @param {"upright" | "level"} line */
export function mirror(desk, line) {
  const { store, selection } = desk;
  const level = store.committedLevel;
  if (!selection.ids.size) return desk.say("Nothing is selected");
  if (onlyOpenings(level, selection.ids)) {
    store.commit("Hang on the other jamb", withLevel(store.plan, level.id, () => rehung(level, selection.ids)));
    return desk.say("Hung on the other jamb");
  }
  const about = middleOfThings(level, selection.ids);
  if (!about) return;
  const after = changeThings(level, selection.ids, mirrored(about, line));
  store.commit("Mirror", withLevel(store.plan, level.id, () => after));
  desk.say(line === "upright" ? "Mirrored left to right" : "Mirrored top to bottom");
}

/** Move the selection by a step. @param {Desk} desk @param {Point} by feet */
export function nudge(desk, by) {
  const { store, selection } = desk;
  const level = store.committedLevel;
  const units = unitsOf(store.plan);
  const only = selection.only ? find(store.plan, selection.only) : undefined;
  let after = moveThings(level, selection.ids, by);
  if (only?.family === "walls" && isMet(level, only.thing)) {
    const feet = dot(by, leftOf(direction(only.thing.a, only.thing.b)));
    if (Math.abs(feet) < 1e-6) return desk.say(`${only.thing.id} meets other walls: it moves square to itself`);
    const shifted = shiftWall(store.plan, level, only.thing, feet);
    if (!shifted) return desk.say(`${only.thing.id} stays: a wall that meets it would have no length`);
    after = shifted;
  }
  if (only?.family === "openings") {
    const wall = wallOf(level, only.thing.wall);
    const moved = { ...only.thing, offset: only.thing.offset + (wall ? dot(by, direction(wall.a, wall.b)) : 0) };
    const fault = whyNoSeat(level, moved, units);
    if (fault) return desk.say(`${only.thing.id} stays: ${fault}`);
    after = { ...level, openings: (level.openings ?? []).map((opening) => (opening.id === moved.id ? moved : opening)) };
  }
  const kept = keepOpenings(level, after, units);
  store.commit("Nudge", withLevel(store.plan, level.id, () => kept.level));
  for (const words of kept.words) desk.say(words, true);
  const moved = only && find(store.plan, only.thing.id);
  if (moved) {
    const [x, y] = placeOf(moved);
    desk.say(`${nameOf(moved, desk.tables)} at ${lengthText(x, units)} east, ${lengthText(y, units)} north`);
  }
}
