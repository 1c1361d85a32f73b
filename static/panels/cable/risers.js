/**
 * Risers: where cable may pass between two levels; without one a level cannot be wired to a can on another.
 */

/** @import { Plan, Riser } from "../../plan/types.js" */
/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { newId } from "../../plan/lookup.js";
import { h } from "../html.js";

/** @param {Desk} desk @param {Cable} schedule */
export function risers(desk, schedule) {
  const list = h("div");
  const add = h("button", { type: "button", onclick: () => addRiser(desk) }, "Add a riser in the middle of the view");
  const details = h("details", {}, h("summary", {}, "Risers between levels"), list, add);
  const draw = () => {
    const { plan } = desk.store;
    const some = plan.risers ?? [];
    details.hidden = plan.levels.length < 2;
    details.open ||= plan.levels.length > 1 && !some.length;
    list.replaceChildren(some.length ? h("ul", { class: "things" }, ...some.map((riser) => line(desk, schedule, riser))) : h("p", { class: "quiet" }, "No riser yet: add one where cable can pass, such as a chase or a closet over a closet, and drag it there."));
  };
  desk.store.listen((topic) => topic === "plan" && draw());
  schedule.listen(draw);
  draw();
  return details;
}

/** @param {Desk} desk @param {Cable} schedule @param {Riser} riser */
function line(desk, schedule, riser) {
  const { plan } = desk.store;
  const hole = schedule.answer?.rough_in.holes.find((one) => one.thing === riser.id);
  const count = Object.values(hole?.cables ?? {}).reduce((sum, one) => sum + one, 0);
  const choose = (/** @type {"from" | "to"} */ end) => h("select", { "aria-label": `${riser.id} ${end}`, onchange: (/** @type {Event} */ event) => change(desk, riser, { [end]: /** @type {HTMLSelectElement} */ (event.target).value }) },
    ...plan.levels.filter((level) => level.id === riser[end] || level.id !== riser[end === "from" ? "to" : "from"]).map((level) => h("option", { value: level.id, selected: level.id === riser[end] }, level.name)));
  return h("li", { class: "riser-line" },
    h("button", { type: "button", class: "link", onclick: () => show(desk, riser) }, riser.id), choose("from"), choose("to"),
    h("small", {}, hole ? `${count} cables; if in one hole, ${hole.hole_in.toFixed(2)} in or more` : "not used"),
    h("button", { type: "button", class: "link danger", "aria-label": `Remove riser ${riser.id}`, onclick: () => commit(desk, `Remove riser ${riser.id}`, (all) => all.filter((other) => other.id !== riser.id)) }, "remove"));
}

/** @param {Desk} desk @param {Riser} riser @param {Partial<Riser>} keys */
const change = (desk, riser, keys) => commit(desk, `Change riser ${riser.id}`, (all) => all.map((other) => (other.id === riser.id ? { ...other, ...keys } : other)));

/** @param {Desk} desk @param {Riser} riser */
function show(desk, riser) {
  if (desk.store.levelId !== riser.from && desk.store.levelId !== riser.to) desk.store.showLevel(riser.from);
  desk.view.centre(riser.at, 12);
}

/** @param {Desk} desk */
function addRiser(desk) {
  const { plan, levelId } = desk.store;
  const { width, height } = desk.view.size;
  const [x, y] = desk.view.toPlan(width / 2, height / 2);
  const id = newId(plan, "riser");
  const riser = { id, at: /** @type {[number, number]} */ ([Math.round(x * 12) / 12, Math.round(y * 12) / 12]), from: levelId, to: nextLevel(plan, levelId) };
  commit(desk, `Add riser ${id}`, (all) => [...all, riser]);
  desk.say(`Riser ${id} added in the middle of the view; drag it to where cable can pass`);
}

/** The level above, or below from the top. @param {Plan} plan @param {string} levelId */
function nextLevel(plan, levelId) {
  const sorted = plan.levels.slice().sort((one, two) => (one.elevation ?? 0) - (two.elevation ?? 0));
  const here = sorted.findIndex((level) => level.id === levelId);
  return (sorted[here + 1] ?? sorted[here - 1])?.id ?? levelId;
}

/** @param {Desk} desk @param {string} words @param {(risers: Riser[]) => Riser[]} change */
function commit(desk, words, change) {
  desk.store.commit(words, { ...desk.store.plan, risers: change(desk.store.plan.risers ?? []) });
}
