/**
 * Align the selection: one undo step, with what was moved and what stays told. The ways with their words and signs stand
 * here once; keys and the properties' buttons read them.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Way } from "../plan/aligning.js" */

import { aligned } from "../plan/aligning.js";
import { withLevel } from "../plan/edits.js";

/** @type {{way: Way, sign: string, words: string, key: string}[]} a key where one does it at once */
export const WAYS = [
  { way: "left", sign: "⇤", words: "Left sides on one line", key: "Ctrl+←" },
  { way: "upright", sign: "╎", words: "Middles on one upright line", key: "" },
  { way: "right", sign: "⇥", words: "Right sides on one line", key: "Ctrl+→" },
  { way: "top", sign: "⤒", words: "Upper sides on one line", key: "Ctrl+↑" },
  { way: "level", sign: "╌", words: "Middles on one level line", key: "" },
  { way: "bottom", sign: "⤓", words: "Lower sides on one line", key: "Ctrl+↓" },
  { way: "across", sign: "↔", words: "Equal gaps from left to right", key: "" },
  { way: "along", sign: "↕", words: "Equal gaps from top to bottom", key: "" },
  { way: "off", sign: "⊢", words: "As far off the wall as the first", key: "" },
  { way: "room", sign: "⌶", words: "Middle of the room's wall", key: "" },
  { way: "below", sign: "⇡", words: "Over the openings below", key: "" },
];

/** @param {Desk} desk @param {Way} way */
export function align(desk, way) {
  const { store, selection } = desk;
  const single = way === "room" || way === "below";
  if (selection.ids.size < (single ? 1 : 2)) return desk.say(single ? "Choose an opening first" : "Choose two things or more first", true);
  const { level, moved, stays } = aligned(store.plan, store.committedLevel, selection.ids, way);
  const words = WAYS.find((entry) => entry.way === way)?.words ?? "Align";
  const left = stays.length ? ` Stays: ${stays.slice(0, 3).join("; ")}${stays.length > 3 ? `; and ${stays.length - 3} more` : ""}.` : "";
  if (!moved) return desk.say(`Nothing to move: ${words.toLowerCase()} already, or it cannot be.${left}`, stays.length > 0);
  store.commit(words, withLevel(store.plan, level.id, () => level));
  desk.say(`${words}: ${moved} moved.${left}`, stays.length > 0);
}
