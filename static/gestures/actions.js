/**
 * What can be done to the steps and the selection without changing the plan anew: undo, do again, select all, lead to a
 * thing. What changes the selected things is in alterations.js, which is fetched once the page stands.
 */

/** @import { Desk } from "../desk.js" */

import { FAMILIES, find, placeOf } from "../plan/lookup.js";

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
export function selectAll(desk) {
  desk.selection.set(FAMILIES.flatMap((family) => (desk.store.level[family] ?? []).map((thing) => thing.id)));
  desk.say(`${desk.selection.ids.size} selected`);
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
