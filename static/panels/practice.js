/**
 * The practice of a plan: its design values, from the table, each with bounds, usual value and source.
 */

/** @import { DesignValue } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Field } from "./fields.js" */

import { unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { fieldOf } from "./fields.js";
import { h } from "./html.js";

/** @param {Desk} desk @param {string[]} headings which groups of the table */
export function practiceForm(desk, headings) {
  const values = desk.tables.practice.filter((value) => headings.includes(value.heading) && value.kind !== "numbers");
  const fields = h("div", { class: "fields" });
  let drawn = "";
  const draw = () => {
    const { plan } = desk.store;
    const key = JSON.stringify([plan.practice, plan.units]);
    if (key === drawn) return;
    drawn = key;
    const units = unitsOf(plan);
    fields.replaceChildren(...values.map((value) => fieldOf(asField(value, plan.practice?.[value.key], units), units, (given) => set(desk, value.key, given))));
  };
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
  return h("details", { class: "practice" }, h("summary", {}, "Practice: the design values behind the proof"), fields);
}

/** @param {DesignValue} value @param {unknown} set @param {"imperial" | "metric"} units @returns {Field} */
function asField(value, set, units) {
  const length = value.unit === "ft";
  const usual = length ? lengthText(Number(value.default), units) : String(value.default);
  const label = value.key.split(".").slice(1).join(" ").replaceAll("_", " ");
  const words = `${value.words}. ${value.source}`;
  if (value.kind === "choice") return { key: value.key, label, type: "choice", value: set ?? value.default, choices: value.choices.map((choice) => [choice, choice]), words };
  if (value.kind === "word") return { key: value.key, label, type: "text", value: set ?? "", usual, words };
  return { key: value.key, label, type: length ? "length" : "number", value: set ?? null, usual, low: value.low, high: value.high, ...(length ? {} : { unit: value.unit }), words };
}

/** @param {Desk} desk @param {string} key @param {unknown} given null or "" takes the override out */
function set(desk, key, given) {
  const practice = { ...desk.store.plan.practice };
  const usual = desk.tables.practice.find((value) => value.key === key)?.default;
  if (given === null || given === "" || given === usual) delete practice[key];
  else practice[key] = given;
  desk.store.commit(`Change the practice: ${key}`, { ...desk.store.plan, practice });
}
