/**
 * What things are called in the tables about protection, as links that lead to them, and small parts these tables share.
 */

/** @import { ArmingState } from "../../plan/protection_types.js" */
/** @import { Desk } from "../../desk.js" */
/** @import { Child } from "../html.js" */

import { find, nameOf, placeOf, unitsOf } from "../../plan/lookup.js";
import { lengthText } from "../../plan/measures.js";
import { h } from "../html.js";
import { tableTools } from "../table_tools.js";

/** @param {Desk} desk @param {string} id */
export function nameIn(desk, id) {
  const found = find(desk.store.plan, id);
  return found ? nameOf(found, desk.tables) : id;
}

/** Names one after the other. @param {Desk} desk @param {string[]} ids */
export const namesIn = (desk, ids) => ids.map((id) => nameIn(desk, id)).join(", ");

/** A length to the inch, or to the centimetre. @param {Desk} desk @param {number} feet */
export const feetIn = (desk, feet) => (unitsOf(desk.store.plan) === "metric" ? `${(feet * 0.3048).toFixed(2)} m` : lengthText(feet, "imperial", 1));

/** The name of the room of something, or of the level where it has none. @param {Desk} desk @param {string | null} room @param {string} level */
export function whereIn(desk, room, level) {
  const levels = desk.store.plan.levels;
  const floor = levels.length > 1 ? levels.find((entry) => entry.id === level)?.name : undefined;
  return [room ? nameIn(desk, room) : "no named room", floor].filter(Boolean).join(", ");
}

/** Select a thing and bring it into view where it is out of it, at the zoom in force. @param {Desk} desk @param {string} id */
export function point(desk, id) {
  const found = find(desk.store.plan, id);
  if (!found) return;
  desk.store.showLevel(found.level.id);
  desk.selection.set([id]);
  const place = placeOf(found);
  const { x, y } = desk.view.toScreen(place);
  const { width, height } = desk.view.size;
  if (x < 30 || y < 30 || x > width - 30 || y > height - 30) desk.view.centre(place);
}

/** The switch between stay and away. @param {string} name of its view @param {ArmingState} state @param {(state: ArmingState) => void} change */
export function stateSwitch(name, state, change) {
  const choice = (/** @type {ArmingState} */ value, /** @type {string} */ title, /** @type {string} */ words) => h("label", { class: "state-choice" },
    h("input", { type: "radio", name, value, checked: value === state, onchange: () => change(value) }), h("span", {}, h("b", {}, title), h("small", {}, words)));
  return h("fieldset", { class: "states" }, h("legend", { class: "only-read" }, "Arming state"), choice("stay", "Stay", "people at home, motion off"), choice("away", "Away", "nobody at home, all on"));
}

/** @param {string} label @param {(string | null)[]} heads @param {HTMLTableRowElement[]} rows */
export function table(label, heads, rows) {
  const made = h("table", { class: "plain protection-table" },
    h("thead", {}, h("tr", {}, ...heads.map((words) => (words === null ? h("td") : h("th", { scope: "col" }, words))))), h("tbody", {}, ...rows));
  const tools = tableTools(made, label);
  return h("div", {}, h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": label }, made), tools);
}

/** @param {string} words @param {() => void} act @param {Record<string, string>} [more] attributes */
export const link = (words, act, more = {}) => h("button", { type: "button", class: "link", onclick: act, ...more }, words);

/** @param {...Child} children */
export const quiet = (...children) => h("p", { class: "quiet" }, ...children);
