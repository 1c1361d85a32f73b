/**
 * Risers: where cable may pass between two levels; without one a level cannot be wired to a can on another.
 */

/** @import { Riser } from "../../plan/types.js" */
/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { withRiser } from "../../plan/risers.js";
import { h } from "../html.js";

/** @param {Desk} desk @param {Cable} schedule */
export function risers(desk, schedule) {
  const list = h("div");
  const add = h("button", { type: "button", onclick: () => inTheMiddle(desk) }, "Add a riser in the middle of the view"), place = h("button", { type: "button", title: "Place a riser (Z)", onclick: () => desk.tools.use("riser") }, "Place a riser by a press");
  const details = h("details", {}, h("summary", {}, "Risers between levels"), list, h("div", { class: "buttons" }, place, add));
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
function inTheMiddle(desk) {
  const { width, height } = desk.view.size;
  const [x, y] = desk.view.toPlan(width / 2, height / 2);
  const { plan, riser } = withRiser(desk.store.plan, desk.store.levelId, [Math.round(x * 12) / 12, Math.round(y * 12) / 12]);
  desk.store.commit(`Add riser ${riser.id}`, plan);
  desk.say(`Riser ${riser.id} added in the middle of the view; drag it to where cable can pass`);
}

/** @param {Desk} desk @param {string} words @param {(risers: Riser[]) => Riser[]} change */
function commit(desk, words, change) {
  desk.store.commit(words, { ...desk.store.plan, risers: change(desk.store.plan.risers ?? []) });
}
