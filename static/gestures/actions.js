/**
 * What can be done to the selection and the steps, whatever button or key asks for it.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Held } from "../plan/copying.js" */

import { copyOf, putDown } from "../plan/copying.js";
import { moveThings, removeThings, withLevel } from "../plan/edits.js";
import { FAMILIES, find, nameOf, placeOf, unitsOf, wallOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { keepOpenings, whyNoSeat } from "../plan/openings_keep.js";
import { direction, dot } from "../geometry/points.js";

/** @type {Held | null} what was copied */
let clipboard = null;

/** Whether something was copied from a plan. */
export const holdsCopies = () => clipboard !== null;

/** @param {Desk} desk */
export function undo(desk) {
  const words = desk.store.undo();
  desk.say(words ? `Undone: ${words}` : "Nothing to undo");
}

/** @param {Desk} desk */
export function redo(desk) {
  const words = desk.store.redo();
  desk.say(words ? `Done again: ${words}` : "Nothing to do again");
}

/** @param {Desk} desk */
export function remove(desk) {
  const { ids } = desk.selection;
  if (!ids.size) return;
  const first = find(desk.store.plan, /** @type {string} */ ([...ids][0]));
  const name = ids.size === 1 && first ? nameOf(first, desk.tables) : `${ids.size} things`;
  const { plan, along } = removeThings(desk.store.plan, ids);
  const more = along ? ` with ${along} opening${along === 1 ? "" : "s"}` : "";
  desk.store.commit(`Delete ${name}`, plan);
  desk.say(`${name}${more} deleted; undo brings it back`);
}

/** @param {Desk} desk */
export function copy(desk) {
  clipboard = copyOf(desk.store.plan, desk.selection.ids);
  const count = FAMILIES.reduce((sum, family) => sum + (clipboard?.[family]?.length ?? 0), 0);
  desk.say(count ? `${count} copied` : "An opening is copied with its wall: select the wall");
}

/** @param {Desk} desk @param {Point} [by] */
export function paste(desk, by = [0, 0]) {
  if (!clipboard || !Object.keys(clipboard).length) return desk.say("Nothing is copied yet");
  put(desk, clipboard, by, "Paste");
}

/** @param {Desk} desk */
export function duplicate(desk) {
  const held = copyOf(desk.store.plan, desk.selection.ids);
  if (!Object.keys(held).length) return desk.say("An opening is duplicated with its wall: select the wall");
  put(desk, held, [2, -2], "Duplicate");
}

/** @param {Desk} desk @param {Held} held @param {Point} by @param {string} words */
function put(desk, held, by, words) {
  const { plan, ids } = putDown(desk.store.plan, desk.store.levelId, held, by);
  desk.store.commit(words, plan);
  desk.selection.set(ids);
  desk.say(`${words}: ${ids.length} thing${ids.length === 1 ? "" : "s"}`);
}

/** @param {Desk} desk */
export function selectAll(desk) {
  desk.selection.set(FAMILIES.flatMap((family) => (desk.store.level[family] ?? []).map((thing) => thing.id)));
  desk.say(`${desk.selection.ids.size} selected`);
}

/** Move the selection by a step. @param {Desk} desk @param {Point} by feet */
export function nudge(desk, by) {
  const { store, selection } = desk;
  const level = store.committedLevel;
  const units = unitsOf(store.plan);
  let after = moveThings(level, selection.ids, by);
  const only = selection.only ? find(store.plan, selection.only) : undefined;
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

/** Show a thing: its level, selected, in the middle. @param {Desk} desk @param {string} id @param {string | null} [pane] */
export function leadTo(desk, id, pane = null) {
  const found = find(desk.store.plan, id);
  if (!found) {
    if (desk.store.plan.levels.some((level) => level.id === id)) desk.store.showLevel(id);
    return;
  }
  desk.tools.use("select");
  desk.store.showLevel(found.level.id);
  desk.selection.set([id], pane ?? desk.proof.panes.find((entry) => entry.opening === id)?.id ?? null);
  desk.view.centre(placeOf(found), 12);
}
