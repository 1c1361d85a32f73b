/**
 * Entry doors: the walk to the keypad within the entry delay, drawn, in feet and seconds.
 */

/** @import { EntryPath, ProtectionAnswer } from "../../plan/protection_types.js" */
/** @import { Desk } from "../../desk.js" */
/** @import { Redraw, View } from "./view.js" */

import { drawEntries } from "../../drawing/protection/entry_lines.js";
import { h } from "../html.js";
import { feetIn, link, nameIn, namesIn, point, quiet, table } from "./words.js";

/** @param {Desk} desk @param {Redraw} _redraw @returns {View} */
export function entry(desk, _redraw) {
  const element = h("div");
  const chosen = (/** @type {ProtectionAnswer} */ answer) => answer.states.entries.find((path) => desk.selection.ids.has(path.door) || desk.selection.ids.has(path.keypad))?.door ?? null;
  return {
    name: "entry",
    title: "Entry",
    words: "From each entry door to the keypad, within the delay",
    element,
    fill(answer) {
      const own = answer.states.entries.find((path) => path.door === chosen(answer));
      element.replaceChildren(paths(desk, answer), ...(own ? [one(desk, own)] : []), ...without(desk, answer), quiet("A keypad is needed at a critical entry also where sensors are wireless. The delay is the practice's; the panel's own settings and your local alarm ordinance decide."));
    },
    under: () => [],
    over: (answer) => drawEntries(answer.states.entries, chosen(answer), desk.store.shown, desk.store.level, desk.view, (path) => `${feetIn(desk, path.feet)} · ${Math.round(path.seconds)} of ${path.delay} s`),
  };
}

/** @param {Desk} desk @param {ProtectionAnswer} answer */
function paths(desk, answer) {
  const list = answer.states.entries.slice().sort((a, b) => b.seconds - a.seconds);
  if (!list.length) return h("p", {}, "No delay path yet: an entry door needs a contact, and the house a keypad.");
  return table("Delay paths", ["Door", "Keypad", "Walk"], list.map((path) => h("tr", { class: desk.selection.ids.has(path.door) ? "chosen" : "" },
    h("th", { scope: "row" }, link(nameIn(desk, path.door), () => point(desk, path.door))),
    h("td", {}, nameIn(desk, path.keypad)),
    h("td", { class: "number" }, feetIn(desk, path.feet), h("small", {}, `${path.in_time ? "" : "too late: "}${Math.round(path.seconds)} of ${path.delay} s`)))));
}

/** @param {Desk} desk @param {EntryPath} path */
function one(desk, path) {
  return h("div", { class: "one-way" }, h("p", {}, path.words), path.followers.length ? quiet(`${namesIn(desk, path.followers)} ${path.followers.length === 1 ? "sees" : "see"} this way: programme as followers, which wait while the delay runs.`) : quiet("No motion detector sees this way."));
}

/** Exterior doors without a path. @param {Desk} desk @param {ProtectionAnswer} answer */
function without(desk, answer) {
  const have = new Set(answer.states.entries.map((path) => path.door));
  const doors = answer.states.openings.filter((opening) => opening.kind === "door" && opening.opens && !have.has(opening.id));
  if (!doors.length) return [];
  return [h("h3", {}, "Doors without a delay path"), h("ul", { class: "plain-list" }, ...doors.map((door) => h("li", {}, link(nameIn(desk, door.id), () => point(desk, door.id)), ` ${door.contacts.length ? "no keypad is reached on foot, or nobody walks in by it" : "no contact"}`)))];
}
