/**
 * The practice of a plan: every design value from the table, by heading, with its unit, bounds, usual value and source.
 * A change is a change of the plan: it is saved, judged anew at once, and can be undone.
 */

/** @import { DesignValue } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */

import { unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { asField, labelOf, readGiven, shown } from "./design_values.js";
import { fieldOf } from "./fields.js";
import { h } from "./html.js";

/** @type {Record<string, string>} what the headings of the table are called, in the order in which they stand */
const HEADINGS = {
  glass: "Glass breaks", motion: "Motion detectors", doors: "Doors as sight lines meet them", contact: "Contacts", keypad: "Keypads",
  siren: "Sirens", sound: "Sound", walk: "Walks", entry: "Entry", can: "Can", cable: "Cable", zone: "Zones", power: "Power", battery: "Battery",
};

/** Every value, each group under its heading, with a way back to the defaults. @param {Desk} desk */
export function wholePractice(desk) {
  const known = Object.keys(HEADINGS);
  const of = (/** @type {string} */ heading) => desk.tables.practice.filter((value) => value.heading === heading);
  const others = desk.tables.practice.filter((value) => !known.includes(value.heading));
  const groups = [...known.map((heading) => group(desk, HEADINGS[heading] ?? heading, of(heading))), group(desk, "Heights and mounts of other kinds", others)];
  const state = h("p", { class: "quiet", role: "status" });
  const back = h("button", { type: "button", onclick: () => allBack(desk) }, "All back to default");
  const draw = () => {
    const count = Object.keys(desk.store.plan.practice ?? {}).length;
    state.textContent = count ? `${count} ${count === 1 ? "value differs" : "values differ"} from the default in this plan.` : "Every value is at its default.";
    back.disabled = !count;
  };
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
  return h("div", { class: "practice whole" }, h("p", { class: "quiet" }, "The design values behind the proof, for this plan. A change judges the plan anew at once."), state, h("p", { class: "buttons" }, back), ...groups.filter((entry) => entry !== null));
}

/** Some headings together, where a step works with them. @param {Desk} desk @param {string[]} headings which groups of the table */
export function practiceForm(desk, headings) {
  const fields = h("div", { class: "fields" });
  keepDrawn(desk, fields, desk.tables.practice.filter((value) => headings.includes(value.heading)));
  return h("details", { class: "practice" }, h("summary", {}, "Practice: the design values behind this"), fields);
}

/** @param {Desk} desk @param {string} title @param {DesignValue[]} values */
function group(desk, title, values) {
  if (!values.length) return null;
  const fields = h("div", { class: "fields" });
  const changed = h("small");
  const tell = () => {
    const count = values.filter((value) => value.key in (desk.store.plan.practice ?? {})).length;
    changed.textContent = count ? ` · ${count} changed` : "";
  };
  keepDrawn(desk, fields, values);
  desk.store.listen((topic) => topic === "plan" && tell());
  tell();
  return h("details", { class: "practice-group" }, h("summary", {}, title, changed), fields);
}

/** Fields that follow the plan; the focus stays where it was. @param {Desk} desk @param {HTMLElement} place @param {DesignValue[]} values */
function keepDrawn(desk, place, values) {
  let drawn = "";
  const draw = () => {
    const { plan } = desk.store;
    const key = JSON.stringify([values.map((value) => plan.practice?.[value.key]), plan.units]);
    if (key === drawn) return;
    drawn = key;
    const held = document.activeElement?.closest(".value")?.getAttribute("data-value");
    place.replaceChildren(...values.map((value) => row(desk, value)));
    if (held) /** @type {HTMLElement | null} */ (place.querySelector(`[data-value="${CSS.escape(held)}"] :is(input, select)`))?.focus({ preventScroll: true });
  };
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
}

/** @param {Desk} desk @param {DesignValue} value */
function row(desk, value) {
  const { plan } = desk.store;
  const units = unitsOf(plan);
  const given = plan.practice?.[value.key];
  const changed = given !== undefined;
  const field = fieldOf(asField(value, given, units), units, (next) => set(desk, value, next));
  return h("div", { class: `value${changed ? " changed" : ""}`, "data-value": value.key }, field,
    h("p", { class: "bounds" }, `Default ${shown(value, value.default, units)}${boundsOf(value, units)}`,
      changed ? h("button", { type: "button", class: "link", "aria-label": `${labelOf(value)} back to default`, onclick: () => set(desk, value, null) }, "back to default") : null));
}

/** @param {DesignValue} value @param {"imperial" | "metric"} units */
function boundsOf(value, units) {
  if (value.kind !== "number" && value.kind !== "numbers") return ". ";
  const say = (/** @type {number} */ bound) => (value.unit === "ft" ? lengthText(bound, units) : `${bound}`);
  return `, from ${say(value.low)} to ${say(value.high)}${value.unit === "ft" ? "" : ` ${value.unit}`}. `;
}

/** @param {Desk} desk @param {DesignValue} value @param {unknown} given null or "" takes the override out */
function set(desk, value, given) {
  const practice = { ...desk.store.plan.practice };
  const next = readGiven(value, given, unitsOf(desk.store.plan));
  if (next === null) delete practice[value.key];
  else practice[value.key] = next;
  desk.store.commit(`Change the practice: ${labelOf(value)}`, { ...desk.store.plan, practice });
  desk.say(`${labelOf(value)}: ${practice[value.key] === undefined ? "the default" : shown(value, next, unitsOf(desk.store.plan))}; the plan is judged anew`);
}

/** @param {Desk} desk */
function allBack(desk) {
  const count = Object.keys(desk.store.plan.practice ?? {}).length;
  desk.store.commit("Take the practice back to its defaults", { ...desk.store.plan, practice: {} });
  desk.say(`${count} values are back at their default; undo brings them back`);
}
